/**
 * What of a procedure is not so in an earlier revision: blocks compared by their printed words, and in blocks that were altered the words, items and
 * rows. Marks only; changes no word.
 */
import type { BookBlock, ChangeMarks, Flow, Inline, TasksBlock } from '../book.ts';
import { type Aligned, align } from './aligned.ts';
import { type Compared, changedTasks } from './changes-tasks.ts';
import { newWords } from './common-words.ts';
import { captionTold, flowTold, imageTold, type Leads, rowTold, told, toldInline } from './told.ts';

/** Where the places of an earlier text are today, by anchor. Empty: gone, or in wholly other words. */
export type Moved = ReadonlyMap<string, string>;

/** The same blocks, what is new or altered in them marked. Labels do not count: a step that only moved down a line is the same step. */
export function withChanges<T extends BookBlock>(
  now: readonly T[],
  before: Flow,
  moved: Moved = movedAnchors([[now, before]]),
): readonly T[] {
  return new Comparison(
    (anchor) => anchor,
    (anchor) => moved.get(anchor) ?? anchor,
  ).flow(now, before);
}

/** Of texts that refer to one another, each with what it was: asked before any of them is marked. */
export function movedAnchors(texts: readonly (readonly [now: Flow, before: Flow])[]): Moved {
  const moved = new Map<string, string>();
  const unknown: Leads = () => undefined;
  for (const [now, before] of texts) {
    for (const anchor of anchorsIn(before)) moved.set(anchor, '');
    new Comparison(unknown, unknown, (one, was) => {
      if ('anchor' in one && 'anchor' in was && one.anchor !== undefined && was.anchor !== undefined) moved.set(was.anchor, one.anchor);
    }).flow(now, before);
  }
  return moved;
}

function anchorsIn(part: unknown): readonly string[] {
  if (Array.isArray(part)) return part.flatMap(anchorsIn);
  if (typeof part !== 'object' || part === null || part instanceof Uint8Array) return [];
  const own = 'kind' in part && part.kind !== 'link' && 'anchor' in part && typeof part.anchor === 'string' ? [part.anchor] : [];
  return [...own, ...Object.values(part).flatMap(anchorsIn)];
}

/** What may be led to. */
type Place = BookBlock | TasksBlock['items'][number];
type StepBlock = Extract<BookBlock, { kind: 'step' }>;
type TableBlock = Extract<BookBlock, { kind: 'table' }>;
type Rows = TableBlock['rows'];

const nobody = (): void => undefined;

class Comparison {
  private readonly now: Leads;
  private readonly before: Leads;
  private readonly compared: Compared;
  /** Told of each two blocks that are one. */
  private readonly met: (now: Place, before: Place) => void;

  constructor(now: Leads, before: Leads, met: (now: Place, before: Place) => void = nobody) {
    this.now = now;
    this.before = before;
    this.met = met;
    this.compared = {
      now,
      before,
      flow: (one, other) => this.flow(one, other),
      inline: (one, other) => this.inline(one, other),
      partly: (one, other) => this.partly(one, other),
      met,
    };
  }

  flow<T extends BookBlock>(now: readonly T[], before: Flow): readonly T[] {
    const words = now.map((block) => told(block, this.now));
    const was = before.map((block) => told(block, this.before));
    const found = align<BookBlock>(now, before, words, was, (a, b) => a.kind === b.kind && this.partly(a, b) !== undefined);
    for (const [one, other] of found.instead) if (isStep(one) && isStep(other) && one.label === other.label) this.met(one, other);
    const marked = now.map((block, index): T => {
      const fate = found.fates[index] as Aligned<BookBlock>['fates'][number];
      if (fate.kind === 'new') return { ...block, changed: true };
      this.met(block, fate.was);
      if (fate.kind === 'altered') return this.partly(block, fate.was) as T;
      // Equal words may hold places that moved.
      if (this.met !== nobody) this.partly(block, fate.was);
      return block;
    });
    return struck(marked, found.gone);
  }

  /** Marked inside where the two are the same kind of block and much is common; undefined: all of it is new. */
  private partly(now: BookBlock, before: BookBlock): BookBlock | undefined {
    if (now.kind === 'paragraph' && before.kind === 'paragraph') {
      const inline = this.inline(now.inline, before.inline);
      return inline && { ...now, inline };
    }
    if (now.kind === 'bullets' && before.kind === 'bullets') return this.bullets(now, before);
    if (now.kind === 'notice' && before.kind === 'notice' && now.panel === before.panel)
      return { ...now, body: this.flow(now.body, before.body) };
    if (now.kind === 'step' && before.kind === 'step') return this.step(now, before);
    if (now.kind === 'table' && before.kind === 'table') return this.table(now, before);
    if (now.kind === 'tasks' && before.kind === 'tasks') return changedTasks(now, before, this.compared);
    if (now.kind === 'figure' && before.kind === 'figure') {
      const caption = captionTold(now.caption) === captionTold(before.caption) && now.alt === before.alt;
      if (imageTold(now.image) === imageTold(before.image)) return caption ? now : { ...now, captionChanged: true };
      return caption ? { ...now, changed: true } : undefined;
    }
    return undefined;
  }

  private step(now: StepBlock, before: StepBlock): StepBlock | undefined {
    const [lead, was] = [now.body[0], before.body[0]];
    // A step that says something else is another step, whatever stands below it.
    if (lead?.kind === 'paragraph' && was?.kind === 'paragraph' && this.inline(lead.inline, was.inline) === undefined) return undefined;
    const notices = this.flow(now.notices, before.notices);
    const lost = now.notices.length === 0 && before.notices.length > 0;
    return { ...now, notices, body: this.flow(now.body, before.body), ...(lost ? { gone: 'before' } : {}) };
  }

