/** Exact fractions, so that a converted limit is never off by a rounding nobody asked for. Division by zero is our own bug. */
import { invariant } from '../invariant.ts';

/** In lowest terms, `d` positive. */
export interface Rational {
  readonly n: bigint;
  readonly d: bigint;
}

export const ZERO: Rational = { n: 0n, d: 1n };
export const ONE: Rational = { n: 1n, d: 1n };

export function rational(n: bigint | number, d: bigint | number = 1n): Rational {
  let num = BigInt(n);
  let den = BigInt(d);
  invariant(den !== 0n, 'a fraction has a denominator');
  if (den < 0n) {
    num = -num;
    den = -den;
  }
  const divisor = gcd(num < 0n ? -num : num, den);
  return divisor > 1n ? { n: num / divisor, d: den / divisor } : { n: num, d: den };
}

export const add = (a: Rational, b: Rational): Rational => rational(a.n * b.d + b.n * a.d, a.d * b.d);
export const subtract = (a: Rational, b: Rational): Rational => rational(a.n * b.d - b.n * a.d, a.d * b.d);
export const multiply = (a: Rational, b: Rational): Rational => rational(a.n * b.n, a.d * b.d);
export const divide = (a: Rational, b: Rational): Rational => rational(a.n * b.d, a.d * b.n);
export const negate = (a: Rational): Rational => ({ n: -a.n, d: a.d });
export const absolute = (a: Rational): Rational => (a.n < 0n ? negate(a) : a);
/** Negative, zero or positive. */
export const compare = (a: Rational, b: Rational): number => {
  const left = a.n * b.d;
  const right = b.n * a.d;
  return left < right ? -1 : left > right ? 1 : 0;
};

/** "12.50" is 25/2. Undefined for anything but digits with one point. */
export function fromDecimal(text: string): Rational | undefined {
  const parts = /^([+-]?)(\d+)(?:\.(\d+))?$/.exec(text);
  if (!parts) return undefined;
  const [, sign, whole = '0', fraction = ''] = parts;
  const value = rational(BigInt(whole + fraction), 10n ** BigInt(fraction.length));
  return sign === '-' ? negate(value) : value;
}

/** How an exact half, or a remainder, is rounded: to the even digit (SP 811 B.7.1), or always down or up. */
export type Rounding = 'even' | 'down' | 'up';

/** As text with that many decimals (0 or more). */
export function toDecimal(value: Rational, decimals: number, rounding: Rounding = 'even'): string {
  const scale = 10n ** BigInt(decimals);
  const scaled = value.n * scale;
  let whole = floorDivide(scaled, value.d);
  const rest = scaled - whole * value.d;
  const twice = rest * 2n;
  if (rounding === 'up' ? rest > 0n : rounding === 'even' && (twice > value.d || (twice === value.d && whole % 2n !== 0n))) whole += 1n;
  const negative = whole < 0n;
  const digits = (negative ? -whole : whole).toString().padStart(decimals + 1, '0');
  const text = decimals === 0 ? digits : `${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
  return negative ? `-${text}` : text;
}

/** For drawing and messages only, never to decide. */
export const toNumber = (value: Rational): number => Number(value.n) / Number(value.d);

function floorDivide(n: bigint, d: bigint): bigint {
  const quotient = n / d;
  return n % d < 0n ? quotient - 1n : quotient;
}

function gcd(a: bigint, b: bigint): bigint {
  let [x, y] = [a, b];
  while (y > 0n) [x, y] = [y, x % y];
  return x;
}

/** Exact: a decimal where there is one ("1.5"), else a fraction ("1/3"). */
export function toText(value: Rational): string {
  let rest = value.d;
  let decimals = 0;
  for (const factor of [2n, 5n]) {
    let times = 0;
    while (rest % factor === 0n) {
      rest /= factor;
      times += 1;
    }
    decimals = Math.max(decimals, times);
  }
  return rest === 1n ? toDecimal(value, decimals) : `${value.n}/${value.d}`;
}
