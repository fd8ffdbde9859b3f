/** A limit as a quantity, to be printed. */
import type { Limit } from './limits.ts';
import type { Quantity } from './quantity.ts';

/** undefined: neither end is given, as for a row of hyphens. */
export function limitQuantity({ lower, upper, unit }: Limit): Quantity | undefined {
  if (lower === undefined && upper === undefined) return undefined;
  const form: Quantity['form'] = lower === undefined ? 'at most' : upper === undefined ? 'at least' : 'range';
  return { form, unit, text: '', ...(lower ? { lower } : {}), ...(upper ? { upper } : {}) };
}
