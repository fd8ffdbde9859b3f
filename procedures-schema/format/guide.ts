/** Text of a guide file to its tree (F13): front matter, headings as parts, bullets of document references as entries, the rest as foreword. */
import { readFrontMatter } from './front-matter.ts';
import { readBody } from './pieces.ts';
import { NO_NAMES } from './reference-form.ts';
import { sourceOf, textDamage } from './source.ts';
import type { Block, FormatProblem, Guide, Prose } from './tree.ts';

interface Part {
  span: { start: number; end: number };
  readonly title: string;
  readonly blocks: Block[];
  readonly entries: { readonly span: { readonly start: number; readonly end: number }; readonly document: string }[];
}

export function readGuide(path: string, raw: string): { readonly tree: Guide; readonly problems: readonly FormatProblem[] } {
  const source = sourceOf(path, raw);
  const front = readFrontMatter(source);
  const body = readBody(source, front.body, 'guide', NO_NAMES, undefined);
  const problems: FormatProblem[] = [...textDamage(source), ...front.problems, ...body.problems];
  const foreword: Block[] = [];
  const parts: Part[] = [];
  for (const block of body.blocks) {
    if (block.kind === 'heading') {
      parts.push({ span: { start: block.span.start, end: block.span.end }, title: block.title, blocks: [], entries: [] });
      if (block.title === '') problems.push({ rule: 'guide-form', span: block.span, message: 'This part of the guide has no title.' });
      continue;
    }
    const part = parts.at(-1);
    if (!part) {
      foreword.push(block);
      if (block.kind === 'bullets' && block.items.some((item) => documentOf(item.prose) !== undefined)) {
        problems.push({
          rule: 'guide-form',
          span: block.span,
          message: 'These documents stand before the first heading, so they belong to no part of the guide and are not bound in.',
          expected: 'a heading such as "## Checks" before the list',
        });
      }
      continue;
    }
    part.span = { start: part.span.start, end: block.span.end };
    part.blocks.push(block);
    if (block.kind === 'bullets') readEntries(block, part, problems);
  }
  for (const part of parts) {
    if (part.entries.length === 0 && part.blocks.length === 0) {
      problems.push({
        rule: 'guide-form',
        span: part.span,
        message: `The part "${part.title}" is empty.`,
        expected: 'a list such as "- [OM-3120]"',
      });
    }
  }
  problems.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end || (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0));
  return { tree: { kind: 'guide', source, front: front.front, foreword, parts }, problems };
}

/** The document a bullet is nothing but a reference to. */
function documentOf(prose: Prose): string | undefined {
  const mark = prose.marks.find((one) => one.kind === 'reference');
  if (mark?.kind !== 'reference' || mark.at !== 0 || mark.end !== prose.text.trimEnd().length) return undefined;
  if (mark.form.kind === 'section' && mark.form.document !== undefined) return mark.form.document;
  return mark.content;
}

function readEntries(block: Extract<Block, { kind: 'bullets' }>, part: Part, problems: FormatProblem[]): void {
  const documents = block.items.map((item) => documentOf(item.prose));
  if (documents.every((document) => document === undefined)) return; // a list in the part's own words
  block.items.forEach((item, n) => {
    const document = documents[n];
    if (document === undefined) {
      problems.push({
        rule: 'guide-form',
        span: item.span,
        message: 'This line of the list names no document, so nothing is bound in for it.',
        actual: item.prose.text,
        expected: 'a document number in brackets, such as [OM-3120], and nothing else',
      });
      return;
    }
    if (item.blocks.length > 0) {
      problems.push({
        rule: 'guide-form',
        span: item.span,
        message: 'What stands under a document in the list is not printed.',
        expected: 'a paragraph before or after the list',
      });
    }
    part.entries.push({ span: item.span, document });
  });
}
