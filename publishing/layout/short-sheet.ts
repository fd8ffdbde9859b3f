/** How a short form looks: smaller heads and no hanging margin, but letters and boxes for gloves and for a copy of a copy. Measures nothing. */
import type { Book, EntryCell } from '../book.ts';
import { growth } from './paper.ts';
import { colours, type Sheet, sheetOf, type TextLook } from './style.ts';
import { type Mp, mm, pt } from './units.ts';

const small = (paper: Book['paper']): boolean => growth(paper) < 500;

/** A leaf on which every line counts. */
export const isSmall = ({ book }: { readonly book: Pick<Book, 'paper'> }): boolean => small(book.paper);

export function shortSheet(paper: Book['paper']): Sheet {
  const base = sheetOf(paper);
  const { ink } = colours;
  const size = small(paper) ? 10 : 10.5;
  const of = (look: TextLook, points: number, lead: number): TextLook => ({ ...look, size: pt(points), lead: pt(lead), colour: ink });
  return {
    ...base,
    body: of(base.body, size, size + 2.75),
    lead: of(base.lead, size, size + 2.75),
    small: of(base.small, 9, 11.5),
    state: of(base.state, size, size + 2.75),
    cell: of(base.cell, size - 0.5, size + 2),
    cellHead: of(base.cellHead, size - 0.5, size + 2),
    caption: of(base.caption, 9, 11.5),
    label: of(base.label, size, size + 2.75),
    subLabel: of(base.subLabel, size, size + 2.75),
    panel: of(base.panel, size, size + 2.75),
    furniture: of(base.furniture, 9, 11),
    eyebrow: of(base.eyebrow, 9.5, 12),
    headings: [
      of(base.headings[0], 16, 19),
      of(base.headings[1], 12.5, 15),
      of(base.headings[2], 11, 14),
      of(base.headings[3], 10.5, 13.5),
    ],
    hang: 0,
    measure: mm(180),
    between: pt(2.5),
    around: pt(6),
    cellPad: pt(4),
    boxPad: pt(6),
  };
}

/** Boxes and lines of a short form. */
export const leafBoxes = {
  /** Side of a box to tick: a marker pen in a glove hits it. */
  tick: mm(5),
  tickGap: mm(2.2),
  /** A box to write a value in. */
  value: { width: mm(25), height: mm(9) },
  initials: { width: mm(15), height: mm(6.6) },
  initialsColumn: mm(18),
  cell: mm(11),
  cellLine: mm(8),
  /** Of everything that is filled in: dark and wide enough to come through three copies. */
  line: pt(0.9),
  /** Bold words inside a box, such as what is to be filled in. */
  label: pt(9),
  rowPad: pt(1.8),
} as const satisfies Readonly<Record<string, Mp | { readonly width: Mp; readonly height: Mp }>>;

/** Of a leaf of this width, what the boxes in its head take; the rest is for number and title. */
export const headWidth = (width: Mp): Mp => Math.round(width * 0.5);

/** Each with its place from the left edge of the first. */
export function headCells(cells: readonly EntryCell[], width: Mp): readonly (EntryCell & { readonly x: Mp; readonly width: Mp })[] {
  const all = headWidth(width);
  let x = 0;
  return cells.map((cell, index) => {
    const own = index === cells.length - 1 ? all - x : Math.round((all * cell.share) / 1000);
    x += own;
    return { ...cell, x: x - own, width: own };
  });
}
