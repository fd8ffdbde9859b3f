/** One side of a sheet of paper as it leaves the printer: pages at their places, and marks to cut and fold by. Plain data. */
import type { Mp, Op } from '../layout/index.ts';

export interface PlacedOnSheet {
  /** Index of the page. */
  readonly page: number;
  /** Top left corner of the page on the sheet, y down. */
  readonly x: Mp;
  readonly y: Mp;
  /** In millionths: 707107 is 0.707107. */
  readonly scale: number;
  /** A quarter turn to the left: a wide page on a tall half. Then x, y is still the top left corner of what is covered. */
  readonly turned: boolean;
}

export interface SheetSide {
  readonly width: Mp;
  readonly height: Mp;
  readonly places: readonly PlacedOnSheet[];
  readonly marks: readonly Op[];
}

/** Sheets of paper, the long edge lying. ISO 216 and US sizes, in millipoints. */
export const sheets = {
  a4: { width: 841_890, height: 595_276 },
  a3: { width: 1_190_551, height: 841_890 },
  letter: { width: 792_000, height: 612_000 },
  legal: { width: 1_008_000, height: 612_000 },
  tabloid: { width: 1_224_000, height: 792_000 },
} as const satisfies Readonly<Record<string, { readonly width: Mp; readonly height: Mp }>>;
