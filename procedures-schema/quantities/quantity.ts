/** A quantity as a writer gives it: values with the digits typed, and a unit. Plain data. */
import type { Rational } from './rational.ts';
import type { Unit } from './units.ts';

/** A number as typed. `step` is the worth of its last digit (0.01 for "1.25", 0.01 for "3/16"): what the writer's precision is. */
export interface Amount {
  readonly value: Rational;
  readonly step: Rational;
  readonly text: string;
  /** Could be read two ways ("1,200" under a decimal comma, "5,5" under a decimal point): asked about. */
  readonly doubtful?: string;
}

export interface Quantity {
  /**
   * single: nominal. range: lower and upper. tolerance: nominal with plus and minus. at least: lower. at most: upper.
   */
  readonly form: 'single' | 'range' | 'tolerance' | 'at least' | 'at most';
  readonly nominal?: Amount;
  readonly lower?: Amount;
  readonly upper?: Amount;
  readonly plus?: Amount;
  readonly minus?: Amount;
  readonly unit: Unit;
  /** As typed. */
  readonly text: string;
}

/** Where a quantity stands in a text. */
export interface FoundQuantity {
  readonly quantity: Quantity;
  readonly at: number;
  readonly end: number;
  /** The same value in another unit, in brackets after it. */
  readonly second?: { readonly quantity: Quantity; readonly at: number; readonly end: number };
}
