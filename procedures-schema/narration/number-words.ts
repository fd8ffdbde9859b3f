/** Numbers as they are said: "25" is twenty-five, "0.05" zero point zero five, "3/16" three sixteenths. Units and signs are said elsewhere. */

const ONES = [
  'zero',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
  'thirteen',
  'fourteen',
  'fifteen',
  'sixteen',
  'seventeen',
  'eighteen',
  'nineteen',
] as const;
const TENS = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'] as const;
/** Largest first. Above them digits are said one by one. */
const SCALES = [
  [1_000_000_000, 'billion'],
  [1_000_000, 'million'],
  [1_000, 'thousand'],
  [100, 'hundred'],
] as const;
const LONGEST = 12;

/** Words whose ordinal is no plain "th". */
const ORDINALS: Readonly<Record<string, string>> = {
  one: 'first',
  two: 'second',
  three: 'third',
  five: 'fifth',
  eight: 'eighth',
  nine: 'ninth',
  twelve: 'twelfth',
};

/** Parts of a whole that have a word of their own: [one, several]. */
const PARTS: Readonly<Record<number, readonly [string, string]>> = { 2: ['half', 'halves'], 4: ['quarter', 'quarters'] };

/** Whole number from zero on, below a million million. */
export function cardinal(n: number): string {
  if (n < 20) return ONES[n] as string;
  if (n < 100) return n % 10 === 0 ? (TENS[n / 10] as string) : `${TENS[Math.floor(n / 10)]}-${ONES[n % 10]}`;
  for (const [size, name] of SCALES) {
    if (n < size) continue;
    const rest = n % size;
    const head = `${cardinal(Math.floor(n / size))} ${name}`;
    return rest === 0 ? head : `${head}${rest < 100 ? ' and' : ''} ${cardinal(rest)}`;
  }
  return ONES[0];
}

/** "1" first, "22" twenty-second. */
export function ordinal(n: number): string {
  const words = cardinal(n);
  const at = Math.max(words.lastIndexOf(' '), words.lastIndexOf('-')) + 1;
  const last = words.slice(at);
  const said = ORDINALS[last] ?? (last.endsWith('y') ? `${last.slice(0, -1)}ieth` : `${last}th`);
  return words.slice(0, at) + said;
}

/** "3140" three one four zero: as numbers of documents are read out. */
export const digits = (text: string): string => [...text].map((one) => ONES[Number(one)] ?? one).join(' ');

/** "2026" twenty twenty-six, "2005" two thousand and five, "1900" nineteen hundred. */
export function year(n: number): string {
  const [front, back] = [Math.floor(n / 100), n % 100];
  if (front % 10 === 0 && back < 10) return cardinal(n);
  return `${cardinal(front)} ${back === 0 ? 'hundred' : back < 10 ? `oh ${cardinal(back)}` : cardinal(back)}`;
}

/** "3/16": three sixteenths. */
export function fraction(top: number, bottom: number): string {
  const [one, several] = PARTS[bottom] ?? [ordinal(bottom), `${ordinal(bottom)}s`];
  return `${cardinal(top)} ${top === 1 ? one : several}`;
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

/** How a number's words join the unit after them. */
export interface SaidNumber {
  readonly words: string;
  /** one: "one metre". part: "three eighths of an inch". many: all else. */
  readonly count: 'one' | 'part' | 'many';
}

/** A number as typed, with its sign: "-5", "1,200", "0.05", "1 3/4", "2½", "7/8". Undefined: no number. */
export function sayNumber(typed: string): SaidNumber | undefined {
  const parts = /^([-−–+]?)(?:(\d+)[\s-])?(?:(\d+)\/(\d+)|(\d*)\s?([½¼¾⅛⅜⅝⅞⅓⅔⅕⅙]))$/.exec(typed.trim());
  if (parts) {
    const [, sign, whole, n, d, before, vulgar] = parts;
    const [top, bottom] = VULGAR[vulgar ?? ''] ?? [Number(n), Number(d)];
    const front = whole ?? (before === '' ? undefined : before);
    if (bottom < 2 || bottom > 9999) return undefined;
    const part = fraction(top, bottom);
    return {
      words: signed(sign, front === undefined ? part : `${cardinal(Number(front))} and ${part}`),
      count: front === undefined ? 'part' : 'many',
    };
  }
  const bare = /^([-−–+]?)(\d*)(?:\.(\d+))?$/.exec(typed.trim().replace(/[,\s\u00a0\u202f\u2009](?=\d{3}(?:\D|$))/g, ''));
  if (!bare || (bare[2] === '' && bare[3] === undefined)) return undefined;
  const [, sign, whole = '', decimals] = bare;
  const front = whole.length > LONGEST || (whole.length > 1 && whole.startsWith('0')) ? digits(whole) : cardinal(Number(whole || '0'));
  const words = decimals === undefined ? front : `${front} point ${digits(decimals)}`;
  return { words: signed(sign, words), count: decimals === undefined && whole === '1' ? 'one' : 'many' };
}

const signed = (sign: string | undefined, words: string): string => {
  if (sign === undefined || sign === '') return words;
  return sign === '+' ? `plus ${words}` : `minus ${words}`;
};
