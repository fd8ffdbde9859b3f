/** Rows of labelled boxes joined to one grid: what is filled in before the first step and after the last. */
import type { BookBlock, EntryCell } from '../book.ts';
import { plainBox, tickBox, writeBox } from './boxes.ts';
import { type Kit, linesIn, textWidth } from './kit.ts';
import { languageFacts } from './runs.ts';
import { leafBoxes } from './short-sheet.ts';
import type { Measured, Room, Slab, SlabItem } from './slab.ts';
import { costs, type TextLook } from './style.ts';
import { type Mp, pt } from './units.ts';

type EntriesBlock = Extract<BookBlock, { kind: 'entries' }>;

const labelRoom = pt(11);
const optionGap = pt(10);

export function measureEntries(block: EntriesBlock, room: Room, kit: Kit): Measured {
  const slabs = block.rows.map((row, index): Slab => {
    const left = room.left;
    const width = room.x + room.width - left;
    const ends: Mp[] = [];
    let sum = 0;
    row.forEach((cell, at) => {
      sum += cell.share;
      ends.push(left + (at === row.length - 1 ? width : Math.round((width * sum) / 1000)));
    });
    const starts = row.map((_, at) => (at === 0 ? left : (ends[at - 1] as Mp)));
    const height = Math.max(...row.map((cell, at) => heightOf(cell, (ends[at] as Mp) - (starts[at] as Mp), kit)));
    const items = row.flatMap((cell, at) => cellItems(cell, starts[at] as Mp, (ends[at] as Mp) - (starts[at] as Mp), height, room, kit));
    return { height, items, gap: 0, cost: index === 0 ? 0 : costs.hard * 2, decor: room.decor, of: 'other', group: 'a grid of boxes' };
  });
  return { slabs, before: kit.sheet.around, after: kit.sheet.around };
}

/** Options in rows as wide as the cell. */
function optionRows(cell: EntryCell, width: Mp, kit: Kit): readonly (readonly { readonly text: string; readonly x: Mp }[])[] {
  const rows: { text: string; x: Mp }[][] = [[]];
  let x = pt(4);
  for (const text of cell.options ?? []) {
    const wide = leafBoxes.tick + pt(4) + textWidth(text, kit.sheet.body, kit);
    if (x + wide > width - pt(3) && (rows[rows.length - 1] as unknown[]).length > 0) {
      rows.push([]);
      x = pt(4);
    }
    (rows[rows.length - 1] as { text: string; x: Mp }[]).push({ text, x });
    x += wide + optionGap;
  }
  return rows;
}

const optionLead = leafBoxes.tick + pt(3);

function heightOf(cell: EntryCell, width: Mp, kit: Kit): Mp {
  if (cell.options === undefined) return leafBoxes.cell + ((cell.lines ?? 1) - 1) * leafBoxes.cellLine;
  return Math.max(leafBoxes.cell, labelRoom + optionRows(cell, width, kit).length * optionLead + pt(2.5));
}

function cellItems(cell: EntryCell, x: Mp, width: Mp, height: Mp, room: Room, kit: Kit): SlabItem[] {
  const { structure, sheet } = kit;
  const small: TextLook = { ...sheet.furniture, face: 'bold', size: leafBoxes.label };
  const node = structure.add(room.node, 'P');
  const label = linesIn([{ kind: 'text', text: cell.label }], small, node, width - pt(6), kit)[0];
  const says = cell.says ?? cell.label;
  const many = (cell.lines ?? 1) > 1;
  const items: SlabItem[] = [];
  if (cell.options !== undefined) items.push(plainBox(x, 0, width, height));
  else {
    const field = { node: structure.add(room.node, 'Form', languageFacts(says, kit)), name: cell.field, says };
    items.push(writeBox({ x, y: 0, width, height, words: labelRoom, many }, field));
  }
  if (label !== undefined) items.push({ kind: 'line', x: x + pt(3), width: width - pt(6), baseline: pt(9.2), line: label, align: 'left' });
  if (cell.options === undefined) return items;
  optionRows(cell, width, kit).forEach((row, index) => {
    const top = labelRoom + pt(2) + index * optionLead;
    for (const option of row) {
      const field = {
        node: structure.add(room.node, 'Form'),
        name: `${cell.field}, ${option.text}`,
        says: `${says}: ${option.text}`,
      };
      items.push(tickBox(x + option.x, top, field));
      const at = x + option.x + leafBoxes.tick + pt(4);
      const line = linesIn(
        [{ kind: 'text', text: option.text }],
        sheet.body,
        structure.add(room.node, 'P'),
        x + width - at - pt(2),
        kit,
      )[0];
      if (line !== undefined) {
        const baseline = top + Math.round(leafBoxes.tick / 2 + sheet.body.size * 0.33);
        items.push({ kind: 'line', x: at, width: x + width - at - pt(2), baseline, line, align: 'left' });
      }
    }
  });
  return items;
}
