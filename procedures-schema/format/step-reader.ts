/** Items to steps, and what hangs on a step: substeps, branches, objects (F5, F6, F7). Blocks in general are block-reader.ts. */

import type { Span } from '../finding.ts';
import { splitCondition, startsWithCondition } from './condition.ts';
import type { LineSpan, Markup, MarkupItem, MarkupList } from './markdown.ts';
import { nameTables } from './name-tables.ts';
import type { Mode } from './outline.ts';
import { emptyProse } from './prose.ts';
import type { Attributes, Block, Branch, Figure, FormatProblem, Notice, Paragraph, Prose, Step, StepChild, TypedLabel } from './tree.ts';
import { type ReadLabel, readMarker, readTypedLabel } from './typed-label.ts';

/** Lines of a first paragraph: its text, and figures and notices on lines of their own. */
export type Run = { readonly kind: 'text' | 'notice'; readonly lines: LineSpan[] } | { readonly kind: 'figure'; readonly figure: Figure };

/** What reading an item needs from the reader of the piece it stands in. */
export interface ItemContext {
  readonly text: string;
  readonly mode: Mode;
  problem(problem: FormatProblem): void;
  block(node: Markup): Block[];
  bullets(items: readonly MarkupItem[], span: Span): Block;
  paragraph(lines: readonly LineSpan[]): (Paragraph | Figure | Notice)[];
  prose(lines: readonly LineSpan[], at: number): Prose;
  quantityStart(item: MarkupItem): void;
  runs(lines: readonly LineSpan[]): Run[];
  takeAttributes(
    from: number,
    to: number,
    place: 'step' | 'heading',
  ): { readonly attributes: Attributes; readonly where: 'start' | 'end'; readonly rest: number } | undefined;
}

export function place(node: Span): Span {
  return { start: node.start, end: node.end };
}

/** A list at the top of a section: steps, and bullets where items carry no label. */
export function readSteps(reader: ItemContext, list: MarkupList): Block[] {
  return runsOf(reader, list).map((run) =>
    run.labelled
      ? { kind: 'steps' as const, span: run.span, steps: run.items.map((item) => readStep(reader, item)) }
      : reader.bullets(run.items, run.span),
  );
}

interface LabelRun {
  readonly labelled: boolean;
  readonly items: MarkupItem[];
  readonly span: Span;
}

/** Items of an ordered list are steps, and so are bullets that carry a typed label ("- A. Open"). */
function runsOf(reader: ItemContext, list: MarkupList): LabelRun[] {
  if (list.ordered) return [{ labelled: true, items: [...list.children], span: place(list) }];
  const runs: { labelled: boolean; items: MarkupItem[]; span: { start: number; end: number } }[] = [];
  for (const item of list.children) {
    const line = leadLines(item)[0];
    const labelled = reader.mode === 'steps' && line !== undefined && readTypedLabel(reader.text.slice(line.start, line.end)) !== undefined;
    const last = runs.at(-1);
    if (last && last.labelled === labelled) {
      last.items.push(item);
      last.span.end = item.end;
    } else runs.push({ labelled, items: [item], span: { start: item.start, end: item.end } });
  }
  return runs;
}

function leadLines(item: MarkupItem): readonly LineSpan[] {
  const first = item.children[0];
  return first?.type === 'paragraph' || first?.type === 'heading' ? first.lines : [];
}

function readStep(reader: ItemContext, item: MarkupItem): Step {
  const { typed, textAt } = labelOf(reader, item);
  reader.quantityStart(item);
  const lines = [...leadLines(item)];
  const first = lines[0];
  if (first && textAt > first.start) lines[0] = { start: Math.min(textAt, first.end), end: first.end };
  const { lead, attributes, more } = readLead(reader, lines, item.end);
  const children = [...more, ...readChildren(reader, leadLines(item).length > 0 ? item.children.slice(1) : item.children)];
  return {
    kind: 'step',
    span: place(item),
    typed,
    ...(attributes ? { attributes } : {}),
    ...(attributes?.id ? { id: attributes.id.value } : {}),
    lead,
    children: nameTables(children),
  };
}

