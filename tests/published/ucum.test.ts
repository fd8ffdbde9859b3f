/**
 * The conversion cases of the UCUM functional tests (2021-02-03, Eclipse Public License 1.0, in data/): each value in one unit expression,
 * in another. The expressions are put together from our units by products and quotients; expected outcomes are read as rounded to the
 * digits they are given with.
 */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import {
  fromDecimal,
  type Measure,
  measureOf,
  product,
  quotient,
  type Rational,
  rational,
  sameDimension,
  toNumber,
  type Unit,
  unitOf,
} from '../../procedures-schema/quantities/index.ts';
import { PI } from '../../procedures-schema/quantities/irrational.ts';

const text = readFileSync(new URL('./data/UcumFunctionalTests.xml', import.meta.url), 'utf8').replace(/<!--[\s\S]*?-->/g, '');
const cases = [...text.matchAll(/<case id="(3-[^"]+)"\s+value="([^"]+)"\s+srcUnit="([^"]+)"\s+dstUnit="([^"]+)"\s+outcome="([^"]+)"/g)];

const number = (value: Rational): Measure => ({ value, dimension: [0, 0, 0, 0, 0, 0, 0] });
const of = (symbol: string, count: Rational = rational(1)): Measure => measureOf(count, unitOf(symbol) as Unit);
const over = (a: Measure, b: Measure): Measure => quotient(a, b) as Measure;

/** UCUM's atoms in our units; constants from UCUM's own definitions. */
const ATOMS: Readonly<Record<string, Measure>> = {
  m: of('m'),
  mm: of('mm'),
  cm: of('cm'),
  s: of('s'),
  ms: of('ms'),
  g: of('g'),
  mg: of('mg'),
  L: of('L'),
  A: of('A'),
  N: of('N'),
  C: product(of('A'), of('s')),
  S: over(number(rational(1)), of('Ω')),
  '[in_i]': of('in'),
  '[pi]': number(PI),
  // Light in a vacuum through a Julian year, 299 792 458 m/s and 365.25 d.
  '[ly]': of('m', rational(9_460_730_472_580_800n)),
  '[mu_0]': product(
    number(rational(4)),
    over(product(number(PI), product(of('N'), number(rational(1, 10_000_000)))), product(of('A'), of('A'))),
  ),
  // UCUM takes the metre of mercury as 133.322 kPa.
  'm[Hg]': of('kPa', fromDecimal('133.322') as Rational),
};

function raised(base: Measure, exponent: number): Measure {
  let out = number(rational(1));
  for (let k = 0; k < Math.abs(exponent); k += 1) out = exponent > 0 ? product(out, base) : over(out, base);
  return out;
}

/** "s.m-1", "4.[pi].10*-7.s": from left to right. */
function expression(code: string): Measure {
  let out = number(rational(1));
  let sign = '.';
  for (const [, mark = '.', term = ''] of `.${code}`.matchAll(/([./]+)([^./]+)/g)) {
    sign = mark.includes('/') ? '/' : '.';
    const power = /^10\*([+-]?\d+)$/.exec(term);
    const digits = /^\d+$/.exec(term);
    const atom = /^((?:[A-Za-z]*\[[^\]]+\])|[A-Za-z]+)([+-]?\d+)?$/.exec(term);
    const value = power
      ? raised(number(rational(10)), Number(power[1]))
      : digits
        ? number(rational(BigInt(term)))
        : raised(ATOMS[atom?.[1] ?? ''] as Measure, Number(atom?.[2] ?? 1));
    out = sign === '/' ? over(out, value) : product(out, value);
  }
  return out;
}

const digitsOf = (outcome: string): number =>
  outcome
    .replace(/e.*$/, '')
    .replace(/^[-0.]+/, '')
    .replace('.', '').length || 1;

test.each(cases.map(([, id, value, from, to, outcome]) => [id, value, from, to, outcome] as const))(
  '%s: %s %s in %s is %s',
  (_, value, from, to, outcome) => {
    const source = product(number(fromDecimal(value as string) as Rational), expression(from as string));
    const target = expression(to as string);
    expect(sameDimension(source.dimension, target.dimension)).toBe(true);
    const found = toNumber(over(source, target).value);
    // A double holds about fifteen digits; the cases with more are compared to so many.
    const digits = Math.min(15, digitsOf(outcome as string));
    const expected = Number(outcome);
    expect(Math.abs(found - expected)).toBeLessThanOrEqual((Math.abs(expected) / 10 ** (digits - 1)) * 0.75);
  },
);

test('all of them were tried', () => {
  console.log(`UCUM conversion cases: ${cases.length}`);
  expect(cases.length).toBe(30);
});
