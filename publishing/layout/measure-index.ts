/** The index of names: under each letter in two columns, pages behind the name, every page once. Which names: the composer. */
import type { BookBlock, IndexEntry, Inline } from '../book.ts';
import { baselineIn, type Kit, linesIn } from './kit.ts';
import { measureHeading } from './measure-text.ts';
import type { Measured, Room, Slab, SlabItem } from './slab.ts';
import { costs } from './style.ts';
import { pt } from './units.ts';

export function measureIndex(block: Extract<BookBlock, { kind: 'index' }>, room: Room, kit: Kit): Measured {
  const slabs: Slab[] = [];
  for (const [letter, entries] of byLetter(block.entries)) {
    const heading = measureHeading({ kind: 'heading', level: 4, text: letter, bookmark: false }, { ...room, left: room.x }, kit, 2);
    const head = heading.slabs[0] as Slab;
    if (slabs.length > 0) {
      head.gap = pt(9);
      head.cost = costs.block;
    }
    const rows = measureRows(entries, room, kit);
    const first = rows[0] as Slab;
    first.gap = pt(2);
    first.cost = costs.heading;
    slabs.push(...heading.slabs, ...rows);
  }
  return { slabs, before: kit.sheet.between, after: kit.sheet.around };
}

/** Down the left column, then down the right: the shorter way from one name to the next. */
function measureRows(entries: readonly IndexEntry[], room: Room, kit: Kit): Slab[] {
  const look = kit.sheet.cell;
  const gap = pt(18);
  const width = Math.floor((room.width - gap) / 2);
  const list = kit.structure.add(room.node, 'L', { numbering: 'None' });
  const made = entries.map((entry) => {
    const node = kit.structure.add(kit.structure.add(kit.structure.add(list, 'LI'), 'LBody'), 'P');
    return linesIn(inlineOf(entry, kit), look, node, width - pt(10), kit);
  });
  const half = Math.ceil(made.length / 2);
  const base = baselineIn(look, kit);
  return Array.from({ length: half }, (_, row): Slab => {
    const items: SlabItem[] = [];
    let tall = 1;
    for (const column of [0, 1] as const) {
      const lines = made[row + column * half] ?? [];
      if (column === 1 && row + half >= made.length) continue;
      tall = Math.max(tall, lines.length);
      lines.forEach((line, index) => {
        // Lines after the first stand in, so that the eye finds the next name.
        const x = room.x + column * (width + gap) + (index === 0 ? 0 : pt(10));
        items.push({ kind: 'line', x, width: width - pt(10), baseline: base + index * look.lead, line, align: 'left' });
      });
    }
    return {
      height: tall * look.lead + pt(2),
      items,
      gap: 0,
      cost: row === 1 || row === half - 1 ? costs.rowNearEdge : costs.row,
      decor: room.decor,
      of: 'other',
    };
  });
}

/** A name and its pages; a page met twice is named once, as far as the pages are known from the pass before. */
function inlineOf({ name, anchors }: IndexEntry, kit: Kit): Inline[] {
  const seen = new Set<number>();
  // In the first pass no page is known: about as many as there will be keep the room.
  const first = anchors[0];
  const asked = first !== undefined && kit.pageBefore(first) === undefined ? anchors.slice(0, 6) : anchors;
  const shown = asked.filter((anchor) => {
    const page = kit.pageBefore(anchor);
    if (page === undefined) return true;
    if (seen.has(page)) return false;
    seen.add(page);
    return true;
  });
  return [
    { kind: 'text', text: `${name}\u2003` },
    ...shown.flatMap((anchor, index): Inline[] => [
      ...(index === 0 ? [] : [{ kind: 'text', text: ', ' } as const]),
      { kind: 'link', text: '', anchor, page: true, bare: true },
    ]),
  ];
}

function byLetter(entries: readonly IndexEntry[]): ReadonlyMap<string, readonly IndexEntry[]> {
  const out = new Map<string, IndexEntry[]>();
  for (const entry of entries) {
    const letter = (Array.from(entry.name)[0] ?? '').toUpperCase();
    out.set(letter, [...(out.get(letter) ?? []), entry]);
  }
  return out;
}
