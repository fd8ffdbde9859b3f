/** The two ends of a nominal value with its tolerance, as limits with texts of their own. */
import type { Amount } from './quantity.ts';
import { add, compare, type Rational, subtract, toText } from './rational.ts';

/** `half` is in the unit of the middle; `step` the finer of the two typed. */
export function around(middle: Amount, half: Rational, step: Rational): { readonly lower: Amount; readonly upper: Amount } {
  const finer = compare(step, middle.step) < 0 ? step : middle.step;
  const end = (value: Rational): Amount => ({ value, step: finer, text: toText(value) });
  return { lower: end(subtract(middle.value, half)), upper: end(add(middle.value, half)) };
}
