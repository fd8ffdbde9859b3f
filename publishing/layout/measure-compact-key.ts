/** The key of the energy band in two rows of two, or one below the other on a narrow leaf, for a form that has no page to spare. */
import { drawBand } from './band.ts';
import { baselineIn, type Kit, linesIn, textWidth } from './kit.ts';
import type { Measured, Room, SlabItem } from './slab.ts';
import { bands, costs } from './style.ts';
import { mm, pt } from './units.ts';

export function measureCompactBandKey(room: Room, kit: Kit): Measured {
  const { sheet, structure } = kit;
  const look = sheet.small;
  const list = structure.add(room.node, 'L', { numbering: 'None' });
  const states = Object.keys(bands) as (keyof typeof bands)[];
  const whole = room.x + room.width - room.left;
  // Two beside each other where the longest has room on one line; a word lost here could be the word "open".
  const widest = Math.max(...states.map((state) => textWidth(kit.words.band[state], look, kit)));
  const columns = widest + mm(9) <= Math.floor(whole / 2) ? 2 : 1;
  const half = Math.floor(whole / columns);
  const lead = look.lead + pt(3);
  const items = states.flatMap((state, index): SlabItem[] => {
    const x = room.left + (index % columns) * half;
    const y = Math.floor(index / columns) * lead;
    const node = structure.add(structure.add(structure.add(list, 'LI'), 'LBody'), 'P');
    const width = half - mm(9);
    const line = linesIn([{ kind: 'text', text: kit.words.band[state] }], look, node, width, kit)[0];
    const art: SlabItem = { kind: 'art', x, y, ops: drawBand(0, 0, mm(5), look.lead, state) };
    return line === undefined
      ? [art]
      : [art, { kind: 'line', x: x + mm(7), width, baseline: y + baselineIn(look, kit), line, align: 'left' }];
  });
  const height = Math.ceil(states.length / columns) * lead;
  return {
    slabs: [{ height, items, gap: 0, cost: costs.block, decor: room.decor, of: 'other' }],
    before: sheet.between,
    after: sheet.between,
  };
}
