/** Numbers in words back to values: "twenty-five", "zero point zero five", "one and three quarters", "three one four zero". Digits are said first, by `spoken.ts`. */
import { add, negate, type Rational, rational, ZERO } from '../quantities/index.ts';
import { cardinal, ordinal } from './number-words.ts';

/** Values of single words, from the very table that says them. */
const UP_TO_19 = new Map(Array.from({ length: 20 }, (_, n) => [cardinal(n), n] as const));
const TENS = new Map(Array.from({ length: 8 }, (_, n) => [cardinal((n + 2) * 10), (n + 2) * 10] as const));
const SCALES = new Map([
  ['thousand', 1_000],
  ['million', 1_000_000],
]);
/** "half", "quarter", "third" up to "nineteenth", with their plurals. Seconds are time, except after tens. */
const PARTS = new Map<string, number>([
  ['half', 2],
  ['halves', 2],
  ['quarter', 4],
  ['quarters', 4],
  ...Array.from({ length: 17 }, (_, n) => n + 3).flatMap((n): [string, number][] => [
    [ordinal(n), n],
    [`${ordinal(n)}s`, n],
  ]),
  ['hundredth', 100],
  ['hundredths', 100],
  ['thousandth', 1000],
  ['thousandths', 1000],
]);
const AFTER_TENS = new Map<string, number>([
  ['first', 1],
  ['firsts', 1],
  ['second', 2],
  ['seconds', 2],
  ...[...PARTS].filter(([word, n]) => n < 10 && /th|rd/.test(word)),
]);

export interface ReadNumber {
  readonly value: Rational;
  /** Words taken. */
  readonly length: number;
}

/** The number that begins at word `at`; words are in lower case without hyphens. Undefined: none. */
export function readNumber(words: readonly string[], at: number): ReadNumber | undefined {
  const minus = words[at] === 'minus' || words[at] === 'negative';
  const found = positive(words, minus ? at + 1 : at);
  if (!found || !minus) return found;
  return { value: negate(found.value), length: found.length + 1 };
}

function positive(words: readonly string[], at: number): ReadNumber | undefined {
  const run = digitRun(words, at);
  const whole = run ?? wholeAt(words, at);
  const afterWhole = at + (whole?.length ?? 0);
  const decimals = words[afterWhole] === 'point' ? decimalsAt(words, afterWhole + 1) : undefined;
  if (decimals) {
    const part = rational(BigInt(decimals.digits), 10n ** BigInt(decimals.digits.length));
    return { value: add(rational(whole?.value ?? 0), part), length: afterWhole + 1 + decimals.length - at };
  }
  if (!whole) return words[at] === 'half' ? { value: rational(1, 2), length: 1 } : undefined;
  const part = run ? undefined : partAt(words, afterWhole);
  if (part) return { value: rational(whole.value, part.bottom), length: whole.length + part.length };
  const more = words[afterWhole] === 'and' ? mixedAt(words, afterWhole + 1) : undefined;
  if (more) return { value: add(rational(whole.value), more.value), length: whole.length + 1 + more.length };
  return { value: rational(whole.value), length: whole.length };
}

interface Whole {
  readonly value: number;
  readonly length: number;
}

const digitOf = (word: string | undefined): number | undefined => {
  const value = word === 'oh' ? 0 : UP_TO_19.get(word ?? '');
  return value !== undefined && value < 10 ? value : undefined;
};

/** "three one four zero", "thirty-one forty": figures read in ones or in pairs. */
function digitRun(words: readonly string[], at: number): Whole | undefined {
  let digits = '';
  let next = at;
  for (let digit = digitOf(words[next]); digit !== undefined && words[at] !== 'oh'; digit = digitOf(words[next])) {
    digits += String(digit);
    next += 1;
  }
  // "two one hundred ..." is no run: what follows belongs to the last.
  if (digits.length > 1 && /^(?:hundred|thousand|million|point)$/.test(words[next] ?? '')) return undefined;
  if (digits.length > 1 && digits.length < 13) return { value: Number(digits), length: next - at };
  const pair = pairAt(words, at);
  const second = pair && (words[at + pair.length] === 'oh' ? undefined : pairAt(words, at + pair.length));
  if (pair && second && !/^(?:hundred|thousand|point)$/.test(words[at + pair.length + second.length] ?? ''))
    return { value: pair.value * 100 + second.value, length: pair.length + second.length };
  const low = pair && words[at + pair.length] === 'oh' ? digitOf(words[at + pair.length + 1]) : undefined;
  return pair && low !== undefined ? { value: pair.value * 100 + low, length: pair.length + 2 } : undefined;
}

