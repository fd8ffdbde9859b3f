/**
 * Edits that give every step the label of its place and let every reference mean the step it meant: after a slip, when a step is
 * taken out, when one is put in. Only text is made here; the caller lays the edits on the file.
 */
import type { Span, TextEdit } from '../finding.ts';
import { type Procedure, type ReferenceMark, type Step, type WalkedStep, walkSteps } from '../format/index.ts';
import type { NumberingStyle } from '../registers/index.ts';
import { eachProse } from './each-prose.ts';
import { labelSequence, labelsOf } from './labels.ts';
import type { Labels } from './model.ts';
import { type Heirs, NO_HEIRS, Renumbering, sorted, startOfLine } from './renumbering.ts';
import { rewritten } from './typed-label-text.ts';

/** Typed labels and typed references rewritten to what they meant. No edits: the file is in order. */
export function renumber(tree: Procedure, style: NumberingStyle): readonly TextEdit[] {
  const labels = labelsOf(tree, style);
  return new Renumbering(tree, labels, labels, NO_HEIRS).edits();
}

/** Takes a step out, with all that hangs on it. Whoever was sent to it is sent to the step that follows. */
export function removeStep(tree: Procedure, step: Step, style: NumberingStyle): readonly TextEdit[] {
  const before = labelsOf(tree, style);
  const walk = [...walkSteps(tree)];
  const gone = new Set<Step>();
  for (const walked of walk) if (walked.step === step || (walked.parent && gone.has(walked.parent))) gone.add(walked.step);
  const after = labelSequence(
    walk.filter((walked) => !gone.has(walked.step)),
    tree.sections,
    style,
  );
  const heirs = heirsOf(before, step, gone);
  const lines = wholeLines(tree.source.text, step.span);
  const edits = [...new Renumbering(tree, before, after, heirs).edits(), ...moveIds(tree, gone, heirs)];
  const kept = edits.filter((edit) => edit.end <= lines.start || edit.start >= lines.end);
  return sorted([...kept, { file: tree.source.path, ...lines, text: '' }]);
}

/** Puts a step in after `step`, at its depth. `lines` are its text without a label; later lines are indented under the first. */
export function insertAfter(tree: Procedure, step: Step, lines: readonly string[], style: NumberingStyle): readonly TextEdit[] {
  const before = labelsOf(tree, style);
  const added: Step = { ...step, children: [] };
  const after = labelSequence(withAdded(walkSteps(tree), step, added), tree.sections, style);
  const label = after.byStep.get(added);
  const { text, path } = tree.source;
  const end = endOfLine(text, step.span.end);
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  const own = text.slice(startOfLine(text, step.span.start), step.span.start);
  const margin = own.replace(/\S/g, ' ');
  const ordinal = label?.path.at(-1) ?? 1;
  const { typed } = step;
  const marker = typed.marker ? `${rewritten(typed.marker.raw, typed.marker.ordinal === undefined ? 'bullet' : 'number', ordinal)} ` : '';
  const shape = `${marker}${rewritten(typed.raw, typed.style, ordinal, typed.parents ?? [])} `;
  const inner = margin + ' '.repeat(shape.length);
  const added_ = lines.map((line, n) => (n === 0 ? margin + shape + line : line === '' ? '' : inner + line));
  const edits = new Renumbering(tree, before, after, NO_HEIRS).edits();
  return sorted([...edits, { file: path, start: end, end, text: newline + added_.join(newline) }]);
}

function* withAdded(walk: Iterable<WalkedStep>, step: Step, added: Step): Generator<WalkedStep> {
  const inside = new Set<Step>();
  let place: WalkedStep | undefined;
  for (const walked of walk) {
    const below = walked.parent !== undefined && inside.has(walked.parent);
    if (place && !below) {
      yield { ...place, step: added };
      place = undefined;
    }
    yield walked;
    if (walked.step === step) place = walked;
    if (walked.step === step || below) inside.add(walked.step);
  }
  if (place) yield { ...place, step: added };
}

// ---------------------------------------------------------------- heirs

