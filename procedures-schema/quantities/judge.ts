/** What a value that somebody filled in means against the limits of a model. Decides nothing about what to do. */
import type { Limit } from './limits.ts';
import type { DecimalMark } from './numbers.ts';
import { parseQuantity } from './parse.ts';
import { compare } from './rational.ts';
import { convert, sameKind } from './units.ts';

export type Judged = 'under' | 'within' | 'over' | 'unreadable' | 'other quantity';

/** `filled` may leave the unit out: then it is that of the limit, as the box on the page says. */
export function judge(filled: string, limit: Limit, mark: DecimalMark = 'point'): Judged {
  const quantity = parseQuantity(filled, mark);
  const value = quantity?.nominal;
  if (!quantity || !value || value.doubtful !== undefined) return 'unreadable';
  const bare = quantity.unit.symbol === '';
  if (!bare && !sameKind(quantity.unit, limit.unit)) return 'other quantity';
  const own = bare ? value.value : convert(value.value, quantity.unit, limit.unit);
  if (limit.lower && compare(own, limit.lower.value) < 0) return 'under';
  if (limit.upper && compare(own, limit.upper.value) > 0) return 'over';
  return 'within';
}