/** 10 to 99. */
function pairAt(words: readonly string[], at: number): Whole | undefined {
  const tens = TENS.get(words[at] ?? '');
  if (tens !== undefined) {
    const one = digitOf(words[at + 1]);
    return one === undefined || one === 0 || words[at + 1] === 'oh' ? { value: tens, length: 1 } : { value: tens + one, length: 2 };
  }
  const teen = UP_TO_19.get(words[at] ?? '');
  return teen !== undefined && teen >= 10 ? { value: teen, length: 1 } : undefined;
}

function wholeAt(words: readonly string[], from: number): Whole | undefined {
  let [total, current, at] = [0, 0, from];
  let last: 'none' | 'ones' | 'tens' | 'hundred' | 'scale' = 'none';
  if ((words[at] === 'a' || words[at] === 'one') && /^(?:hundred|thousand|million)$/.test(words[at + 1] ?? '')) {
    current = 1;
    last = 'ones';
    at += 1;
  }
  for (; ; at += 1) {
    const word = words[at] ?? '';
    const small = UP_TO_19.get(word);
    const tens = TENS.get(word);
    const scale = SCALES.get(word);
    if (small !== undefined && last === 'tens' && small > 0 && small < 10) [current, last] = [current + small, 'ones'];
    else if (small !== undefined && /none|hundred|scale/.test(last)) [current, last] = [current + small, 'ones'];
    else if (tens !== undefined && /none|hundred|scale/.test(last)) [current, last] = [current + tens, 'tens'];
    else if (word === 'hundred' && /ones|tens/.test(last) && current < 100) [current, last] = [current * 100, 'hundred'];
    else if (scale !== undefined && /ones|tens|hundred/.test(last)) [total, current, last] = [total + current * scale, 0, 'scale'];
    else if (word === 'and' && /hundred|scale/.test(last) && (UP_TO_19.has(words[at + 1] ?? '') || TENS.has(words[at + 1] ?? ''))) continue;
    else break;
  }
  return last === 'none' ? undefined : { value: total + current, length: at - from };
}

/** After "point": single figures, or a pair ("point seventy-five"). */
function decimalsAt(words: readonly string[], at: number): { readonly digits: string; readonly length: number } | undefined {
  let digits = '';
  let next = at;
  for (let digit = digitOf(words[next]); digit !== undefined; digit = digitOf(words[next])) {
    digits += String(digit);
    next += 1;
  }
  if (digits !== '') return { digits, length: next - at };
  const pair = pairAt(words, at);
  return pair ? { digits: String(pair.value), length: pair.length } : undefined;
}

function partAt(words: readonly string[], at: number): { readonly bottom: number; readonly length: number } | undefined {
  const tens = TENS.get(words[at] ?? '');
  const low = AFTER_TENS.get(words[at + 1] ?? '');
  if (tens !== undefined && low !== undefined) return { bottom: tens + low, length: 2 };
  const bottom = PARTS.get(words[at] ?? '');
  return bottom === undefined ? undefined : { bottom, length: 1 };
}

/** "a half", "one half", "three quarters" after "and". */
function mixedAt(words: readonly string[], at: number): ReadNumber | undefined {
  const top = words[at] === 'a' ? { value: 1, length: 1 } : wholeAt(words, at);
  const part = top && partAt(words, at + top.length);
  return top && part && top.value < part.bottom ? { value: rational(top.value, part.bottom), length: top.length + part.length } : undefined;
}

export const isZero = (value: Rational): boolean => value.n === ZERO.n;
