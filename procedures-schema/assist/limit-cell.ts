/** One end of a limit as it is typed into a cell of a table: with its second value in brackets, as the house prints both. */
import type { LibraryFacts } from '../checks/index.ts';
import { converted, decimalMarkOf, otherUnit, parseQuantity, type Quantity } from '../quantities/index.ts';

export type LimitEnd = 'lower' | 'upper';

/** The second value is rounded to the safe side. What is no single value, or has a second one already, stays as it was typed. */
export function limitCell(typed: string, end: LimitEnd, library: LibraryFacts): string {
  const { units, language } = library.registers.house;
  const mark = decimalMarkOf(language);
  const quantity = parseQuantity(typed, mark);
  const other = quantity && otherUnit(quantity.unit);
  if (units.second === 'none' || !quantity?.nominal || !other || quantity.form !== 'single' || /[[(]/.test(typed)) return typed;
  const limit: Quantity =
    end === 'lower'
      ? { ...quantity, form: 'at least', lower: quantity.nominal }
      : { ...quantity, form: 'at most', upper: quantity.nominal };
  const twin = converted(limit, other);
  const amount = end === 'lower' ? twin.lower : twin.upper;
  return amount ? `${typed} [${mark === 'comma' ? amount.text.replace('.', ',') : amount.text} ${other.symbol}]` : typed;
}

/** As a writer would type it: without a second value that would come out the same. */
export function bareCell(written: string, end: LimitEnd, library: LibraryFacts): string {
  const bare = written.replace(/\s*\[[^\]]*\]\s*$/, '');
  return bare !== written && limitCell(bare, end, library) === written ? bare : written;
}
