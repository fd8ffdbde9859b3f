/** Numbers as a page description writes them: whole millipoints to decimal points, without an engine's rounding. */

/** Millipoints as points: 12345 is "12.345". */
export function points(value: number): string {
  const negative = value < 0;
  const whole = Math.abs(Math.round(value));
  const head = Math.floor(whole / 1000);
  const tail = String(whole % 1000)
    .padStart(3, '0')
    .replace(/0+$/, '');
  const text = tail === '' ? String(head) : `${head}.${tail}`;
  return negative && text !== '0' ? `-${text}` : text;
}

/** A colour channel, 0 to 255, as a share of one in thousandths. */
export const channel = (value: number): string => points(Math.round((value * 1000) / 255));

export const hex4 = (value: number): string => value.toString(16).padStart(4, '0').toUpperCase();
