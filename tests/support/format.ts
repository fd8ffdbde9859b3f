/** Markdown and YAML in, a drawing of the tree out: what tests of format/ and numbering/ read. Only this file calls the readers. */
import { cutUp, endingOf } from '../../procedures-schema/format/cut-up.ts';
import {
  type Block,
  type FormatProblem,
  type Procedure,
  type Prose,
  readGuide,
  readProcedure,
  readYaml,
  type Step,
  type StepChild,
  yamlToPlain,
} from '../../procedures-schema/format/index.ts';
import { type Markup, parseBlocks, parseFully, placeIn } from '../../procedures-schema/format/markdown.ts';
import { outlineOf } from '../../procedures-schema/format/outline.ts';
import { plainMarkup } from '../../procedures-schema/format/plain-markup.ts';
import { sourceOf } from '../../procedures-schema/format/source.ts';

export const FRONT = '---\nid: FX-100\n---\n';

/** A procedure file with front matter and the given body under the heading "Work". */
export function work(body: string): string {
  return `${FRONT}\n## Work\n${body}`;
}

export function treeOf(text: string): Procedure {
  return readProcedure('procedures/FX-100.md', text).tree;
}

/** The tree of a whole file, drawn a line a node. */
export function drawFile(text: string): string {
  const tree = treeOf(text);
  const out = blocks(tree.preface, '');
  for (const section of tree.sections) {
    out.push(`${'#'.repeat(section.level)} ${section.title}${section.prose ? ' (prose)' : ''}${section.aside ? ' (aside)' : ''}`);
    out.push(...blocks(section.blocks, ''));
  }
  return out.join('\n');
}

/** The tree below the heading of `work(body)`. */
export function draw(body: string): string {
  return drawFile(work(body)).split('\n').slice(1).join('\n');
}

/** "rule: the text it stands at", a line a problem; with ` -> ` and the text after its replacement where it has one. */
export function problemsOfFile(text: string, rule?: string): string {
  const { problems, tree } = readProcedure('procedures/FX-100.md', text);
  return listed(problems, tree.source.text, rule);
}

export function problems(body: string, rule?: string): string {
  return problemsOfFile(work(body), rule);
}

function listed(found: readonly FormatProblem[], text: string, rule: string | undefined): string {
  return found
    .filter((problem) => rule === undefined || problem.rule === rule)
    .map((problem) => `${problem.rule}: ${text.slice(problem.span.start, problem.span.end)}`)
    .join('\n');
}

/** The body after every replacement offered has been made, one round. */
export function mended(body: string): string {
  const text = work(body);
  const { problems: found } = readProcedure('procedures/FX-100.md', text);
  const edits = found.flatMap((problem) => (problem.replacement ? [problem.replacement] : [])).sort((a, b) => b.span.start - a.span.start);
  let out = text;
  for (const edit of edits) out = out.slice(0, edit.span.start) + edit.text + out.slice(edit.span.end);
  return out.slice(work('').length);
}

export function yamlOf(text: string): unknown {
  return yamlToPlain(readYaml('registers/tools.yaml', text).tree.root);
}

export function yamlProblems(text: string): string {
  const { problems: found, tree } = readYaml('registers/tools.yaml', text);
  return listed(found, tree.source.text, undefined);
}

export function drawGuide(body: string): string {
  const { tree } = readGuide('guides/FX-500.md', `${FRONT}${body}`);
  const out = blocks(tree.foreword, '');
  for (const part of tree.parts) out.push(`## ${part.title}: ${part.entries.map((entry) => entry.document).join(', ')}`);
  return out.join('\n');
}

export function guideProblems(body: string): string {
  const { problems: found, tree } = readGuide('guides/FX-500.md', `${FRONT}${body}`);
  return listed(found, tree.source.text, undefined);
}

function blocks(list: readonly Block[], indent: string): string[] {
  return list.flatMap((block): string[] => {
    switch (block.kind) {
      case 'steps':
        return block.steps.flatMap((step) => drawStep(step, indent));
      case 'bullets':
        return block.items.flatMap((item) => [`${indent}- ${prose(item.prose)}`, ...blocks(item.blocks, `${indent}  `)]);
      default:
        return leaf(block, indent);
    }
  });
}