/** The label at an item's start. Behind a marker a second one may stand: "3. Step C: Open"; then that one counts. */
function labelOf(reader: ItemContext, item: MarkupItem): { readonly typed: TypedLabel; readonly textAt: number } {
  const stop = /[\r\n]/.exec(reader.text.slice(item.start, item.end))?.index ?? item.end - item.start;
  const line = reader.text.slice(item.start, item.start + stop);
  const outer: ReadLabel = readMarker(line) ??
    readTypedLabel(line) ?? { raw: line.slice(0, 1), length: 1 + (/^[ \t]*/.exec(line.slice(1))?.[0].length ?? 0), style: 'bullet' };
  const at = item.start + outer.length;
  const inner = readTypedLabel(line.slice(outer.length));
  const span = { start: item.start, end: item.start + outer.raw.length };
  if (!inner || !carries(outer, inner)) return { typed: typedOf(outer, item.start), textAt: at };
  const marker = { span, raw: outer.raw, ...(outer.ordinal === undefined ? {} : { ordinal: outer.ordinal }) };
  return { typed: { ...typedOf(inner, at), marker }, textAt: at + inner.length };
}

/** "4. T. nut": a lone capital behind a number is a label only where both count the same. */
function carries(outer: ReadLabel, inner: ReadLabel): boolean {
  if (outer.style === 'bullet' || /^step/i.test(inner.raw)) return true;
  if (/^[A-Za-z]\.$/.test(inner.raw)) return inner.ordinal === outer.ordinal;
  return true;
}

function typedOf(label: ReadLabel, at: number): TypedLabel {
  return {
    span: { start: at, end: at + label.raw.length },
    raw: label.raw,
    style: label.style,
    ...(label.ordinal === undefined ? {} : { ordinal: label.ordinal }),
    ...(label.parents ? { parents: label.parents } : {}),
  };
}

interface Lead {
  readonly lead: Prose;
  readonly attributes?: Attributes;
  /** Figures and notices that stood on lines of their own inside the first paragraph. */
  readonly more: StepChild[];
}

function readLead(reader: ItemContext, lines: readonly LineSpan[], at: number): Lead {
  const first = lines[0];
  if (!first) return { lead: emptyProse(at), more: [] };
  const rest = [...lines];
  let attributes: Attributes | undefined;
  const taken = reader.takeAttributes(first.start, first.end, 'step');
  if (taken) {
    attributes = taken.attributes;
    rest[0] = taken.where === 'start' ? { start: taken.rest, end: first.end } : { start: first.start, end: taken.rest };
  }
  const last = rest.at(-1);
  // A step that is wrapped may carry them at the end of its last line.
  if (last && rest.length > 1) {
    const end = reader.takeAttributes(last.start, last.end, 'step');
    if (end?.where === 'end') {
      attributes = attributes ? joined(attributes, end.attributes) : end.attributes;
      rest[rest.length - 1] = { start: last.start, end: end.rest };
    }
  } else if (taken?.where === 'start' && rest[0]) {
    const end = reader.takeAttributes(rest[0].start, rest[0].end, 'step');
    if (end?.where === 'end') {
      attributes = joined(taken.attributes, end.attributes);
      rest[0] = { start: rest[0].start, end: end.rest };
    }
  }
  const kept = rest.filter((line) => line.end > line.start);
  const runs = reader.runs(kept);
  const text = runs[0]?.kind === 'text' ? runs[0].lines : [];
  const lead = reader.prose(text, first.start);
  const more = runs.slice(text.length > 0 ? 1 : 0).flatMap((run) => (run.kind === 'figure' ? [run.figure] : reader.paragraph(run.lines)));
  if (runs[0]?.kind === 'notice') {
    reader.problem({
      rule: 'notice-form',
      span: { start: first.start, end: runs[0].lines.at(-1)?.end ?? first.end },
      message: 'A notice is numbered as if it were a step. Nothing is done in it.',
      expected: 'the notice before the step it belongs to, without a number',
    });
  }
  return { lead, ...(attributes ? { attributes } : {}), more };
}

