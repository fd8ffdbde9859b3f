/** What the margins of each page say besides its number, settled when the pages are placed; furniture.ts and leaf-furniture.ts only draw it. */
import { fill } from '../printed-words/index.ts';
import type { Kit } from './kit.ts';
import { type MarginLine, marginLines } from './margin-lines.ts';
import type { PageNumber } from './page-numbers.ts';
import type { FilledPage } from './place.ts';
import { widthOfAll } from './shaped.ts';
import { headCells, headWidth, leafBoxes } from './short-sheet.ts';
import { colours, type TextLook } from './style.ts';
import { type Mp, pt } from './units.ts';

export interface MarginWords {
  /** Of a bound page: title and section, on the same line where both have room. Of a leaf: number or maker, and title. */
  readonly title: readonly MarginLine[];
  readonly section: readonly MarginLine[];
  /** The section has a line of its own below the title. */
  readonly stacked: boolean;
  readonly stamp: readonly MarginLine[];
  /** The house's line. */
  readonly foot: readonly MarginLine[];
  readonly blank: readonly MarginLine[];
  /** Over the boxes in the head of a leaf. */
  readonly boxes: readonly (readonly MarginLine[])[];
}

/** Between what stands on one line of a head. */
const apart = pt(12);

/** Asks for the same words again and again get the same lines. */
export function newMarginWords(kit: Kit): (page: FilledPage, number: PageNumber) => MarginWords {
  const known = new Map<string, readonly MarginLine[]>();
  const set = (text: string, look: TextLook, width: Mp, most: number): readonly MarginLine[] => {
    const key = `${look.face} ${look.size} ${width} ${most} ${text}`;
    const lines = known.get(key) ?? marginLines(text, look, width, most, kit);
    known.set(key, lines);
    return lines;
  };
  return kit.book.short === undefined ? (page) => boundWords(page, set, kit) : (page, number) => leafWords(page, number, set, kit);
}

type Set = (text: string, look: TextLook, width: Mp, most: number) => readonly MarginLine[];

function boundWords(page: FilledPage, set: Set, kit: Kit): MarginWords {
  const { book, sheet, words } = kit;
  const { width } = page.geometry.body;
  const look = sheet.furniture;
  const bold: TextLook = { ...look, face: 'bold', colour: colours.ink };
  const { chapter } = page;
  const wide = (text: string, { face, size }: TextLook): Mp => widthOfAll(kit.shaper.shape(face, text), size);
  const said = chapter?.title ?? book.title;
  const own = wide(said, bold);
  const stacked = page.section !== '' && own + apart + wide(page.section, look) > width;
  // A title that needs two lines leaves none for the section.
  const title = page.blank || page.cover ? [] : set(said, bold, width, 2);
  const section = page.blank || page.cover || title.length > 1 ? [] : set(page.section, look, width, 1);
  const date = chapter?.date ?? book.date;
  const stamp = stampOf(page, kit);
  // A leaf that is taken out says also which guide it belongs to.
  const guide = chapter?.number === undefined || chapter.number === book.number ? undefined : book.number;
  const stampText = [date === undefined ? stamp : `${stamp}  ${date}`, guide]
    .filter((part) => part !== undefined && part !== '')
    .join(' \u00b7 ');
  return {
    title,
    section,
    stacked: stacked && section.length > 0,
    stamp: set(stampText, look, width - Math.floor(width / 3), 1),
    foot: set(book.footLine ?? '', look, width, 2),
    blank: page.blank ? set(words.blank, look, width, 1) : [],
    boxes: [],
  };
}

function leafWords(page: FilledPage, number: PageNumber, set: Set, kit: Kit): MarginWords {
  const { book, sheet, words } = kit;
  const { width } = page.geometry.body;
  const look = sheet.furniture;
  const bold: TextLook = { ...look, face: 'bold' };
  const label: TextLook = { ...bold, size: leafBoxes.label };
  const date = page.chapter?.date ?? book.date;
  const stamp = [stampOf(page, kit), date ?? ''].filter((part) => part !== '').join('  ');
  // The first leaf of a form opens with number and title of its own.
  const opens = number.shown === '1';
  const room = width - headWidth(width) - pt(10);
  return {
    title: set(opens ? book.publisher : stamp, { ...bold, size: pt(10.5) }, room, 1),
    section: page.blank ? [] : set(opens ? words.checklist : (page.chapter?.title ?? book.title), { ...look, size: pt(9.5) }, room, 2),
    stacked: true,
    stamp: [],
    foot: set(book.footLine ?? '', look, width - Math.floor(width / 3), 2),
    blank: page.blank ? set(words.blank, look, width, 1) : [],
    boxes: headCells(book.short?.head ?? [], width).map((cell) => set(cell.label, label, cell.width - pt(6), 1)),
  };
}

/** Number and revision of what stands on the page. */
function stampOf(page: FilledPage, kit: Kit): string {
  const { book, words } = kit;
  const revision = page.chapter?.revision ?? book.revision;
  const parts = [page.chapter?.number ?? book.number, revision === undefined ? '' : fill(words.revision, { r: revision })];
  return parts.filter((text) => text !== '').join('  ');
}
