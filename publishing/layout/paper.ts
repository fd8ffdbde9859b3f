/** Paper sizes, margins and the frame text may stand in, by paper, binding edge and side. Leaves what stands there to the other stages. */
import { type PaperName, sizeOfPaper } from '../../procedures-schema/paper-size.ts';
import type { Book } from '../book.ts';
import { type Mp, mm, pt } from './units.ts';

export interface Frame {
  readonly x: Mp;
  readonly y: Mp;
  readonly width: Mp;
  readonly height: Mp;
}

export interface PageGeometry {
  readonly width: Mp;
  readonly height: Mp;
  /** Where the flow stands; nothing of it leaves this frame. */
  readonly body: Frame;
  /** Baselines of the running head and of the foot, and the clear frame both keep to. */
  readonly headBaseline: Mp;
  readonly footBaseline: Mp;
}

interface PaperFacts {
  readonly width: Mp;
  readonly height: Mp;
  /** At the bound edge: wide enough for punched holes (12 mm from the edge, 6 mm across) and the bend of the sheet. */
  readonly bound: Mp;
  readonly outer: Mp;
  readonly top: Mp;
  readonly foot: Mp;
  /** Added at the bound edge when binding at the top. */
  readonly boundTop: Mp;
}

type Margins = Omit<PaperFacts, 'width' | 'height'>;

const margins: Readonly<Record<PaperName, Margins>> = {
  a4: { bound: mm(25), outer: mm(18), top: mm(25), foot: mm(24), boundTop: mm(12) },
  letter: { bound: mm(25.4), outer: mm(19), top: mm(25), foot: mm(23), boundTop: mm(12) },
  a5: { bound: mm(20), outer: mm(12), top: mm(20), foot: mm(19), boundTop: mm(15.5) },
};

/**
 * Thousandths of the way from the width of A5 to that of A4: what a page of any other width goes by, in margins and in type. Smaller pages have those of A5,
 * because neither a punch nor an eye gets smaller; larger ones those of A4, because longer lines are not read more easily.
 */
export function growth(paper: Book['paper']): number {
  const [least, most] = [sizeOfPaper('a5').width, sizeOfPaper('a4').width];
  const past = sizeOfPaper(paper).width - least;
  return Math.max(0, Math.min(1000, Math.round((past * 1000) / (most - least))));
}

/** Of a width nearer to A5 than to A4: every line counts. */
export const isNarrow = (paper: Book['paper']): boolean => growth(paper) < 500;

export const between = (small: number, large: number, grown: number): number => small + ((large - small) * grown) / 1000;

const known = new Map<Book['paper'], PaperFacts>();

function factsOf(paper: Book['paper']): PaperFacts {
  const found = known.get(paper);
  if (found !== undefined) return found;
  const size = sizeOfPaper(paper);
  const grown = growth(paper);
  const own = (key: keyof Margins): Mp => Math.round(between(margins.a5[key], margins.a4[key], grown));
  const named = Object.hasOwn(margins, paper) ? margins[paper as PaperName] : undefined;
  const facts: PaperFacts = {
    // Tenths of a micrometre; 25.4 mm are 72 points.
    width: Math.round((size.width * 72_000) / 254_000),
    height: Math.round((size.height * 72_000) / 254_000),
    ...(named ?? { bound: own('bound'), outer: own('outer'), top: own('top'), foot: own('foot'), boundTop: own('boundTop') }),
  };
  known.set(paper, facts);
  return facts;
}

/** Two holes of 6 mm, 12 mm from the edge to their middle (ISO 838), and a little for the bend of the sheet: nothing is printed there. */
export const PUNCHED = mm(18);
/** From the body to the farthest edge of the draft mark over the head, of the second line under the foot, and of a mark beside the text. */
const reach = { head: mm(8.5) + pt(24), foot: mm(11) + pt(15), beside: pt(17) } as const;

/** Sheet side: right-hand pages are odd. Without duplex every page is a front. */
export type Side = 'right' | 'left';

export const sideOf = (pageIndex: number, book: Book): Side => (!book.duplex || pageIndex % 2 === 0 ? 'right' : 'left');