function joined(a: Attributes, b: Attributes): Attributes {
  const id = a.id ?? b.id;
  return { span: { start: a.span.start, end: b.span.end }, ...(id ? { id } : {}), entries: [...a.entries, ...b.entries] };
}

function readChildren(reader: ItemContext, nodes: readonly Markup[]): StepChild[] {
  const out: StepChild[] = [];
  for (const node of nodes) {
    if (node.type !== 'list') {
      for (const block of reader.block(node)) out.push(...asChild(block));
      continue;
    }
    for (const run of runsOf(reader, node)) {
      if (run.labelled) out.push({ kind: 'substeps', span: run.span, steps: run.items.map((item) => readStep(reader, item)) });
      else out.push(...readBullets(reader, run.items));
    }
  }
  return out;
}

/** Lists inside a quote inside an item arrive as blocks. */
function asChild(block: Block): StepChild[] {
  if (block.kind === 'steps') return [{ kind: 'substeps', span: block.span, steps: block.steps }];
  if (block.kind !== 'bullets') return [block];
  const items = block.items.map((item) => ({ span: item.span, prose: item.prose }));
  return [{ kind: 'objects', span: block.span, items }, ...block.items.flatMap((item) => item.blocks.flatMap(asChild))];
}

function readBullets(reader: ItemContext, items: readonly MarkupItem[]): StepChild[] {
  const read = items.map((item) => {
    const { lead, more } = readLead(reader, leadLines(item), item.end);
    reader.quantityStart(item);
    const children = [...more, ...readChildren(reader, leadLines(item).length > 0 ? item.children.slice(1) : item.children)];
    return { span: place(item), prose: lead, children, conditional: startsWithCondition(lead) };
  });
  const mixed = read.some((item) => item.conditional) && read.some((item) => !item.conditional);
  const odd = read.find((item) => item.conditional !== read[0]?.conditional);
  if (mixed && odd) {
    reader.problem({
      rule: 'branches',
      span: odd.span,
      message:
        'Some bullets of this list start with a condition and some do not, so it cannot be told whether one or all of them are done.',
      expected: 'all bullets with a condition ("If ...", "Otherwise ..."), or none',
    });
  }
  const out: StepChild[] = [];
  for (const item of read) {
    const last = out.at(-1);
    if (item.conditional) {
      const branch = branchOf(reader, item);
      if (last?.kind === 'branches')
        out[out.length - 1] = { ...last, span: span(last.span, item.span), branches: [...last.branches, branch] };
      else out.push({ kind: 'branches', span: item.span, branches: [branch] });
      continue;
    }
    const object = { span: item.span, prose: item.prose };
    if (last?.kind === 'objects') out[out.length - 1] = { ...last, span: span(last.span, item.span), items: [...last.items, object] };
    else out.push({ kind: 'objects', span: item.span, items: [object] });
    // What hangs on an object stands after it, so that whoever goes through the children of a step meets it.
    out.push(...item.children);
  }
  for (const list of out) if (list.kind === 'branches') checkOtherwise(reader, list.branches);
  return out;
}

function span(a: { readonly start: number }, b: { readonly end: number }): Span {
  return { start: a.start, end: b.end };
}

function branchOf(
  reader: ItemContext,
  item: { readonly span: Span; readonly prose: Prose; readonly children: readonly StepChild[] },
): Branch {
  const { condition, otherwise, lead, endless } = splitCondition(item.prose);
  if (endless && item.children.length === 0) {
    reader.problem({
      rule: 'branches',
      span: item.prose.span,
      message: 'It cannot be told where the condition of this bullet ends.',
      expected: 'a comma or a colon between the condition and what is to be done',
    });
  }
  return { kind: 'branch', span: item.span, condition, otherwise, lead, children: item.children };
}

function checkOtherwise(reader: ItemContext, branches: readonly Branch[]): void {
  const at = branches.findIndex((branch) => branch.otherwise);
  const branch = branches[at];
  if (!branch || at === branches.length - 1) return;
  reader.problem({
    rule: 'branches',
    span: branch.lead.span,
    message: '"Otherwise" stands before other bullets, which are then never reached.',
    expected: '"Otherwise" as the last bullet',
  });
}
