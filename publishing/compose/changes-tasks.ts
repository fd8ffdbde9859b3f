/** Lines to tick off against those of an earlier issue: which are new, in which the words, notices or values are others, and where one is gone. Marks only. */
import type { BookBlock, ChangeMarks, Flow, Inline, Task, TasksBlock } from '../book.ts';
import { type Aligned, align } from './aligned.ts';
import type { Leads } from './told.ts';
import { readingTold, taskTold, told } from './told.ts';

type Item = TasksBlock['items'][number];

/** What changes.ts knows of all other blocks. */
export interface Compared {
  readonly now: Leads;
  readonly before: Leads;
  readonly flow: <T extends BookBlock>(now: readonly T[], before: Flow) => readonly T[];
  readonly inline: (now: readonly Inline[], before: readonly Inline[]) => readonly Inline[] | undefined;
  /** undefined: all of it is new. */
  readonly partly: (now: BookBlock, before: BookBlock) => BookBlock | undefined;
  /** Told of each two that are one. */
  readonly met: (now: Item, before: Item) => void;
}

export function changedTasks(now: TasksBlock, before: TasksBlock, how: Compared): TasksBlock {
  const found = align<Item>(
    now.items,
    before.items,
    now.items.map((item) => itemTold(item, how.now)),
    before.items.map((item) => itemTold(item, how.before)),
    (a, b) => partlyItem(a, b, how) !== undefined,
  );
  for (const [one, other] of found.instead)
    if (one.kind === 'task' && other.kind === 'task' && one.label === other.label) how.met(one, other);
  const items = now.items.map((item, index): Item => {
    const fate = found.fates[index] as Aligned<Item>['fates'][number];
    const stroke = strokeAt(index, now.items.length, found.gone);
    if (fate.kind === 'new') return { ...item, changed: true, ...stroke };
    how.met(item, fate.was);
    // Equal words may hold places that moved.
    const own = partlyItem(item, fate.was, how) ?? item;
    const gone = bothOf(stroke.gone, own.gone);
    return { ...(fate.kind === 'same' ? item : own), ...(gone === undefined ? {} : { gone }) };
  });
  const headingChanged = now.heading !== before.heading || now.aside !== before.aside;
  return { ...now, items, ...(headingChanged ? { headingChanged } : {}) };
}

/** A stroke at the head of what follows something that is gone; at the foot of the last where the end is gone. */
function strokeAt(index: number, count: number, gone: ReadonlyMap<number, unknown>): Pick<ChangeMarks, 'gone'> {
  const [before, after] = [gone.has(index), index === count - 1 && gone.has(count)];
  return before || after ? { gone: before && after ? 'both' : before ? 'before' : 'after' } : {};
}

type Where = ChangeMarks['gone'];
const bothOf = (one: Where, other: Where): Where => (one === undefined ? other : other === undefined || one === other ? one : 'both');

const itemTold = (item: Item, leads: Leads): string => (item.kind === 'task' ? taskTold(item, leads) : told(item, leads));

function partlyItem(now: Item, before: Item, how: Compared): Item | undefined {
  if (now.kind === 'task' && before.kind === 'task') return partlyTask(now, before, how);
  if (now.kind === 'task' || before.kind === 'task' || now.kind !== before.kind) return undefined;
  return how.partly(now, before) as Item | undefined;
}

/** A line that says something else is another line, whatever stands below it. */
function partlyTask(now: Task, before: Task, how: Compared): Task | undefined {
  const line = how.inline(now.line, before.line);
  if (line === undefined) return undefined;
  // A box that was not there, or is asked of somebody else, is news like a word.
  const box = now.initials !== before.initials || now.remark !== before.remark;
  const was = new Map(before.readings.map((reading) => [reading.name, readingTold(reading)]));
  const lost = now.notices.length === 0 && before.notices.length > 0;
  return {
    ...now,
    line: box ? line.map((one) => ({ ...one, changed: true })) : line,
    notices: how.flow(now.notices, before.notices),
    readings: now.readings.map((one) => (was.get(one.name) === readingTold(one) ? one : { ...one, changed: true })),
    ...(lost ? { gone: 'before' } : before.readings.length > now.readings.length ? { gone: 'after' } : {}),
  };
}
