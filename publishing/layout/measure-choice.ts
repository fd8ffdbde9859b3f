/** A judgement to tick: what is judged, then a box and a word for each answer, on one line where they fit. Leaves the drawing of a box to boxes.ts. */
import type { BookBlock, Inline } from '../book.ts';
import { tickBox } from './boxes.ts';
import { baselineIn, type Kit, linesIn, textWidth } from './kit.ts';
import { leafBoxes } from './short-sheet.ts';
import type { Measured, Room, SlabItem } from './slab.ts';
import { type Mp, mm, pt } from './units.ts';

const plain = (text: string): Inline[] => [{ kind: 'text', text }];
/** From a box to its word, and from a word to the next box: a marker pen must not hit the wrong one. */
const toWord = pt(5);
const apart = pt(16);

export function measureChoice(block: Extract<BookBlock, { kind: 'choice' }>, room: Room, kit: Kit): Measured {
  const { sheet, structure } = kit;
  const look = sheet.body;
  const node = structure.add(room.node, 'P');
  const widths = block.choices.map((choice) => leafBoxes.tick + toWord + textWidth(choice, look, kit));
  const row = widths.reduce((sum, width) => sum + width + apart, 0);
  const beside = textWidth(block.label, look, kit) + row <= room.width;
  const labels = linesIn(plain(block.label), look, node, room.width, kit);
  const height = Math.max(mm(8), look.lead);
  const top = Math.round((height - look.lead) / 2);
  const above = beside ? 0 : labels.length * look.lead;
  const items: SlabItem[] = labels.map((line, index) => ({
    kind: 'line',
    x: room.x,
    width: room.width,
    baseline: (beside ? top : index * look.lead) + baselineIn(look, kit),
    line,
    align: 'left',
  }));
  // Where boxes to write in begin, so that all of a page stand under each other.
  const least = beside ? Math.round(room.width * 0.3) + pt(8) : 0;
  let x: Mp = room.x + (beside ? Math.min(Math.max(least, textWidth(block.label, look, kit) + apart), room.width - row + apart) : 0);
  let y: Mp = above;
  block.choices.forEach((choice, index) => {
    const wide = widths[index] as Mp;
    if (x > room.x && x + wide > room.x + room.width) {
      x = room.x;
      y += height;
    }
    const field = { node: structure.add(room.node, 'Form'), name: `${block.field}, ${choice}`, says: `${block.label}: ${choice}` };
    items.push(tickBox(x, y + Math.round((height - leafBoxes.tick) / 2), field));
    const at = x + leafBoxes.tick + toWord;
    // An answer too long for a line goes on below itself; nothing stands beside it then.
    const lines = linesIn(plain(choice), look, structure.add(room.node, 'P'), room.x + room.width - at, kit);
    lines.forEach((line, below) => {
      const baseline = y + top + below * look.lead + baselineIn(look, kit);
      items.push({ kind: 'line', x: at, width: room.x + room.width - at, baseline, line, align: 'left' });
    });
    y += (lines.length - 1) * look.lead;
    x += wide + apart;
  });
  return {
    slabs: [{ height: y + height, items, gap: 0, cost: 0, decor: room.decor, of: 'other' }],
    before: sheet.between,
    after: sheet.between,
  };
}
