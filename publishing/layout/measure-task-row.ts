/** One line to tick off: box, label, words, and a box for initials where it asks for them. Notices above and values below it: measure-tasks.ts. */
import type { Task } from '../book.ts';
import { tickBox, writeBox } from './boxes.ts';
import { barred, isBarred } from './change-marks.ts';
import { baselineIn, type Kit, linesIn } from './kit.ts';
import { segment } from './ops.ts';
import type { Line } from './paragraph.ts';
import { isSmall, leafBoxes, rowPad } from './short-sheet.ts';
import type { Room, Slab, SlabItem } from './slab.ts';
import type { NodeId } from './structure.ts';
import { colours } from './style.ts';
import { type Columns, labelLook, type Place } from './task-columns.ts';
import { type Mp, pt } from './units.ts';

/** Of a row that holds more than its words: where these end, and how high it is at least. */
interface Holds {
  readonly end: Mp;
  readonly height: Mp;
}

export interface RowNodes {
  readonly label: NodeId;
  readonly body: NodeId;
}

/** Where the words of a task begin: branches and things on a list have no label to stand clear of; a remark stands under the words it belongs to. */
export const wordsFrom = (task: Task, { label, text }: Place): Mp => (task.label === '' && !task.remark ? label : text);

/** Of the first line of the words, from the top of the row. */
export function wordsTop(task: Task, kit: Kit): Mp {
  const { lead } = kit.sheet.body;
  return rowPad(kit) + (task.remark ? 0 : Math.round((leafBoxes.tick - lead) / 2));
}

/** `ruled`: a line closes it. */
export function rowSlab(task: Task, columns: Columns, nodes: RowNodes, room: Room, kit: Kit, ruled: boolean, holds?: Holds): Slab {
  const { sheet, structure } = kit;
  const look = sheet.body;
  const { tick, label, text: after } = columns.at[task.depth] as Place;
  const text = wordsFrom(task, columns.at[task.depth] as Place);
  // On a narrow leaf words that nobody initials may stand below the column of initials too.
  const end = holds?.end ?? (isSmall(kit) && task.initials === undefined ? columns.right : columns.end - pt(4));
  const width = end - text;
  const lines = linesIn(task.line, look, structure.add(nodes.body, 'P'), width, kit);
  const pad = rowPad(kit);
  const side = task.remark ? look.lead : leafBoxes.tick;
  const top = wordsTop(task, kit);
  const initialled = task.initials === undefined ? 0 : leafBoxes.initials.height + (isSmall(kit) ? 0 : 2 * pad);
  const height = Math.max(2 * pad + side, top + lines.length * look.lead + pad, initialled, holds?.height ?? 0);
  const says = [task.label, task.line.map((one) => one.text).join('')].filter((part) => part !== '').join(' ');
  const items: SlabItem[] = [];
  if (!task.remark) items.push(tickBox(tick, pad, { node: structure.add(nodes.body, 'Form'), name: task.field, says }));
  const put = (line: Line | undefined, x: Mp, wide: Mp, baseline: Mp): void => {
    if (line !== undefined) items.push({ kind: 'line', x, width: wide, baseline, line, align: 'left' });
  };
  const base = top + baselineIn(look, kit);
  if (task.label !== '')
    put(linesIn([{ kind: 'text', text: task.label }], labelLook(task, sheet), nodes.label, room.width, kit)[0], label, after - label, base);
  lines.forEach((line, index) => {
    put(line, text, width, base + index * look.lead);
  });
  if (task.initials !== undefined) {
    const { width: wide, height: tall } = leafBoxes.initials;
    const node = structure.add(nodes.body, 'Form');
    const who = task.initials === '' ? '' : `, ${task.initials}`;
    // On a small leaf the boxes of neighbours share an edge, as in a grid.
    const box = { x: columns.right - wide, y: isSmall(kit) ? 0 : pt(1.5), width: wide, height: tall, words: 0 };
    const name = `${task.field}, ${kit.words.initials}`;
    items.push(writeBox(box, { node, name, says: `${kit.words.initials}${who}: ${says}` }));
  }
  if (ruled) {
    // Not over the edge of a box that stands on it.
    const boxed = task.initials === undefined ? 0 : leafBoxes.initials.width;
    const rule = segment(0, 0, columns.right - boxed - tick, 0);
    items.push({ kind: 'art', x: tick, y: height, ops: [{ op: 'path', path: rule, stroke: { colour: colours.faint, width: pt(0.5) } }] });
  }
  const changed = lines.some(isBarred);
  return { height, items, gap: 0, cost: 0, decor: changed ? barred(room).decor : room.decor, of: 'text' };
}
