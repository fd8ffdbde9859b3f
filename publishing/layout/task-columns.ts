/** Where boxes, labels, words and initials stand in a list of lines to tick off. Knows widths, places no row. */
import type { Task } from '../book.ts';
import { type Kit, textWidth } from './kit.ts';
import { isSmall, leafBoxes } from './short-sheet.ts';
import type { Room } from './slab.ts';
import type { Sheet, TextLook } from './style.ts';
import { type Mp, mm, pt } from './units.ts';

export interface Place {
  readonly tick: Mp;
  readonly label: Mp;
  readonly text: Mp;
}

export interface Columns {
  readonly band: Mp;
  /** Of each depth: where the box, the label and the words stand. */
  readonly at: readonly Place[];
  /** Where text ends and the column of initials begins. */
  readonly end: Mp;
  readonly right: Mp;
}

export function columnsOf(tasks: readonly Task[], room: Room, kit: Kit): Columns {
  const { sheet } = kit;
  const right = room.x + room.width;
  const banded = tasks.some((task) => task.band !== undefined);
  const at: { tick: Mp; label: Mp; text: Mp }[] = [];
  const deepest = Math.max(0, ...tasks.map((task) => task.depth));
  for (let depth = 0; depth <= deepest; depth += 1) {
    // What stands below a step begins under its label, so that many columns stay on a narrow leaf.
    const tick =
      depth === 0
        ? room.left + (banded ? sheet.band + (isSmall(kit) ? mm(1.6) : sheet.bandGap) : 0)
        : (at[depth - 1] as { label: Mp }).label;
    const label = tick + leafBoxes.tick + leafBoxes.tickGap;
    const labels = tasks.filter((task) => task.depth === depth && task.label !== '');
    const widest = Math.max(pt(12), ...labels.map((task) => textWidth(task.label, labelLook(task, sheet), kit)));
    at.push({ tick, label, text: label + Math.min(widest, Math.round(room.width / 6)) + (isSmall(kit) ? pt(5) : pt(7)) });
  }
  const initials = tasks.some((task) => task.initials !== undefined);
  return { band: room.left, at, end: right - (initials ? leafBoxes.initialsColumn : 0), right };
}

export const labelLook = (task: Task, sheet: Sheet): TextLook => (task.depth === 0 ? sheet.label : sheet.subLabel);
