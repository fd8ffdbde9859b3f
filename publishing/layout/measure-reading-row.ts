/** A value that is read, in the row of its step: the boxes at the end of the step's own line, the limit under its words. Below the row it takes more room: measure-reading.ts. */
import type { Task, TaskReading } from '../book.ts';
import { type Kit, linesIn } from './kit.ts';
import {
  type Boxes,
  boxesHeight,
  boxesIn,
  boxItems,
  heightOf,
  limitItems,
  limitLines,
  measureReading,
  stackedIn,
} from './measure-reading.ts';
import { type RowNodes, rowSlab, wordsFrom, wordsTop } from './measure-task-row.ts';
import { isSmall, leafBoxes, rowPad } from './short-sheet.ts';
import type { Room, Slab } from './slab.ts';
import { StructureBuilder } from './structure.ts';
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
  const x = wordsFrom(task, columns.at[task.depth] as Place);
  const whole = columns.right - x;
  const beside = boxesIn(reading, whole, kit);
  const fits = (boxes: Boxes): Fit | undefined => fitting(reading, task, boxes, whole, nodes, kit);
  // Two boxes below each other leave the words twice the room.
  const stacked = (): Fit | undefined => {
    if (!isSmall(kit) || reading.boxes.length === 1) return undefined;
    const fit = fits(stackedIn(reading, kit));
    return fit === undefined || fit.height >= heightBelow(reading, task, columns, room, kit) ? undefined : fit;
  };
  const fit = fits(beside) ?? stacked();
  if (fit === undefined) return undefined;
  const { boxes, width, under, height } = fit;
  const top = rowPad(kit);
  const row = rowSlab(task, columns, nodes, room, kit, more.length === 0, { end: x + width, height });
  const paragraph = kit.structure.add(nodes.body, 'P');
  const items = [
    ...row.items,
    ...limitItems(limitLines(reading, width, paragraph, kit), x, width, under, kit),
    ...boxItems(reading, task, boxes, columns.right, top, nodes.body, kit),
  ];
  return { ...row, items };
}

/** Of the row and its value where they stand below each other. Measured on trial: its elements are those of no page. */
function heightBelow(reading: TaskReading, task: Task, columns: Columns, room: Room, kit: Kit): Mp {
  const trial: Kit = { ...kit, structure: new StructureBuilder() };
  const { text } = columns.at[task.depth] as Place;
  const row = rowSlab(task, columns, { label: 0, body: 0 }, room, trial, false);
  return row.height + measureReading(reading, task, { ...room, left: text, x: text, width: columns.right - text, node: 0 }, trial).height;
}

interface Fit {
  readonly boxes: Boxes;
  /** Of the words beside them. */
  readonly width: Mp;
  /** Where the limits begin. */
  readonly under: Mp;
  readonly height: Mp;
}

function fitting(reading: TaskReading, task: Task, boxes: Boxes, whole: Mp, nodes: RowNodes, kit: Kit): Fit | undefined {
  const { lead } = kit.sheet.body;
  const width = whole - boxes.all;
  if (boxes.box < leafBoxes.value.width || width < leastWords) return undefined;
  const counts = (wide: Mp): number => linesIn(task.line, kit.sheet.body, nodes.body, wide, kit).length;
  const limits = limitLines(reading, width, nodes.body, kit);
  // A limit is read in one glance: it is not broken for the sake of a line.
  if (limits.some((lines, index) => lines.length > oneGlance(reading, index, whole, nodes, kit))) return undefined;
  const lines = counts(width);
  if (lines > counts(whole) + 1) return undefined;
  const under = wordsTop(task, kit) + lines * lead + pt(1);
  const words = under + heightOf(limits, lead);
  return { boxes, width, under, height: Math.max(words + pt(1.5), rowPad(kit) + boxesHeight(reading, boxes) + pt(2.5)) };
}

const oneGlance = (reading: TaskReading, index: number, wide: Mp, nodes: RowNodes, kit: Kit): number =>
  limitLines(reading, wide, nodes.body, kit)[index]?.length ?? 1;