/** `turned`: a page to be read with the book turned a quarter clockwise, its head where the portrait page has its left edge. */
export function geometryOf(book: Book, side: Side, turned = false): PageGeometry {
  return turned ? turnedGeometry(book, side) : uprightGeometry(book, side);
}

function turnedGeometry(book: Book, side: Side): PageGeometry {
  const upright = uprightGeometry(book, side);
  const { body } = upright;
  const paper = factsOf(book.paper);
  // The portrait left edge is the head now, the portrait foot the left edge. Head and foot lines stand between the body and the edge that is punched.
  const head = reach.head + (book.short === undefined ? 0 : leaf.mark);
  const punched = book.binding === 'left' ? Math.max(PUNCHED + head - paper.top, PUNCHED + reach.foot - paper.foot) : 0;
  const top = Math.max(body.x, paper.top + (side === 'right' ? punched : 0));
  const foot = Math.max(upright.width - body.x - body.width, paper.foot + (side === 'left' ? punched : 0));
  // The same on fronts and backs: what was measured for one side must fit the other.
  const left = book.binding === 'top' ? Math.max(paper.bound, PUNCHED + reach.beside) : paper.bound;
  const right = left;
  return {
    width: upright.height,
    height: upright.width,
    body: { x: left, y: top, width: upright.height - left - right, height: upright.width - top - foot },
    headBaseline: top - mm(8.5),
    footBaseline: upright.width - foot + mm(11),
  };
}

function uprightGeometry(book: Book, side: Side): PageGeometry {
  if (book.short !== undefined) return leafGeometry(book, side);
  const paper = factsOf(book.paper);
  const unbound = Math.round((paper.bound + paper.outer) / 2);
  const inner = book.binding === 'left' ? paper.bound : unbound;
  const outer = book.binding === 'left' ? paper.outer : unbound;
  const left = side === 'right' ? inner : outer;
  // A pad bound at the top turns over its head, so the bound edge of a back is its foot.
  const top = paper.top + (book.binding === 'top' && side === 'right' ? paper.boundTop : 0);
  const foot = paper.foot + (book.binding === 'top' && side === 'left' ? paper.boundTop : 0);
  return {
    width: paper.width,
    height: paper.height,
    body: { x: left, y: top, width: paper.width - inner - outer, height: paper.height - top - foot },
    headBaseline: top - mm(8.5),
    footBaseline: paper.height - foot + mm(11),
  };
}

/**
 * A short form: holes stay clear at the bound edge, the rest of the sheet is for writing. The head holds a row of boxes; `mark` is how much higher than
 * on other pages the draft mark stands, `marked` what a page with that mark lacks below it, `boundTop` what head or foot move in by to clear the holes
 * when binding at the top. Nothing stands nearer to an edge than 4 mm: a desk printer leaves that much white (common practice, no source).
 */
const leaf = {
  bound: mm(19),
  outer: mm(9),
  top: mm(20),
  smallTop: mm(17.7),
  foot: mm(12.5),
  smallFoot: mm(9.6),
  mark: mm(1.6),
  marked: mm(5),
  boundTop: mm(16),
} as const;

function leafGeometry(book: Book, side: Side): PageGeometry {
  const { width, height } = factsOf(book.paper);
  const even = (leaf.bound + leaf.outer) / 2;
  const left = book.binding !== 'left' ? Math.round(even) : side === 'right' ? leaf.bound : leaf.outer;
  // Where the head or the foot is punched, nothing comes nearer to it.
  const small = isNarrow(book.paper) && book.binding !== 'top';
  const top =
    (small ? leaf.smallTop : leaf.top) +
    (book.draft || book.obsolete ? leaf.marked : 0) +
    (book.binding === 'top' && side === 'right' ? leaf.boundTop : 0);
  const foot = (small ? leaf.smallFoot : leaf.foot) + (book.binding === 'top' && side === 'left' ? leaf.boundTop : 0);
  return {
    width,
    height,
    body: { x: left, y: top, width: width - leaf.bound - leaf.outer, height: height - top - foot },
    headBaseline: top - (small ? mm(11.2) : mm(12.5)),
    footBaseline: height - foot + mm(4.6),
  };
}
