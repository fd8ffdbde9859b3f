/** Ways to go through a read procedure, so that checks say what they look for and not how to get there. */
import type { Draft, Span, WalkStep } from '../finding.ts';
import type { FlowPlace, ReadChild, ReadProcedure, ReadStep, WalkPoint } from '../flow/index.ts';
import { type Block, type Notice, type Procedure, type Prose, proseSpan, type Section, type Step, type Table } from '../format/index.ts';
import type { LabelledStep } from '../numbering/index.ts';
import type { Action, Reading, Sentence } from '../reading/index.ts';
import type { Names } from '../registers/index.ts';

/** One prose run that was read, with where it stands. */
export interface ReadPlace {
  readonly step: LabelledStep;
  readonly reading: Reading;
  readonly prose: Prose;
  readonly kind: 'lead' | 'condition' | 'branch' | 'bullet' | 'paragraph';
}

/** Every reading of a procedure, in document order. */
export function eachReading(read: ReadProcedure): readonly ReadPlace[] {
  return once(READINGS, read, () => read.steps.flatMap((step) => [...eachReadingOfStep(step)]));
}

/** Nearly every check goes through all sentences of one procedure: the walk is made once for each value of it. */
function once<T>(known: WeakMap<ReadProcedure, readonly T[]>, read: ReadProcedure, make: () => readonly T[]): readonly T[] {
  let list = known.get(read);
  if (list === undefined) {
    list = make();
    known.set(read, list);
  }
  return list;
}
const READINGS = new WeakMap<ReadProcedure, readonly ReadPlace[]>();
const SENTENCES = new WeakMap<ReadProcedure, readonly SentencePlace[]>();
const ACTIONS = new WeakMap<ReadProcedure, readonly ActionPlace[]>();

export function* eachReadingOfStep(step: ReadStep): Iterable<ReadPlace> {
  yield { step: step.at, reading: step.lead, prose: step.at.step.lead, kind: 'lead' };
  yield* eachReadingOfChildren(step.children, step.at);
}

function* eachReadingOfChildren(children: readonly ReadChild[], step: LabelledStep): Iterable<ReadPlace> {
  for (const child of children) {
    if (child.kind === 'substeps') for (const sub of child.steps) yield* eachReadingOfStep(sub);
    else if (child.kind === 'branches')
      for (const { branch, condition, lead, children: below } of child.branches) {
        yield { step, reading: condition, prose: branch.condition, kind: 'condition' };
        yield { step, reading: lead, prose: branch.lead, kind: 'branch' };
        yield* eachReadingOfChildren(below, step);
      }
    else if (child.kind === 'objects')
      for (const [index, reading] of child.items.entries()) {
        const prose = child.proses?.[index];
        if (prose) yield { step, reading, prose, kind: 'bullet' };
      }
    else if (child.child.kind === 'paragraph') yield { step, reading: child.reading, prose: child.child.prose, kind: 'paragraph' };
  }
}

export interface SentencePlace extends ReadPlace {
  readonly sentence: Sentence;
  readonly span: Span;
}
export function eachSentence(read: ReadProcedure): readonly SentencePlace[] {
  return once(SENTENCES, read, () =>
    eachReading(read).flatMap((place) =>
      place.reading.sentences.map((sentence) => {
        const { step, reading, prose, kind } = place;
        return { step, reading, prose, kind, sentence, span: proseSpan(prose, sentence.at, sentence.end) };
      }),
    ),
  );
}

export interface ActionPlace extends SentencePlace {
  readonly action: Action;
}
/** Every action, in document order, with the source span of its words. */
export function eachAction(read: ReadProcedure): readonly ActionPlace[] {
  return once(ACTIONS, read, () =>
    eachSentence(read).flatMap((place) =>
      place.sentence.actions.map((action) => {
        const { step, reading, prose, kind, sentence } = place;
        return { step, reading, prose, kind, sentence, action, span: proseSpan(prose, action.at, action.end) };
      }),
    ),
  );
}

/** Every notice of a section or step, with the step it stands in (if it does) and the blocks after it. */
export interface NoticePlace {
  readonly notice: Notice;
  readonly section: Section;
  readonly step?: Step;
  /** Stands under the heading, before any step. */
  readonly heading: boolean;
}
export function* eachNotice(sections: readonly Section[]): Iterable<NoticePlace> {
  for (const section of sections) {
    let steps = false;
    for (const block of section.blocks) {
      if (block.kind === 'notice') yield { notice: block, section, heading: !steps };
      else if (block.kind === 'steps') {
        steps = true;
        for (const step of block.steps) yield* noticesOfStep(step, section);
      }
    }
  }
}
function* noticesOfStep(step: Step, section: Section): Iterable<NoticePlace> {
  for (const child of step.children) {
    if (child.kind === 'notice') yield { notice: child, section, step, heading: false };
    else if (child.kind === 'substeps') for (const sub of child.steps) yield* noticesOfStep(sub, section);
    else if (child.kind === 'branches')
      for (const branch of child.branches)
        for (const below of branch.children) if (below.kind === 'notice') yield { notice: below, section, step, heading: false };
  }
}

