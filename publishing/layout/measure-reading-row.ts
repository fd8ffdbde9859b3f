/** A value that is read, in the row of its step: the boxes at the end of the step's own line, the limit under its words. Below the row it takes more room: measure-reading.ts. */
import type { Task, TaskReading } from '../book.ts';
import { type Kit, linesIn } from './kit.ts';
import { boxesIn, boxItems, heightOf, limitItems, limitLines } from './measure-reading.ts';
import { type RowNodes, rowSlab, wordsFrom, wordsTop } from './measure-task-row.ts';
import { leafBoxes, rowPad } from './short-sheet.ts';
import type { Room, Slab } from './slab.ts';
import type { Columns, Place } from './task-columns.ts';
import { type Mp, mm, pt } from './units.ts';

/** Words of a step want this much beside boxes. */
const leastWords = mm(42);

/** The row with the first value of a step in it; undefined where there is none, or where its words would be squeezed for no gain. */
export function rowWithReading(task: Task, columns: Columns, nodes: RowNodes, room: Room, kit: Kit): Slab | undefined {
  const [reading, ...more] = task.readings;
  if (reading === undefined || reading.verdict !== undefined || task.initials !== undefined) return undefined;
  // A bar for the limit stands beside the limit alone.
  if (reading.changed && !task.changed) return undefined;
  const { lead } = kit.sheet.body;
  const x = wordsFrom(task, columns.at[task.depth] as Place);
  const whole = columns.right - x;
  const boxes = boxesIn(reading, whole, kit);
  const width = whole - boxes.all;
  if (boxes.box < leafBoxes.value.width || width < leastWords) return undefined;
  const counts = (wide: Mp): number => linesIn(task.line, kit.sheet.body, nodes.body, wide, kit).length;
  const limits = limitLines(reading, width, nodes.body, kit);
  // A limit is read in one glance: it is not broken for the sake of a line.
  if (limits.some((lines, index) => lines.length > oneGlance(reading, index, whole, nodes, kit))) return undefined;
  const lines = counts(width);
  if (lines > counts(whole) + 1) return undefined;
  const under = wordsTop(task, kit) + lines * lead + pt(1);
  const top = rowPad(kit);
  const height = Math.max(under + heightOf(limits, lead) + pt(1.5), top + leafBoxes.cell + pt(2.5));
  const row = rowSlab(task, columns, nodes, room, kit, more.length === 0, { end: x + width, height });
  const paragraph = kit.structure.add(nodes.body, 'P');
  const items = [
    ...row.items,
    ...limitItems(limitLines(reading, width, paragraph, kit), x, width, under, kit),
    ...boxItems(reading, task, boxes, columns.right, top, nodes.body, kit),
  ];
  return { ...row, items };
}

const oneGlance = (reading: TaskReading, index: number, wide: Mp, nodes: RowNodes, kit: Kit): number =>
  limitLines(reading, wide, nodes.body, kit)[index]?.length ?? 1;