function leaf(block: Exclude<Block, { kind: 'steps' | 'bullets' }>, indent: string): string[] {
  switch (block.kind) {
    case 'paragraph':
      return [`${indent}text ${prose(block.prose)}`];
    case 'notice':
      return [`${indent}${block.word} (${block.form})`, ...blocks(block.blocks, `${indent}  `)];
    case 'table':
      return [
        `${indent}table${block.id === undefined ? '' : ` #${block.id}`}`,
        ...[block.head, ...block.rows.map((row) => row.cells)].map(
          (row) => `${indent}  ${row.map((cell) => prose(cell.prose)).join(' | ')}`,
        ),
      ];
    case 'figure':
      return [`${indent}figure ${block.path}${block.id === undefined ? '' : ` #${block.id}`} "${block.alt}"`];
    case 'code':
      return [`${indent}code ${JSON.stringify(block.value)}`];
  }
}

function drawStep(step: Step, indent: string): string[] {
  const { typed } = step;
  const ordinal = [...(typed.parents ?? []), typed.ordinal ?? '?'].join('.');
  const braces = (step.attributes?.entries ?? []).map((entry) => ` {${entry.key}=${entry.value ?? ''}}`).join('');
  const marker = typed.marker ? `${typed.marker.raw} ` : '';
  return [
    `${indent}${marker}${typed.raw} <${typed.style} ${ordinal}> ${prose(step.lead)}${step.id === undefined ? '' : ` #${step.id}`}${braces}`,
    ...step.children.flatMap((child) => drawChild(child, `${indent}  `)),
  ];
}

function drawChild(child: StepChild, indent: string): string[] {
  switch (child.kind) {
    case 'substeps':
      return child.steps.flatMap((step) => drawStep(step, indent));
    case 'branches':
      return child.branches.flatMap((branch) => [
        `${indent}${branch.otherwise ? 'otherwise' : `if <${prose(branch.condition)}>`} do <${prose(branch.lead)}>`,
        ...branch.children.flatMap((inner) => drawChild(inner, `${indent}  `)),
      ]);
    case 'objects':
      return child.items.map((item) => `${indent}- ${prose(item.prose)}`);
    default:
      return leaf(child, indent);
  }
}

/** Text with its marks put back: [reference:kind], **strong**, *em*, `code`. */
export function prose(one: Prose): string {
  const signs: { at: number; order: number; text: string }[] = [];
  one.marks.forEach((mark, n) => {
    const [open, close] =
      mark.kind === 'reference'
        ? ['[', mark.form.kind === 'name' ? ']' : `]:${mark.form.kind}`]
        : mark.kind === 'strong'
          ? ['**', '**']
          : mark.kind === 'em'
            ? ['*', '*']
            : ['`', '`'];
    signs.push({ at: mark.at, order: n, text: open ?? '' }, { at: mark.end, order: -1000 - n, text: close ?? '' });
  });
  signs.sort((a, b) => a.at - b.at || a.order - b.order);
  let out = '';
  let at = 0;
  for (const sign of signs) {
    out += one.text.slice(at, sign.at) + sign.text;
    at = sign.at;
  }
  return out + one.text.slice(at);
}

// ---------------------------------------------------------------- pieces against the whole

/** Blocks read piece by piece, lists joined where they meet. */
export function markupInPieces(text: string): readonly Markup[] {
  const source = sourceOf('x.md', text);
  const outline = outlineOf(source, 0, text.length, 'procedure');
  const pieces = cutUp(outline.lines.length, outline.cuts, (from, to) => {
    const nodes = parseBlocks(outline.lines.slice(from, to), 0);
    return { nodes, ...endingOf(nodes) };
  });
  const out: Markup[] = [];
  for (const piece of pieces) {
    piece.nodes.forEach((node, n) => {
      const last = out.at(-1);
      if (n === 0 && last?.type === 'list' && node.type === 'list' && last.ordered === node.ordered && last.marker === node.marker) {
        out[out.length - 1] = { ...last, end: node.end, children: [...last.children, ...node.children] };
      } else out.push(node);
    });
  }
  return out;
}

export function markupWhole(text: string): readonly Markup[] {
  const source = sourceOf('x.md', text);
  return parseFully(outlineOf(source, 0, text.length, 'procedure').lines, 0);
}

/** Pieces that are read by hand, each with what the parser makes of it, and how many are left to the parser. */
export function plainPieces(text: string): {
  readonly plain: readonly { readonly own: readonly Markup[]; readonly parsed: readonly Markup[] }[];
  readonly left: number;
} {
  const source = sourceOf('x.md', text);
  const outline = outlineOf(source, 0, text.length, 'procedure');
  const plain: { own: readonly Markup[]; parsed: readonly Markup[] }[] = [];
  let left = 0;
  cutUp(outline.lines.length, outline.cuts, (from, to) => {
    const lines = outline.lines.slice(from, to);
    const parsed = parseFully(lines, 0);
    const own = plainMarkup(lines, (line, column) => placeIn(lines, 0, line, column));
    if (own === undefined) left += 1;
    else plain.push({ own, parsed });
    return endingOf(parsed);
  });
  return { plain, left };
}

export function pieceCount(text: string): number {
  const source = sourceOf('x.md', text);
  return outlineOf(source, 0, text.length, 'procedure').cuts.length;
}
