/** Text of a procedure file to its tree: front matter, sections, blocks. Never fails. What names and words mean is read elsewhere. */
import type { Heading, TopBlock } from './block-reader.ts';
import { foldText } from './fold.ts';
import { readFrontMatter } from './front-matter.ts';
import type { BlockCache } from './piece-cache.ts';
import { readBody } from './pieces.ts';
import type { FileNames } from './reference-form.ts';
import { isProseSection } from './section-words.ts';
import { lineEnd, sourceOf, textDamage } from './source.ts';
import type { Block, FormatProblem, Procedure, Section, SourceText, Step, StepChild } from './tree.ts';

export function readProcedure(
  path: string,
  raw: string,
  cache?: BlockCache,
): { readonly tree: Procedure; readonly problems: readonly FormatProblem[] } {
  const source = sourceOf(path, raw);
  cache?.nextRound();
  const front = cache?.front(path, source.text, () => readFrontMatter(source)) ?? readFrontMatter(source);
  const body = readBody(source, front.body, 'procedure', fileNames(source, front.body), cache);
  const problems = [...textDamage(source), ...front.problems, ...body.problems];
  const preface: Block[] = [];
  const drafts: { readonly heading: Heading; readonly blocks: Block[] }[] = [];
  for (const block of body.blocks) {
    if (block.kind === 'heading') drafts.push({ heading: block, blocks: [] });
    else (drafts.at(-1)?.blocks ?? preface).push(block);
  }
  const sections = sectionsOf(source, drafts, problems);
  const tree: Procedure = { kind: 'procedure', source, front: front.front, preface, sections };
  problems.push(...sectionProblems(tree), ...idProblems(tree));
  problems.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end || (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0));
  return { tree, problems };
}

/** Ids and titles of the file, told without reading it: what makes "step read" a reference to `{#read}`. */
function fileNames(source: SourceText, from: number): FileNames {
  const body = source.text.slice(from);
  const ids = new Set<string>();
  for (const found of body.matchAll(/\{[^{}\n]{0,300}?#([a-z][a-z0-9-]*)/g)) ids.add(found[1] ?? '');
  const titles = new Set<string>();
  for (const found of body.matchAll(/^#{1,6}[ \t]+(.*)$/gm)) {
    titles.add(foldText((found[1] ?? '').replace(/\{[^{}]*\}/g, '').replace(/[ \t]#+[ \t]*$/, '')));
  }
  return { ids, titles };
}

function sectionsOf(
  source: SourceText,
  drafts: readonly { readonly heading: Heading; readonly blocks: readonly Block[] }[],
  problems: FormatProblem[],
): Section[] {
  const used = new Set<string>();
  let prose = false;
  let outer = 2;
  return drafts.map(({ heading, blocks }, n): Section => {
    if (heading.level <= outer || !prose) {
      prose = isProseSection(heading.title);
      outer = Math.max(heading.level, 2);
    }
    const typed = heading.attributes?.id?.value;
    const id = unique(typed ?? slug(heading.title), used);
    const next = drafts[n + 1]?.heading.span.start ?? source.text.length;
    const end = blocks.at(-1)?.span.end ?? heading.span.end;
    if (heading.level === 1) problems.push(levelProblem(source, heading));
    return {
      kind: 'section',
      span: { start: heading.span.start, end: Math.min(end, next) },
      level: heading.level,
      title: heading.title,
      titleSpan: heading.titleSpan,
      ...(heading.attributes ? { attributes: heading.attributes } : {}),
      id,
      aside: heading.attributes?.entries.some((entry) => entry.key === 'aside') ?? false,
      prose,
      blocks,
    };
  });
}

function levelProblem(source: SourceText, heading: Heading): FormatProblem {
  const at = heading.span.start;
  const end = Math.min(heading.span.end, lineEnd(source, 0) > 0 ? source.text.length : 0);
  return {
    rule: 'sections',
    span: { start: at, end },
    message: 'Sections are headings with two number signs; the title of the procedure stands in its front matter.',
    expected: `## ${heading.title}`,
    replacement: { span: { start: at, end: at }, text: '#', title: 'Make it a section' },
  };
}

function slug(title: string): string {
  const words = foldText(title)
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return /^[a-z]/.test(words) ? words : `section-${words}`.replace(/-+$/, '');
}

function unique(id: string, used: Set<string>): string {
  let name = id;
  for (let n = 2; used.has(name); n++) name = `${id}-${n}`;
  used.add(name);
  return name;
}

function sectionProblems(tree: Procedure): FormatProblem[] {
  const problems: FormatProblem[] = [];
  const titles = new Map<string, Section>();
  tree.sections.forEach((section, n) => {
    const folded = foldText(section.title);
    if (section.title === '') {
      problems.push({
        rule: 'sections',
        span: section.span,
        message: 'This heading has no title.',
        expected: 'a title by which other steps can send the reader here',
      });
    } else if (titles.has(folded)) {
      problems.push({
        rule: 'sections',
        span: section.titleSpan,
        message: `Two sections are called "${section.title}", so a reference to it leads to either.`,
        expected: 'a title of its own for each section',
      });
    }
    titles.set(folded, section);
    const next = tree.sections[n + 1];
    const holdsOthers = next !== undefined && next.level > section.level;
    if (!section.prose && section.level > 1 && !holdsOthers && !section.blocks.some((block) => block.kind === 'steps')) {
      problems.push({
        rule: 'sections',
        span: section.titleSpan,
        message: `The section "${section.title}" has no steps.`,
        expected: 'numbered steps under the heading',
      });
    }
  });
  const stray = tree.preface.find((block) => block.kind === 'steps');
  if (stray) {
    problems.push({
      rule: 'sections',
      span: stray.span,
      message: 'These steps stand before the first heading and belong to no section.',
      expected: 'a heading such as "## Check" before them',
    });
  }
  return problems;
}

/** F4: ids are unique in the file. */
function idProblems(tree: Procedure): FormatProblem[] {
  const problems: FormatProblem[] = [];
  const seen = new Set<string>();
  const claim = (id: string | undefined, span: { readonly start: number; readonly end: number }): void => {
    if (id === undefined) return;
    if (seen.has(id))
      problems.push({
        rule: 'attributes',
        span,
        message: `The id "${id}" is used twice in this file.`,
        actual: id,
        expected: 'an id of its own',
      });
    seen.add(id);
  };
  const children = (list: readonly StepChild[]): void => {
    for (const child of list) {
      if (child.kind === 'substeps') child.steps.forEach(step);
      else if (child.kind === 'branches') {
        for (const branch of child.branches) children(branch.children);
      } else if (child.kind !== 'objects') block(child);
    }
  };
  const step = (one: Step): void => {
    claim(one.id, one.attributes?.id?.span ?? one.span);
    children(one.children);
  };
  const block = (one: Block): void => {
    if (one.kind === 'steps') one.steps.forEach(step);
    else if (one.kind === 'bullets') for (const item of one.items) item.blocks.forEach(block);
    else if (one.kind === 'notice') {
      claim(one.attributes?.id?.value, one.attributes?.id?.span ?? one.span);
      one.blocks.forEach(block);
    } else if (one.kind === 'table') claim(one.id, one.attributes?.id?.span ?? one.span);
    else if (one.kind === 'figure') claim(one.id, one.span);
  };
  tree.preface.forEach(block);
  for (const section of tree.sections) {
    claim(section.attributes?.id?.value, section.attributes?.id?.span ?? section.titleSpan);
    section.blocks.forEach(block);
  }
  return problems;
}

export type { TopBlock };