/** A reference goes to the step that follows; the end of a range to the one before, so that the range grows by nothing. */
function heirsOf(labels: Labels, step: Step, gone: ReadonlySet<Step>): Heirs {
  const removed = labels.byStep.get(step);
  const left = labels.steps.filter((one) => !gone.has(one.step));
  const order = removed?.order ?? 0;
  const following = left.find((one) => one.order > order && one.section === removed?.section) ?? left.find((one) => one.order > order);
  const preceding = left.findLast((one) => one.order < order && one.section === removed?.section);
  const start = (following ?? left.at(-1))?.step;
  const end = (preceding ?? following ?? left.at(-1))?.step;
  return {
    start: (one) => (gone.has(one) ? start : one),
    end: (one) => (gone.has(one) ? end : one),
  };
}

/** Live references to ids that go: their heirs get the id, or the reference is rewritten to an id the heir has. */
function moveIds(tree: Procedure, gone: ReadonlySet<Step>, heirs: Heirs): TextEdit[] {
  const file = tree.source.path;
  const ids = new Map<string, Step>();
  for (const step of gone) if (step.id !== undefined) ids.set(step.id, step);
  if (ids.size === 0) return [];
  const edits: TextEdit[] = [];
  const given = new Map<Step, string>();
  const taken = new Set<string>();
  const idFor = (id: string, heir: (step: Step) => Step | undefined): string => {
    const step = ids.get(id);
    const target = step ? heir(step) : undefined;
    if (!target) return id;
    const known = target.id ?? given.get(target);
    if (known !== undefined) return known;
    let name = id;
    for (let n = 2; taken.has(name); n++) name = `${id}-${n}`;
    taken.add(name);
    given.set(target, name);
    const braces = target.attributes;
    const at = braces ? braces.span.start + 1 : target.lead.span.start;
    edits.push({ file, start: at, end: at, text: braces ? `#${name} ` : `{#${name}} ` });
    return name;
  };
  for (const mark of liveReferences(tree, gone)) {
    const { form } = mark;
    if (form.kind === 'step' && ids.has(form.id)) {
      const id = idFor(form.id, heirs.start);
      if (id !== form.id) edits.push({ file, ...mark.span, text: `[step #${id}]` });
    } else if (form.kind === 'steps' && (ids.has(form.from) || ids.has(form.to))) {
      const from = ids.has(form.from) ? idFor(form.from, heirs.start) : form.from;
      const to = ids.has(form.to) ? idFor(form.to, heirs.end) : form.to;
      if (from !== form.from || to !== form.to)
        edits.push({ file, ...mark.span, text: from === to ? `[step #${from}]` : `[steps #${from} to #${to}]` });
    }
  }
  return edits;
}

function liveReferences(tree: Procedure, gone: ReadonlySet<Step>): ReferenceMark[] {
  const out: ReferenceMark[] = [];
  for (const { prose, step } of eachProse(tree)) {
    if (step && gone.has(step)) continue;
    for (const mark of prose.marks) if (mark.kind === 'reference') out.push(mark);
  }
  return out;
}

// ---------------------------------------------------------------- lines

/** The lines a step stands on. If something else stands before it on its first line, only the step itself. */
function wholeLines(text: string, span: Span): Span {
  const start = startOfLine(text, span.start);
  if (/\S/.test(text.slice(start, span.start))) return span;
  let end = endOfLine(text, span.end);
  if (text.startsWith('\r\n', end)) end += 2;
  else if (end < text.length) end += 1;
  // Between two empty lines one of them goes along.
  const before = /(?:^|\n|\r)[ \t]*(?:\r\n|\n|\r)$/.test(text.slice(Math.max(0, start - 200), start));
  const after = /^[ \t]*(?:\r\n|\n|\r)/.exec(text.slice(end, end + 200));
  return { start, end: before && after ? end + after[0].length : end };
}

function endOfLine(text: string, at: number): number {
  let end = at;
  while (end < text.length && text[end] !== '\n' && text[end] !== '\r') end++;
  return end;
}
