/** Quantities that may be multiplied and divided: an exact value in SI base units and the exponents of its dimension. Knows no words. */
import { divide as over, add as plus, type Rational, rational, multiply as times } from './rational.ts';
import type { QuantityKind } from './unit-table.ts';
import { fromBase, toBase, type Unit } from './units.ts';

/** Exponents of length, mass, time, current, temperature, angle, sound level. */
export type Dimension = readonly [number, number, number, number, number, number, number];

export interface Measure {
  /** In metres, kilograms, seconds, amperes, kelvins, degrees of angle, decibels, as the dimension says. */
  readonly value: Rational;
  readonly dimension: Dimension;
}

interface KindFacts {
  readonly dimension: Dimension;
  /** SI units in one of the unit table's base unit of that kind. */
  readonly scale: Rational;
}

const r = (n: number | bigint, d: number | bigint = 1): Rational => rational(n, d);
const facts = (scale: Rational, l = 0, m = 0, t = 0, i = 0, k = 0, a = 0, db = 0): KindFacts => ({
  dimension: [l, m, t, i, k, a, db],
  scale,
});

// biome-ignore format: data
export const KINDS: Readonly<Record<QuantityKind, KindFacts>> = {
  length: facts(r(1, 1000), 1),
  area: facts(r(1, 1_000_000), 2),
  volume: facts(r(1, 1_000_000), 3),
  mass: facts(r(1, 1000), 0, 1),
  force: facts(r(1), 1, 1, -2),
  torque: facts(r(1), 2, 1, -2),
  pressure: facts(r(1), -1, 1, -2),
  temperature: facts(r(1), 0, 0, 0, 0, 1),
  'temperature difference': facts(r(1), 0, 0, 0, 0, 1),
  time: facts(r(1), 0, 0, 1),
  angle: facts(r(1), 0, 0, 0, 0, 0, 1),
  turns: facts(r(1)),
  voltage: facts(r(1), 2, 1, -3, -1),
  current: facts(r(1), 0, 0, 0, 1),
  resistance: facts(r(1), 2, 1, -3, -2),
  capacitance: facts(r(1), -2, -1, 4, 2),
  frequency: facts(r(1), 0, 0, -1),
  power: facts(r(1), 2, 1, -3),
  energy: facts(r(1), 2, 1, -2),
  flow: facts(r(1, 60_000), 3, 0, -1),
  speed: facts(r(1), 1, 0, -1),
  'rotational speed': facts(r(1, 60), 0, 0, -1),
  'sound level': facts(r(1), 0, 0, 0, 0, 0, 0, 1),
  ratio: facts(r(1)),
  'spring rate': facts(r(1000), 0, 1, -2),
  count: facts(r(1)),
};

export const NONE: Dimension = [0, 0, 0, 0, 0, 0, 0];

export const sameDimension = (a: Dimension, b: Dimension): boolean => a.every((exponent, index) => exponent === b[index]);

export const dimensionOf = (unit: Unit): Dimension => KINDS[unit.kind].dimension;

/** A temperature counts from absolute zero; a difference of temperatures does not (`interval`). */
export function measureOf(value: Rational, unit: Unit, interval = false): Measure {
  const { dimension, scale } = KINDS[unit.kind];
  return { value: times(interval ? times(value, unit.factor) : toBase(value, unit), scale), dimension };
}

/** The number of `unit`s; undefined where the dimension is another. */
export function inUnit(measure: Measure, unit: Unit, interval = false): Rational | undefined {
  const { dimension, scale } = KINDS[unit.kind];
  if (!sameDimension(measure.dimension, dimension)) return undefined;
  const base = over(measure.value, scale);
  return interval ? over(base, unit.factor) : fromBase(base, unit);
}

const combined = (a: Dimension, b: Dimension, sign: 1 | -1): Dimension =>
  a.map((exponent, index) => exponent + sign * (b[index] ?? 0)) as unknown as Dimension;

export const product = (a: Measure, b: Measure): Measure => ({
  value: times(a.value, b.value),
  dimension: combined(a.dimension, b.dimension, 1),
});

/** undefined for a division by nought. */
export const quotient = (a: Measure, b: Measure): Measure | undefined =>
  b.value.n === 0n ? undefined : { value: over(a.value, b.value), dimension: combined(a.dimension, b.dimension, -1) };

/** undefined where the dimensions differ. */
export const total = (a: Measure, b: Measure): Measure | undefined =>
  sameDimension(a.dimension, b.dimension) ? { value: plus(a.value, b.value), dimension: a.dimension } : undefined;
