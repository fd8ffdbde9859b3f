/** Numbers as a page description writes them: whole millipoints to decimal points, without an engine's rounding. */

/** 5 is "005", 120 is "12". */
const tails: readonly string[] = Array.from({ length: 1000 }, (_, rest) => String(rest).padStart(3, '0').replace(/0+$/, ''));

/** Millipoints as points: 12345 is "12.345". */
export function points(value: number): string {
  const negative = value < 0;
  const whole = Math.abs(Math.round(value));
  const head = Math.floor(whole / 1000);
  const rest = whole % 1000;
  const text = rest === 0 ? String(head) : `${head}.${tails[rest]}`;
  return negative && whole !== 0 ? `-${text}` : text;
}

/** A colour channel, 0 to 255, as a share of one in thousandths. */
export const channel = (value: number): string => points(Math.round((value * 1000) / 255));

export const hex4 = (value: number): string => value.toString(16).padStart(4, '0').toUpperCase();