  private bullets(now: Extract<BookBlock, { kind: 'bullets' }>, before: Extract<BookBlock, { kind: 'bullets' }>): BookBlock {
    const found = align<Flow>(
      now.items,
      before.items,
      now.items.map((item) => flowTold(item, this.now)),
      before.items.map((item) => flowTold(item, this.before)),
      () => true,
    );
    const items = now.items.map((item, index): Flow => {
      const fate = found.fates[index] as Aligned<Flow>['fates'][number];
      const own = fate.kind === 'same' && this.met === nobody ? item : this.flow(item, fate.kind === 'new' ? [] : fate.was);
      const last = index === now.items.length - 1 && found.gone.has(index + 1);
      return [...own.slice(0, 1).map((block) => (found.gone.has(index) ? withStroke(block, 'before') : block)), ...own.slice(1)].map(
        (block, at) => (last && at === own.length - 1 ? withStroke(block, 'after') : block),
      );
    });
    return { ...now, items };
  }

  private table(now: TableBlock, before: TableBlock): BookBlock | undefined {
    if (rowTold(now.head, this.now) !== rowTold(before.head, this.before)) return undefined;
    const notes = now.notes === undefined ? {} : { notes: this.flow(now.notes, before.notes ?? []) };
    const noNotes = (now.notes ?? []).length === 0 && (before.notes ?? []).length > 0;
    return {
      ...now,
      rows: this.rows(now.rows, before.rows),
      ...notes,
      ...(captionTold(now.caption) === captionTold(before.caption) ? {} : { captionChanged: true }),
      ...(noNotes ? { gone: 'after' } : {}),
    };
  }

  /** A row is marked as one: its cells are read together. Where one went the next is marked, or the last. */
  private rows(now: Rows, before: Rows): Rows {
    const { fates, gone } = align<Rows[number]>(
      now,
      before,
      now.map((row) => rowTold(row, this.now)),
      before.map((row) => rowTold(row, this.before)),
      () => true,
    );
    return now.map((row, index) => {
      const lost = gone.has(index) || (index === now.length - 1 && gone.has(index + 1));
      return lost || fates[index]?.kind !== 'same' ? row.map(marked) : row;
    });
  }

  /** Cut between words where marked ones begin and end, so that lines break as they would without. */
  private inline(now: readonly Inline[], before: readonly Inline[]): readonly Inline[] | undefined {
    const own = wordsIn(now);
    const fresh = newWords(
      own.map((word) => toldInline(word.as, this.now)),
      wordsIn(before).map((word) => toldInline(word.as, this.before)),
    );
    if (fresh === undefined) return undefined;
    const out: Inline[] = [];
    own.forEach(({ of, as }, index) => {
      const last = out[out.length - 1];
      if (last !== undefined && own[index - 1]?.of === of && fresh[index] === fresh[index - 1])
        out[out.length - 1] = { ...last, text: last.text + as.text };
      else out.push({ ...as, ...(fresh[index] ? { changed: true } : {}) });
    });
    return out;
  }
}

const isStep = (block: BookBlock): block is StepBlock => block.kind === 'step';

const wordsIn = (inline: readonly Inline[]): { readonly of: Inline; readonly as: Inline }[] =>
  inline.flatMap((of) =>
    divided(of) ? (of.text.match(/\s*\S+\s*|\s+/g) ?? []).map((text) => ({ of, as: { ...of, text } })) : [{ of, as: of }],
  );
const divided = ({ kind }: Inline): boolean => kind === 'text' || kind === 'strong' || kind === 'em' || kind === 'strong-em';

const marked = (inline: readonly Inline[]): readonly Inline[] => inline.map((one) => ({ ...one, changed: true }));

type Where = NonNullable<ChangeMarks['gone']>;
const withStroke = <T extends BookBlock>(block: T, where: Where): T => ({
  ...block,
  gone: block.gone === undefined || block.gone === where ? where : 'both',
});

/** A stroke where something is gone: at the head of what follows, or at the foot of the section that lost its end. */
function struck<T extends BookBlock>(blocks: readonly T[], gone: ReadonlyMap<number, Flow>): readonly T[] {
  if (gone.size === 0 || blocks.length === 0) return blocks;
  const out = [...blocks];
  for (const [index, lost] of gone) {
    const next = out[index];
    const before = next !== undefined && (index === 0 || next.kind !== 'heading' || lost[0]?.kind === 'heading');
    const at = before ? index : index - 1;
    out[at] = withStroke(out[at] as T, before ? 'before' : 'after');
  }
  return out;
}

/** Titles of the headings under which something is marked, in order, and "" for what stands before the first; for the record of revisions. */
export function changedSections(blocks: Flow): readonly string[] {
  const out: string[] = [];
  let section = '';
  for (const block of blocks) {
    if (block.kind === 'heading') section = block.text;
    if (block.kind === 'tasks') section = block.heading;
    // Before a heading only whole sections are gone, and these are named by themselves.
    const own = block.kind === 'heading' && block.gone === 'before' ? block.changed : isChanged(block);
    if (own && out[out.length - 1] !== section) out.push(section);
  }
  return out;
}

/** Of a block and all that stands in it. */
function isChanged(part: unknown): boolean {
  if (Array.isArray(part)) return part.some(isChanged);
  if (typeof part !== 'object' || part === null) return false;
  return Object.entries(part).some(
    ([name, own]) =>
      name === 'changed' ||
      name === 'gone' ||
      name === 'captionChanged' ||
      name === 'headingChanged' ||
      (name !== 'image' && isChanged(own)),
  );
}
