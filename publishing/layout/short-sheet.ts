/** How a short form looks: smaller heads and no hanging margin, but letters and boxes for gloves and for a copy of a copy. Measures nothing. */
import type { Book, EntryCell } from '../book.ts';
import { isNarrow } from './paper.ts';
import { colours, type Sheet, sheetOf, type TextLook } from './style.ts';
import { type Mp, mm, pt } from './units.ts';

/** A leaf on which every line counts. */
export const isSmall = ({ book }: { readonly book: Pick<Book, 'paper'> }): boolean => isNarrow(book.paper);

/** `least`: in the smallest type that is allowed, where that saves a sheet (least-type.ts). */
export function shortSheet(paper: Book['paper'], least = false): Sheet {
  const base = sheetOf(paper);
  const { ink } = colours;
  // Not below 9 points with a lead of 120 percent, whatever the paper: the last copy must be read at arm's length.
  const [size, lead] = !isNarrow(paper) ? [10.5, 13.25] : least ? [9, 11] : [9.5, 11.5];
  const of = (look: TextLook, points: number, lead: number): TextLook => ({ ...look, size: pt(points), lead: pt(lead), colour: ink });
  return {
    ...base,
    body: of(base.body, size, lead),
    lead: of(base.lead, size, lead),
    listed: isNarrow(paper) ? of(base.body, 9, 11) : of(base.body, size, lead),
    small: of(base.small, 9, isNarrow(paper) ? 11 : 11.5),
    state: of(base.state, size, lead),
    cell: of(base.cell, size - 0.5, lead - 0.75),
    cellHead: of(base.cellHead, size - 0.5, lead - 0.75),
    caption: of(base.caption, 9, 11.5),
    label: of(base.label, size, lead),
    subLabel: of(base.subLabel, size, lead),
    panel: of(base.panel, size, lead),
    furniture: of(base.furniture, 9, 11),
    eyebrow: of(base.eyebrow, 9.5, 12),
    headings: [
      isNarrow(paper) ? of(base.headings[0], 15, 17.5) : of(base.headings[0], 16, 19),
      isNarrow(paper) ? of(base.headings[1], 11.5, 13) : of(base.headings[1], 12.5, 15),
      of(base.headings[2], 11, 14),
      of(base.headings[3], 10.5, 13.5),
    ],
    aroundHeadings: isNarrow(paper) ? [[0, pt(6)], [pt(8), pt(3)], ...base.aroundHeadings.slice(2)] : base.aroundHeadings,
    hang: 0,
    measure: mm(180),
    between: isNarrow(paper) ? pt(1.8) : pt(2.5),
    around: isNarrow(paper) ? pt(4.5) : pt(6),
    cellPad: pt(4),
    boxPad: pt(6),
  };
}

/** Boxes and lines of a short form, the same on every paper: hands get no smaller. Sizes are common practice, no source. */
export const leafBoxes = {
  /** Side of a box to tick: a marker pen in a glove hits it. */
  tick: mm(5),
  tickGap: mm(1.8),
  /** A box to write a value in. */
  value: { width: mm(25), height: mm(9) },
  initials: { width: mm(15), height: mm(6.6) },
  initialsColumn: mm(16.5),
  cell: mm(11),
  cellLine: mm(8),
  /** Of everything that is filled in: dark and wide enough to come through three copies. */
  line: pt(0.9),
  /** Bold words inside a box, such as what is to be filled in. */
  label: pt(9),
} as const satisfies Readonly<Record<string, Mp | { readonly width: Mp; readonly height: Mp }>>;

/** Of a leaf of this width, what the boxes in its head take; the rest is for number and title. */
export const headWidth = (width: Mp): Mp => Math.round(width * 0.5);

/** Above and below the box of a line: two boxes below each other are 6 mm from middle to middle at the least. */
export const rowPad = (kit: { readonly book: Pick<Book, 'paper'> }): Mp => (isSmall(kit) ? pt(1.45) : pt(1.8));

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
