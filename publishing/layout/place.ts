/** Fourth stage: every slab gets a page and a height on it, every page its side and its section; its margins: margin-words.ts. Measures and draws nothing. */
import type { Book } from '../book.ts';
import { breakPages, heightOf, resumedHeight, resumedOn } from './break.ts';
import { mostGiven, spacesOf } from './give-way.ts';
import type { LayoutNote } from './kit.ts';
import type { MarginWords } from './margin-words.ts';
import type { NormalChapter } from './normalise.ts';
import { geometryOf, type PageGeometry, type Side, sideOf } from './paper.ts';
import type { Slab } from './slab.ts';
import type { NodeId } from './structure.ts';
import { costs } from './style.ts';
import type { Mp } from './units.ts';

export interface PlacedSlab {
  readonly slab: Slab;
  /** Top of the slab from the top of the body. */
  readonly y: Mp;
}

/** A page with all of the flow that stands on it. */
export interface FilledPage {
  readonly side: Side;
  readonly geometry: PageGeometry;
  readonly slabs: readonly PlacedSlab[];
  /** undefined on the cover and on pages blank on purpose. */
  readonly chapter: NormalChapter | undefined;
  /** Title of the section in force at the head of the page. */
  readonly section: string;
  readonly blank: boolean;
  /** A landscape page: read with the book turned. */
  readonly turned: boolean;
  readonly cover: boolean;
}

export interface PlacedPage extends FilledPage {
  readonly words: MarginWords;
}

export interface MeasuredChapter {
  readonly chapter: NormalChapter | undefined;
  /** Its element in the structure. */
  readonly node: NodeId;
  /** Cut at page breaks; each stretch begins a page, of a side where one is given. */
  readonly stretches: readonly { readonly slabs: readonly Slab[]; readonly side?: Side; readonly turned?: boolean }[];
}

export interface Placed {
  readonly pages: readonly FilledPage[];
  /** Page index of each anchor. */
  readonly anchors: ReadonlyMap<string, number>;
  readonly notes: readonly LayoutNote[];
}

export function placeAll(chapters: readonly MeasuredChapter[], book: Book): Placed {
  const pages: FilledPage[] = [];
  const anchors = new Map<string, number>();
  const notes: LayoutNote[] = [];
  const geometries = new Map<string, PageGeometry>();
  const geometry = (side: Side, turned: boolean): PageGeometry => {
    const key = `${side} ${turned}`;
    const known = geometries.get(key) ?? geometryOf(book, side, turned);
    geometries.set(key, known);
    return known;
  };
  const addPage = (page: Omit<FilledPage, 'side' | 'geometry' | 'turned'>, turned = false): void => {
    const side = sideOf(pages.length, book);
    pages.push({ ...page, side, geometry: geometry(side, turned), turned });
  };
  for (const { chapter, stretches } of chapters) {
    let section = '';
    for (const { slabs, side, turned } of stretches) {
      if (side !== undefined && book.duplex && sideOf(pages.length, book) !== side)
        addPage({ slabs: [], chapter: undefined, section: '', blank: true, cover: false });
      // A turned page is not as high on a back as on a front, and which one a slab comes to is not known yet: it must fit both.
      const height = Math.min(geometry('left', turned === true).body.height, geometry('right', turned === true).body.height);
      const begin = pages.length;
      // Right-hand pages are turned; without backs every leaf is.
      const { starts, forced, filled } = fill(
        slabs,
        height,
        sideOf(begin, book) === 'right',
        sideOf(begin + 1, book) === 'right',
        book.short === undefined ? 0 : costs.anotherLeaf,
      );
      for (const at of forced) {
        const page = pages.length + starts.indexOf(at) + 1;
        const above = slabs[at - 1] as Slab;
        const what = (above.of === 'heading' ? above : (slabs[at] as Slab)).group ?? 'a block';
        const message = `Page ${page}: one page has no room for ${what}; it is parted here.`;
        const anchor = anchorAbove(slabs, at);
        notes.push({ kind: 'group-too-tall', message, ...(anchor === undefined ? {} : { anchor }) });
      }
      starts.forEach((start, index) => {
        const end = starts[index + 1] ?? slabs.length;
        const first = slabs[start] as Slab;
        const opens = first.section ?? section;
        for (let at = start; at < end; at += 1) {
          const slab = slabs[at] as Slab;
          if (slab.section !== undefined) section = slab.section;
          if (slab.anchors !== undefined) for (const anchor of slab.anchors) if (!anchors.has(anchor)) anchors.set(anchor, pages.length);
        }
        addPage(
          { slabs: filled[index] as readonly PlacedSlab[], chapter, section: opens, blank: false, cover: chapter === undefined },
          turned,
        );
      });
    }
  }
  return { pages, anchors, notes };
}

/** The last place that has a name, from there on upward. */
function anchorAbove(slabs: readonly Slab[], from: number): string | undefined {
  for (let at = from; at >= 0; at -= 1) {
    const [anchor] = slabs[at]?.anchors ?? [];
    if (anchor !== undefined) return anchor;
  }
  return undefined;
}

interface Filled {
  readonly key: string;
  readonly starts: readonly number[];
  readonly forced: readonly number[];
  readonly filled: readonly (readonly PlacedSlab[])[];
}

/** Pure memory: the same slabs on the same pages stand at the same heights, in the next pass and after an edit elsewhere. */
const known = new WeakMap<readonly Slab[], Filled>();

/** A stretch broken into pages and every slab at its height. `even` and `odd`: whether a leaf is turned after pages 0, 2 ... and 1, 3 ... of it. */
function fill(slabs: readonly Slab[], height: Mp, even: boolean, odd: boolean, leaf: number): Filled {
  const key = `${height} ${even} ${odd} ${leaf}`;
  const before = known.get(slabs);
  if (before?.key === key) return before;
  const { starts, forced } = breakPages(slabs, height, (page) => (page % 2 === 0 ? even : odd), leaf, mostGiven);
  const filled = starts.map((start, index) => fillPage(slabs, start, starts[index + 1] ?? slabs.length, height));
  const made = { key, starts, forced, filled };
  known.set(slabs, made);
  return made;
}

function fillPage(slabs: readonly Slab[], start: number, end: number, height: Mp): readonly PlacedSlab[] {
  const placed: PlacedSlab[] = [];
  const first = slabs[start] as Slab;
  let y = 0;
  if (start > 0)
    for (const again of resumedOn(first, height)) {
      // A heading stands over what it continues, and so does what guards the section; a notice's panel inside its frame.
      placed.push({ slab: { ...again, decor: again.of === 'heading' || again.of === 'recall' ? [] : first.decor }, y });
      y += again.height;
    }
  const spaces = spacesOf(slabs, start, end, height);
  for (let at = start; at < end; at += 1) {
    const slab = slabs[at] as Slab;
    y += spaces[at - start] as Mp;
    placed.push({ slab, y });
    y += slab.height;
  }
  return placed;
}

/** Height a page's slabs take: for tests, and for the invariant that nothing leaves the body. */
export function usedHeight(page: FilledPage): Mp {
  const last = page.slabs[page.slabs.length - 1];
  return last === undefined ? 0 : last.y + last.slab.height;
}

export { heightOf, resumedHeight };
