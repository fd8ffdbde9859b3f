/** Reads one number as typed: decimals, thousands, fractions, mixed numbers, vulgar fraction signs. */

import type { Amount } from './quantity.ts';
import { add, divide, negate, ONE, type Rational, rational } from './rational.ts';

/** How the library's language writes numbers. */
export type DecimalMark = 'point' | 'comma';

export function decimalMarkOf(language: string): DecimalMark {
  return /^(?:de|fr|es|it|nl|pl|pt|sv|da|nb|nn|no|fi|cs|sk|sl|hr|hu|ro|bg|ru|uk|tr|el|et|lv|lt)\b/i.test(language) ? 'comma' : 'point';
}

const VULGAR: Readonly<Record<string, readonly [number, number]>> = {
  '½': [1, 2],
  '¼': [1, 4],
  '¾': [3, 4],
  '⅛': [1, 8],
  '⅜': [3, 8],
  '⅝': [5, 8],
  '⅞': [7, 8],
  '⅓': [1, 3],
  '⅔': [2, 3],
  '⅕': [1, 5],
  '⅙': [1, 6],
};

const SHAPE =
  /([-−–+]?)(?:(\d{1,4})[  -](\d{1,3})\/(\d{1,3})|(\d{1,4})\/(\d{1,4})|(\d{0,4})\s?([½¼¾⅛⅜⅝⅞⅓⅔⅕⅙])|(\d+(?:[.,\u202f  ]\d{3})*(?:[.,]\d+)?|\d+[.,]\d+|[.,]\d+))(?![\d])/y;

/** Nobody types a longer value; a row of digits without end is no quantity. */
const LONGEST = 30;

/** The number that starts at `at`; undefined where there is none. A sign counts only right before the digits. */
export function numberAt(text: string, at: number, mark: DecimalMark): { readonly amount: Amount; readonly end: number } | undefined {
  SHAPE.lastIndex = at;
  const found = SHAPE.exec(text);
  if (!found) return undefined;
  if (found[0].length > LONGEST) return undefined;
  const [typed, sign, whole, wn, wd, n, d, vulgarWhole, vulgar, decimal] = found;
  let value: Rational;
  let step: Rational;
  let doubtful: string | undefined;
  if (decimal !== undefined) {
    const read = readDecimal(decimal, mark);
    if (!read) return undefined;
    ({ value, step } = read);
    doubtful = read.doubtful;
  } else {
    const top = BigInt(wn ?? n ?? VULGAR[vulgar ?? '']?.[0] ?? 0);
    const bottom = BigInt(wd ?? d ?? VULGAR[vulgar ?? '']?.[1] ?? 0);
    if (bottom === 0n) return undefined;
    // A fraction of an inch is cut finer than its denominator says: 3/8 in is not "to the nearest eighth".
    step = bottom < 100n ? rational(1n, 100n) : rational(1n, bottom);
    value = add(rational(BigInt(whole ?? (vulgarWhole === '' ? 0 : (vulgarWhole ?? 0)))), rational(top, bottom));
  }
  if (sign === '-' || sign === '−' || sign === '–') value = negate(value);
  return { amount: { value, step, text: typed, ...(doubtful === undefined ? {} : { doubtful }) }, end: at + typed.length };
}

function readDecimal(text: string, mark: DecimalMark): { value: Rational; step: Rational; doubtful?: string } | undefined {
  const own = mark === 'point' ? '.' : ',';
  const other = mark === 'point' ? ',' : '.';
  const bare = text.replace(/[\u202f  ]/g, '');
  const owns = bare.split(own).length - 1;
  const others = bare.split(other).length - 1;
  if (owns > 1 && others > 0) return undefined;
  // The other mark parts thousands ("1,200"), unless its groups are no thousands ("0,350", "1200,125"): then it was meant as a decimal mark.
  const [lead = '', ...groups] = (bare.split(own)[0] ?? '').split(other);
  const thousands = others === 0 || (/^[1-9]\d{0,2}$/.test(lead) && groups.every((group) => group.length === 3));
  let digits: string;
  let doubtful: string | undefined;
  if (others > 0 && !thousands) {
    if (others > 1 || owns > 0) return undefined;
    digits = bare.replace(other, '.');
    doubtful = `"${text}" uses a ${other === ',' ? 'comma' : 'point'} as the decimal mark`;
  } else if (owns > 1) {
    digits = bare.split(own).join('');
    doubtful = `"${text}" may be thousands or a slip`;
  } else {
    digits = bare.split(other).join('').replace(own, '.');
    if (others > 0) doubtful = `"${text}" may be ${digits} or ${bare.replace(other, '.')}`;
  }
  const [whole = '', fraction = ''] = digits.split('.');
  const value = rational(BigInt(`${whole}${fraction}` || '0'), 10n ** BigInt(fraction.length));
  return { value, step: divide(ONE, rational(10n ** BigInt(fraction.length))), ...(doubtful === undefined ? {} : { doubtful }) };
}
