/** Lengths of the layout: whole millipoints, so that sums never depend on their order. Leaves paper sizes to paper.ts. */

/** A thousandth of a point; always a whole number; y grows downwards. */
export type Mp = number;

export const pt = (points: number): Mp => Math.round(points * 1000);

/** 1 in = 25.4 mm = 72 pt. */
export const mm = (millimetres: number): Mp => Math.round((millimetres * 72000) / 25.4);

/** A share of a length, in thousandths, rounded to a whole millipoint. */
export const share = (length: Mp, thousandths: number): Mp => Math.round((length * thousandths) / 1000);
