/** Compares a value with its second value in brackets: they must agree within the precision written. */

import type { DecimalMark } from './numbers.ts';
import { converted, printQuantity } from './print.ts';
import type { Amount, Quantity } from './quantity.ts';
import { absolute, add, compare, multiply, rational, subtract } from './rational.ts';
import { convert, sameKind } from './units.ts';

export type DualVerdict =
  | { readonly kind: 'agree' }
  /** Another quantity altogether: N·m beside lbf. */
  | { readonly kind: 'other quantity' }
  /** Wrong by more than the digits written. */
  | { readonly kind: 'differ'; readonly shouldRead: string }
  /** So few digits that the limits are another pair, or the range grows. */
  | { readonly kind: 'looser'; readonly shouldRead: string };

const HALF = rational(1, 2);

/** `mark`: of what it should read. */
export function compareDual(first: Quantity, second: Quantity, mark: DecimalMark = 'point'): DualVerdict {
  if (!sameKind(first.unit, second.unit)) return { kind: 'other quantity' };
  const shouldRead = printQuantity(converted(first, second.unit), mark);
  const pairs: [Amount | undefined, Amount | undefined, boolean][] = [
    [first.nominal, second.nominal, false],
    [first.lower, second.lower, false],
    [first.upper, second.upper, false],
    [first.plus, second.plus, true],
  ];
  for (const [own, other, interval] of pairs) {
    if ((own === undefined) !== (other === undefined)) return { kind: 'differ', shouldRead };
    if (!own || !other) continue;
    const exact = convert(own.value, first.unit, second.unit, interval);
    const ownHalf = multiply(convert(own.step, first.unit, second.unit, true), HALF);
    const within = add(multiply(other.step, HALF), absolute(ownHalf));
    if (compare(absolute(subtract(exact, other.value)), within) > 0) return { kind: 'differ', shouldRead };
  }
  return looser(first, second) ? { kind: 'looser', shouldRead } : { kind: 'agree' };
}

/** The second range is wider than the first by more than a tenth: nearest rounding with too few digits. */
function looser(first: Quantity, second: Quantity): boolean {
  if (!first.lower || !first.upper || !second.lower || !second.upper) return false;
  const own = subtract(convert(first.upper.value, first.unit, second.unit), convert(first.lower.value, first.unit, second.unit));
  const other = subtract(second.upper.value, second.lower.value);
  return own.n > 0n && compare(other, multiply(own, rational(11, 10))) > 0;
}
