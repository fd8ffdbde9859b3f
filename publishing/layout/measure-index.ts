/** The index of names: under each letter in two columns, pages behind the name, every page once. Which names: the composer. */
import type { BookBlock, IndexEntry, Inline } from '../book.ts';
import { fill } from '../printed-words/index.ts';
import { asArtifact, baselineIn, type Kit, linesIn } from './kit.ts';
import { measureHeading } from './measure-text.ts';
import type { Measured, Room, Slab, SlabItem } from './slab.ts';
import { StructureBuilder } from './structure.ts';
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
    const pieces = piecesOf(entries).map((piece) => measurePiece(piece, room, kit));
    const again = pieces.length > 1 ? [headAgain(letter, room, kit)] : [];
    for (const slab of pieces.slice(1)) slab.resume = again;
    const first = pieces[0] as Slab;
    first.gap = pt(2);
    first.cost = costs.heading;
    slabs.push(...heading.slabs, ...pieces);
  }
  return { slabs, before: kit.sheet.between, after: kit.sheet.around };
}

/** Over what goes on on the next page; seen, not read aloud. */
function headAgain(letter: string, room: Room, kit: Kit): Slab {
  const text = fill(kit.words.continued, { title: letter });
  const scratch = { ...kit, structure: new StructureBuilder() };
  const made = measureHeading({ kind: 'heading', level: 4, text, bookmark: false }, { ...room, left: room.x, node: 0 }, scratch, 2);
  const { height, items } = made.slabs[0] as Slab;
  const seen = items.map((item): SlabItem => (item.kind === 'line' ? { ...item, line: asArtifact(item.line) } : item));
  return { height: height + pt(2), items: seen, gap: 0, cost: 0, decor: [], of: 'heading' };
}

/** So many names are not parted by a page: an alphabet that goes down one column, over the page and up again cannot be followed. */
const mostTogether = 30;

function piecesOf(entries: readonly IndexEntry[]): readonly (readonly IndexEntry[])[] {
  const count = Math.ceil(entries.length / mostTogether);
  const each = Math.ceil(entries.length / count);
  return Array.from({ length: count }, (_, index) => entries.slice(index * each, (index + 1) * each));
}

/** Down the left column, then down the right: the shorter way from one name to the next. Neither column waits for the other. */
function measurePiece(entries: readonly IndexEntry[], room: Room, kit: Kit): Slab {
  const look = kit.sheet.cell;
  const gap = pt(18);
  const width = Math.floor((room.width - gap) / 2);
  const list = kit.structure.add(room.node, 'L', { numbering: 'None' });
  const made = entries.map((entry) => {
    const node = kit.structure.add(kit.structure.add(kit.structure.add(list, 'LI'), 'LBody'), 'P');
    return linesIn(inlineOf(entry, kit), look, node, width - pt(10), kit);
  });
  const tall = (lines: readonly unknown[]): number => lines.length * look.lead + pt(2);
  const all = made.reduce((sum, lines) => sum + tall(lines), 0);
  const base = baselineIn(look, kit);
  const items: SlabItem[] = [];
  const heights = [0, 0];
  let column = 0;
  for (const lines of made) {
    // The left column takes the half, and the name that goes over it.
    if (column === 0 && 2 * (heights[0] as number) >= all) column = 1;
    const top = heights[column] as number;
    lines.forEach((line, index) => {
      // Lines after the first stand in, so that the eye finds the next name.
      const x = room.x + column * (width + gap) + (index === 0 ? 0 : pt(10));
      items.push({ kind: 'line', x, width: width - pt(10), baseline: top + base + index * look.lead, line, align: 'left' });
    });
    heights[column] = top + tall(lines);
  }
  return { height: Math.max(...heights), items, gap: 0, cost: costs.row, decor: room.decor, of: 'other' };
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
