/**
 * An edition in other units than the house prints: the other system first, or one alone. What the writer gave in both systems is put in
 * the order asked for and never computed again; limits are converted by the rules for limits, never looser. What stands in one system
 * only, and the scale of a tool, stays as it is: a value is never lost.
 */
import {
  type DecimalMark,
  findQuantities,
  type HouseUnits,
  otherUnit,
  type Prose,
  parseQuantity,
  type Unit,
} from '../../procedures-schema/index.ts';
import { decimalIn } from './language.ts';
import type { ComposeInput } from './scope.ts';
import { ROUND, type Setting, settingAt } from './second-value.ts';

export const UNITS_EDITIONS = ['metric-first', 'inch-first', 'metric-only', 'inch-only'] as const;
export type UnitsEdition = (typeof UNITS_EDITIONS)[number];

const HOUSES: Readonly<Record<UnitsEdition, HouseUnits>> = {
  'metric-first': { first: 'metric', second: 'inch' },
  'inch-first': { first: 'inch', second: 'metric' },
  'metric-only': { first: 'metric', second: 'none', always: true },
  'inch-only': { first: 'inch', second: 'none', always: true },
};

/** The units that a book is printed in: those of the edition, else those of the house. */
export function unitsOf({ units, library }: Pick<ComposeInput, 'units' | 'library'>): HouseUnits {
  return units === undefined ? library.registers.house.units : HOUSES[units];
}

/** What stands beside a box to write in. */
export function boxUnit(unit: Unit, input: Pick<ComposeInput, 'units' | 'library'>): string {
  if (input.units === undefined || unit.system === 'both' || unit.system === HOUSES[input.units].first) return unit.symbol;
  return otherUnit(unit)?.symbol ?? unit.symbol;
}

/** Where the value begins that a second one in brackets at `mark` belongs to; undefined: there is none right before it. */
export function valueBefore(prose: Prose, from: number, mark: number, decimal: DecimalMark): number | undefined {
  const end = from + prose.text.slice(from, mark).trimEnd().length;
  return findQuantities(prose.text.slice(from, end), decimal)
    .map(({ at, end: last }) => ({ at: from + at, end: from + last }))
    .find((one) => one.end === end)?.at;
}

/** Words of the front matter: "1 m [3.3 ft]" as running text prints it. */
export function valuesIn(text: string, input: Pick<ComposeInput, 'units' | 'written' | 'library'>): string {
  const mark = decimalIn(input);
  let out = '';
  let from = 0;
  for (const { at, end } of findQuantities(text, mark)) {
    const [whole = '', second = ''] = /^\s?\[([^[\]]+)\]/.exec(text.slice(end)) ?? [];
    if (second === '' || parseQuantity(second, mark) === undefined) continue;
    const first = text.slice(at, end);
    const setting = settingAt(text, end);
    const { before, after } = setting;
    out += `${text.slice(from, at)}${input.units === undefined ? `${first}${before}${second}${after}` : inUnits(first, second, input.units, setting)}`;
    from = end + whole.length;
  }
  return out + text.slice(from);
}

/** A value and its second one as this edition prints them. */
export function inUnits(first: string, second: string, edition: UnitsEdition, { before, after }: Setting = ROUND): string {
  const { first: wanted, second: other } = HOUSES[edition];
  const is = (text: string): boolean => parseQuantity(text)?.unit.system === wanted;
  // Where neither tells its system the writer's order stands, and both.
  if (!is(first) && !is(second)) return `${first}${before}${second}${after}`;
  const [lead, rest] = is(first) ? [first, second] : [second, first];
  return other === 'none' ? lead : `${lead}${before}${rest}${after}`;
}
