/**
 * What a writer needs to derive limits, as named functions for formulas and for `handsclear compute`. Each says what it takes, its
 * formula and its source; the tests reproduce a published worked example of each. To add one, add an entry.
 */
import { type Dimension, KINDS, type Measure, NONE, product, quotient, total } from './dimension.ts';
import { naturalLogarithm, PI, squareRoot } from './irrational.ts';
import { divide, multiply, type Rational, rational, subtract } from './rational.ts';
import type { QuantityKind } from './unit-table.ts';

export interface Helper {
  readonly takes: readonly { readonly name: string; readonly kind: QuantityKind }[];
  readonly gives: QuantityKind;
  readonly formula: string;
  readonly source: string;
  /** undefined where the values make no sense (a root of less than nought). */
  readonly compute: (...given: readonly Measure[]) => Measure | undefined;
}

const number = (value: Rational): Measure => ({ value, dimension: NONE });
const scaled = (measure: Measure, by: Rational): Measure => ({ ...measure, value: multiply(measure.value, by) });
const negated = (measure: Measure): Measure => scaled(measure, rational(-1));
const root = (measure: Measure | undefined): Measure | undefined => {
  const value = measure && squareRoot(measure.value);
  if (measure === undefined || value === undefined || measure.dimension.some((exponent) => exponent % 2 !== 0)) return undefined;
  return { value, dimension: measure.dimension.map((exponent) => exponent / 2) as unknown as Dimension };
};
const take = (name: string, kind: QuantityKind) => ({ name, kind });

export const HELPERS: Readonly<Record<string, Helper>> = {
  'belt span': {
    takes: [take('center distance', 'length'), take('large sheave', 'length'), take('small sheave', 'length')],
    gives: 'length',
    formula: 'S = sqrt(C^2 - ((D - d) / 2)^2)',
    source: "V-belt force-deflection method: a belt maker's guide and a plant-maintenance handbook page",
    compute: (c, large, small) => {
      const half = total(large as Measure, negated(small as Measure));
      const side = half && scaled(half, rational(1, 2));
      return side && root(total(product(c as Measure, c as Measure), negated(product(side, side))));
    },
  },
  'belt deflection': {
    takes: [take('span', 'length')],
    gives: 'length',
    formula: 'h = S / 64',
    source: 'V-belt force-deflection method: 1/64 in per inch of span, the same sources',
    compute: (span) => scaled(span as Measure, rational(1, 64)),
  },
  'chain pitches': {
    takes: [take('large teeth', 'count'), take('small teeth', 'count'), take('center distance in pitches', 'count')],
    gives: 'count',
    formula: 'L = 2C + (N + n)/2 + (N - n)^2 / (4 pi^2 C)',
    source: 'roller-chain length, the same on three public pages (some print 39.6 for 4 pi^2) and in a journal paper on chain drives',
    compute: (large, small, c) => {
      const [n, m, p] = [large?.value, small?.value, c?.value] as Rational[];
      if (!n || !m || !p || p.n <= 0n) return undefined;
      const gap = subtract(n, m);
      const last = divide(multiply(gap, gap), multiply(multiply(rational(4), multiply(PI, PI)), p));
      return total(
        number(multiply(rational(2), p)),
        total(number(divide(subtract(n, multiply(m, rational(-1))), rational(2))), number(last)) as Measure,
      );
    },
  },
  'chain center': {
    takes: [take('pitches', 'count'), take('large teeth', 'count'), take('small teeth', 'count')],
    gives: 'count',
    formula: 'C = ((2L - N - n) + sqrt((2L - N - n)^2 - 8 (N - n)^2 / pi^2)) / 8',
    source: 'roller-chain centre distance from a whole number of pitches: a public page, a journal paper on chain drives',
    compute: (length, large, small) => {
      const [l, n, m] = [length?.value, large?.value, small?.value] as Rational[];
      if (!l || !n || !m) return undefined;
      const a = subtract(subtract(multiply(rational(2), l), n), m);
      const gap = subtract(n, m);
      const inside = subtract(multiply(a, a), divide(multiply(rational(8), multiply(gap, gap)), multiply(PI, PI)));
      const side = squareRoot(inside);
      return side && scaled(total(number(a), number(side)) as Measure, rational(1, 8));
    },
  },
  'chain slack': {
    takes: [take('span', 'length'), take('share', 'ratio')],
    gives: 'length',
    formula: 'total hand movement = share x span (about 4 %; 2 % for vertical, long or reversing drives)',
    source: "chain handbook 7.1.2; a chain maker's installation page says the same",
    compute: (span, share) => product(span as Measure, share as Measure),
  },
  'stress area': {
    takes: [take('diameter', 'length'), take('thread pitch', 'length')],
    gives: 'area',
    formula: 'A = pi/4 (d - 0.9382 P)^2',
    source: 'ISO 898-1, tensile stress area of metric threads',
    compute: (d, p) => {
      const core = total(d as Measure, scaled(p as Measure, rational(-9382, 10_000)));
      return core && scaled(product(core, core), divide(PI, rational(4)));
    },
  },
  preload: {
    takes: [take('proof stress', 'pressure'), take('stress area', 'area')],
    gives: 'force',
    formula: 'F = 0.75 S A',
    source: '75 percent of the proof load for joints that are taken apart: two public handbook pages',
    compute: (stress, area) => scaled(product(stress as Measure, area as Measure), rational(3, 4)),
  },
  'bolt torque': {
    takes: [take('friction factor', 'count'), take('diameter', 'length'), take('preload', 'force')],
    gives: 'torque',
    formula: 'T = K D F (K about 0.20 as received, 0.15 lubricated)',
    source: 'nut-factor formula, several public pages',
    compute: (k, d, f) => product(product(k as Measure, d as Measure), f as Measure),
  },
  'spring force': {
    takes: [take('rate', 'spring rate'), take('travel', 'length')],
    gives: 'force',
    formula: 'F = k x',
    source: "Hooke's law",
    compute: (rate, travel) => product(rate as Measure, travel as Measure),
  },
  'piston area': {
    takes: [take('bore', 'length')],
    gives: 'area',
    formula: 'A = pi/4 d^2',
    source: 'area of a circle',
    compute: (bore) => scaled(product(bore as Measure, bore as Measure), divide(PI, rational(4))),
  },
  'pressure force': {
    takes: [take('pressure', 'pressure'), take('area', 'area')],
    gives: 'force',
    formula: 'F = p A',
    source: 'definition of pressure',
    compute: (pressure, area) => product(pressure as Measure, area as Measure),
  },
  'bleed-down time': {
    takes: [take('resistance', 'resistance'), take('capacitance', 'capacitance'), take('from', 'voltage'), take('to', 'voltage')],
    gives: 'time',
    formula: 't = R C ln(V0 / V)',
    source: 'discharge of a capacitor through a resistor: OpenStax College Physics, chapter 21',
    compute: (resistance, capacitance, from, to) => {
      const ratio = quotient(from as Measure, to as Measure);
      const log = ratio && naturalLogarithm(ratio.value);
      return log && product(product(resistance as Measure, capacitance as Measure), number(log));
    },
  },
};

export const takesDimension = (kind: QuantityKind): Dimension => KINDS[kind].dimension;