/** Every block of the given kind anywhere in a procedure, prose sections and steps included. */
export function* eachBlock<K extends Block['kind']>(blocks: Iterable<Block>, kind: K): Iterable<Extract<Block, { kind: K }>> {
  for (const block of blocks) {
    if (block.kind === kind) yield block as Extract<Block, { kind: K }>;
    if (block.kind === 'notice') yield* eachBlock(block.blocks, kind);
    else if (block.kind === 'bullets') for (const item of block.items) yield* eachBlock(item.blocks, kind);
    else if (block.kind === 'steps') for (const step of block.steps) yield* eachBlockOfStep(step, kind);
  }
}
function* eachBlockOfStep<K extends Block['kind']>(step: Pick<Step, 'children'>, kind: K): Iterable<Extract<Block, { kind: K }>> {
  for (const child of step.children) {
    if (child.kind === 'substeps') for (const sub of child.steps) yield* eachBlockOfStep(sub, kind);
    else if (child.kind === 'branches') for (const branch of child.branches) yield* eachBlockOfStep(branch, kind);
    else if (child.kind !== 'objects') yield* eachBlock([child], kind);
  }
}

/** Every prose run of a procedure, those before the first heading left out; walked once for each tree. */
export function proseOf(tree: Procedure): readonly Prose[] {
  const made = PROSE.get(tree) ?? [...eachProse(tree.sections.flatMap((section) => section.blocks))];
  PROSE.set(tree, made);
  return made;
}
/** And those before the first heading. */
export const allProseOf = (tree: Procedure): readonly Prose[] => [...eachProse(tree.preface), ...proseOf(tree)];
const PROSE = new WeakMap<Procedure, readonly Prose[]>();

/** Every prose run of these blocks, headings apart: paragraphs, leads, cells, bullets. */
export function* eachProse(blocks: Iterable<Block>): Iterable<Prose> {
  for (const block of blocks) {
    if (block.kind === 'paragraph') yield block.prose;
    else if (block.kind === 'bullets')
      for (const item of block.items) {
        yield item.prose;
        yield* eachProse(item.blocks);
      }
    else if (block.kind === 'notice') yield* eachProse(block.blocks);
    else if (block.kind === 'table') yield* cells(block);
    else if (block.kind === 'steps') for (const step of block.steps) yield* proseOfStep(step);
  }
}
function* proseOfStep(step: Step): Iterable<Prose> {
  yield step.lead;
  yield* proseOfChildren(step.children);
}
function* proseOfChildren(children: Step['children']): Iterable<Prose> {
  for (const child of children) {
    if (child.kind === 'substeps') for (const sub of child.steps) yield* proseOfStep(sub);
    else if (child.kind === 'objects') for (const item of child.items) yield item.prose;
    else if (child.kind === 'branches')
      for (const branch of child.branches) {
        yield branch.condition;
        yield branch.lead;
        yield* proseOfChildren(branch.children);
      }
    else yield* eachProse([child]);
  }
}
function* cells(table: Table): Iterable<Prose> {
  for (const cell of table.head) yield cell.prose;
  for (const row of table.rows) for (const cell of row.cells) yield cell.prose;
}

// ---------------------------------------------------------------- wording

/** Registered names that end in a word nobody registered. A guess at an isolation point may be the wrong valve: those are never offered. */
export const endingIn = (names: Names, word: string): readonly string[] =>
  names.ending(word, ['cover', 'part', 'fastener', 'gauge']).map(({ name }) => name);

/** "The pins" are, "the pin" is; words such as "glass" and "bus" are one. */
const isMany = (name: string): boolean => /[^sui]s$/i.test(name);
export const isOrAre = (name: string): string => (isMany(name) ? 'are' : 'is');
export const wasOrWere = (name: string): string => (isMany(name) ? 'were' : 'was');

/** "step Check 4" where the place is in a step, else "the start". */
export function placeName(place: FlowPlace | undefined): string {
  return place?.step ? `step ${place.step.fullLabel}` : 'the start';
}

/** A counter-walk as people read it. */
export function wordedWalk(points: readonly WalkPoint[]): WalkStep[] {
  return points.map(({ place, answers }) => ({
    file: place.file,
    section: place.step?.section.title ?? '',
    label: place.step?.label ?? '',
    text: place.step ? clip(bracketed(place.step.step.lead), 100) : '',
    span: place.span,
    ...(answers ? { answers } : {}),
  }));
}

/** Cuts at a word end. */
export function clip(text: string, length: number): string {
  if (text.length <= length) return text;
  const cut = text.lastIndexOf(' ', length - 1);
  return `${text.slice(0, cut > length / 2 ? cut : length - 1)}…`;
}

export function listed(names: readonly string[], word = 'and'): string {
  if (names.length <= 1) return names[0] ?? '';
  return `${names.slice(0, -1).join(', ')} ${word} ${names[names.length - 1]}`;
}

export type { Draft };

/** The words of a prose with second values in brackets, as they are printed: "2 m 6.6 ft" would be a length of both. */
function bracketed({ text, marks }: Prose): string {
  let out = '';
  let at = 0;
  for (const mark of marks)
    if (mark.kind === 'reference' && mark.form.kind === 'second-value' && mark.at >= at) {
      out += `${text.slice(at, mark.at)}(${text.slice(mark.at, mark.end)})`;
      at = mark.end;
    }
  return out + text.slice(at);
}
