/** Whether an instrument reaches a value and resolves a tolerance, from its stated range and resolution. */
import type { DecimalMark } from './numbers.ts';
import { parseQuantity } from './parse.ts';
import { compare, divide, type Rational, rational, subtract } from './rational.ts';
import { convert, sameKind, type Unit } from './units.ts';

export interface UsableRange {
  readonly lower: Rational;
  readonly upper: Rational;
  readonly unit: Unit;
}

/** "5 to 50 N·m", or "200 N·m" alone: then from a fifth of the scale, the default where no range is stated (ISO 6789 test points, common practice). */
export function usableRange(range: string, mark: DecimalMark = 'point'): UsableRange | undefined {
  const quantity = parseQuantity(range, mark);
  if (!quantity) return undefined;
  const { unit } = quantity;
  if (quantity.lower && quantity.upper) return { lower: quantity.lower.value, upper: quantity.upper.value, unit };
  const top = quantity.upper?.value ?? quantity.nominal?.value;
  if (!top) return undefined;
  return { lower: unit.kind === 'torque' ? divide(top, rational(5)) : rational(0), upper: top, unit };
}

/** Whether a value in `unit` lies in the range. Undefined where they measure different quantities. */
export function reaches(range: UsableRange, value: Rational, unit: Unit): boolean | undefined {
  if (!sameKind(range.unit, unit)) return undefined;
  const own = convert(value, unit, range.unit);
  return compare(own, range.lower) >= 0 && compare(own, range.upper) <= 0;
}

/** How many times the resolution goes into the width of the limits. 4 is the least (test uncertainty ratio), 10 the shop rule. */
export function fineness(
  resolution: string,
  lower: Rational,
  upper: Rational,
  unit: Unit,
  mark: DecimalMark = 'point',
): Rational | undefined {
  const quantity = parseQuantity(resolution, mark);
  const step = quantity?.nominal?.value;
  if (!quantity || !step || step.n <= 0n || !sameKind(quantity.unit, unit)) return undefined;
  const own = step;
  return divide(subtract(convert(upper, unit, quantity.unit, true), convert(lower, unit, quantity.unit, true)), own);
}
