/**
 * Roots, logarithms and the number pi to forty decimals as rationals, by whole-number arithmetic alone: the same digits on every machine.
 * Forty decimals are far more than any instrument reads.
 */
import { add, compare, divide, multiply, ONE, type Rational, rational, subtract } from './rational.ts';

const DIGITS = 40;
const SCALE = 10n ** BigInt(DIGITS);

/** pi to forty decimals (widely published; compared in the tests with Machin's formula). */
export const PI: Rational = rational(31415926535897932384626433832795028841971n, SCALE);

/** Cut to forty decimals, so that numbers do not grow without end. */
function cut(value: Rational): Rational {
  return rational((value.n * SCALE) / value.d, SCALE);
}

/** The square root, rounded down in the fortieth decimal; undefined below nought. */
export function squareRoot(value: Rational): Rational | undefined {
  if (value.n < 0n) return undefined;
  return rational(wholeRoot((value.n * SCALE * SCALE) / value.d), SCALE);
}

/** Newton's method on whole numbers. */
function wholeRoot(n: bigint): bigint {
  if (n < 2n) return n;
  let x = 1n << BigInt(Math.ceil(n.toString(2).length / 2));
  for (;;) {
    const y = (x + n / x) >> 1n;
    if (y >= x) return x;
    x = y;
  }
}

/** The natural logarithm: ln x = 2 artanh((x - 1) / (x + 1)), after powers of two are taken out. undefined at and below nought. */
export function naturalLogarithm(value: Rational): Rational | undefined {
  if (value.n <= 0n) return undefined;
  let x = value;
  let twos = 0;
  for (; compare(x, rational(2)) >= 0; twos += 1) x = divide(x, rational(2));
  for (; compare(x, ONE) < 0; twos -= 1) x = multiply(x, rational(2));
  return cut(add(series(x), multiply(rational(twos), series(rational(2)))));
}

function series(x: Rational): Rational {
  const z = cut(divide(subtract(x, ONE), add(x, ONE)));
  const square = cut(multiply(z, z));
  let power = z;
  let sum = z;
  for (let k = 3; power.n !== 0n && k < 400; k += 2) {
    power = cut(multiply(power, square));
    sum = add(sum, cut(divide(power, rational(k))));
  }
  return multiply(rational(2), cut(sum));
}
