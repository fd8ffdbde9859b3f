/** The key of the energy band in rows of two, or on a narrow leaf as many to a row as it has room for, for a form that has no page to spare. */
import type { BandState } from '../book.ts';
import { drawBand } from './band.ts';
import { baselineIn, type Kit, linesIn, textWidth } from './kit.ts';
import { isSmall } from './short-sheet.ts';
import type { Measured, Room, SlabItem } from './slab.ts';
import { bands, costs } from './style.ts';
import { mm, pt } from './units.ts';

export function measureCompactBandKey(shown: readonly BandState[] | undefined, room: Room, kit: Kit): Measured {
  const { sheet, structure } = kit;
  const look = sheet.small;
  const list = structure.add(room.node, 'L', { numbering: 'None' });
  const states = (Object.keys(bands) as (keyof typeof bands)[]).filter((state) => shown === undefined || shown.includes(state));
  const whole = room.x + room.width - room.left;
  // Two beside each other where the longest has room on one line; a word lost here could be the word "open".
  const widest = Math.max(...states.map((state) => textWidth(kit.words.band[state], look, kit)));
  const half = Math.floor(whole / 2);
  const even = widest + mm(9) <= half;
  const lead = look.lead + (isSmall(kit) ? pt(2) : pt(3));
  let [at, row] = [0, 0];
  const items = states.flatMap((state): SlabItem[] => {
    const wide = even ? half : textWidth(kit.words.band[state], look, kit) + mm(10);
    // The last in a row needs no gap behind it.
    if (at > 0 && at + wide > whole + (even ? mm(1) : mm(3))) [at, row] = [0, row + 1];
    const x = room.left + at;
    const y = row * lead;
    at += wide;
    const node = structure.add(structure.add(structure.add(list, 'LI'), 'LBody'), 'P');
    const width = even ? half - mm(9) : room.left + whole - x - mm(7);
    const line = linesIn([{ kind: 'text', text: kit.words.band[state] }], look, node, width, kit)[0];
    const art: SlabItem = { kind: 'art', x, y, ops: drawBand(0, 0, mm(5), look.lead, state) };
    return line === undefined
      ? [art]
      : [art, { kind: 'line', x: x + mm(7), width, baseline: y + baselineIn(look, kit), line, align: 'left' }];
  });
  const height = (row + 1) * lead;
  return {
    slabs: [{ height, items, gap: 0, cost: costs.orphan, decor: room.decor, of: 'other' }],
    before: sheet.between,
    after: sheet.between,
  };
}
