/** Prints quantities and converts them for print, so that a converted limit is never looser than the one it came from. */
import type { DecimalMark } from './numbers.ts';
import type { Amount, Quantity } from './quantity.ts';
import { compare, divide, fromDecimal, multiply, ONE, type Rational, type Rounding, rational, toDecimal } from './rational.ts';
import { convert, type Unit, unitOf } from './units.ts';

const NBSP = '\u00a0';

/** Decimals at which a converted value carries about the precision of the original: the last digit is worth at most twice its step. SP 811 B.7.2. */
export function decimalsFor(step: Rational): number {
  const twice = multiply(step, rational(2));
  let decimals = 0;
  let worth = ONE;
  while (compare(worth, twice) > 0 && decimals < 18) {
    decimals += 1;
    worth = divide(worth, rational(10));
  }
  return decimals;
}

/** Which unit of the other system is printed beside one: mm beside in, lbf·ft beside N·m. */
const OTHER: Readonly<Record<string, string>> = {
  mm: 'in',
  cm: 'in',
  m: 'ft',
  µm: 'in',
  in: 'mm',
  ft: 'm',
  mil: 'mm',
  g: 'oz',
  kg: 'lb',
  lb: 'kg',
  oz: 'g',
  t: 'lb',
  N: 'lbf',
  kN: 'lbf',
  lbf: 'N',
  ozf: 'N',
  kgf: 'lbf',
  N·m: 'lbf·ft',
  mN·m: 'lbf·in',
  kN·m: 'lbf·ft',
  lbf·ft: 'N·m',
  lbf·in: 'N·m',
  bar: 'psi',
  mbar: 'psi',
  kPa: 'psi',
  MPa: 'psi',
  psi: 'bar',
  '°C': '°F',
  '°F': '°C',
  L: 'gal',
  mL: 'fl oz',
  gal: 'L',
  'fl oz': 'mL',
  'L/min': 'gal/min',
  'gal/min': 'L/min',
  'm/s': 'ft/min',
  'ft/min': 'm/s',
  'mm/s': 'in/s',
  'in/s': 'mm/s',
  kW: 'hp',
  hp: 'kW',
  'N/mm': 'lbf/in',
  'lbf/in': 'N/mm',
};

export function otherUnit(unit: Unit): Unit | undefined {
  const symbol = OTHER[unit.symbol];
  return symbol === undefined ? undefined : unitOf(symbol);
}

/** The same quantity in another unit. Limits are rounded inward, nominal values to the nearest; if the range would close, one more digit. */
export function converted(quantity: Quantity, to: Unit): Quantity {
  for (let extra = 0; ; extra += 1) {
    const out = convertedAt(quantity, to, extra);
    const closed = out.lower && out.upper && compare(out.lower.value, out.upper.value) > 0;
    const exact = quantity.lower && quantity.upper && compare(quantity.lower.value, quantity.upper.value) > 0;
    if (!closed || exact || extra >= 6) return { ...out, text: printQuantity(out) };
  }
}

function convertedAt(quantity: Quantity, to: Unit, extra: number): Quantity {
  // Both ends of a range as carefully as the better known one: "0.02 to 0.039 in" looks like two measures.
  const { lower, upper } = quantity;
  const shared =
    lower && upper
      ? Math.max(...[lower, upper].map(({ step, value }) => (value.n === 0n ? 0 : decimalsFor(convert(step, quantity.unit, to, true)))))
      : 0;
  const amount = (from: Amount, rounding: Rounding, interval = false): Amount => {
    const step = convert(from.step, quantity.unit, to, true);
    const decimals = Math.min(24, Math.max(decimalsFor(step), shared) + extra);
    const value = convert(from.value, quantity.unit, to, interval);
    // Nought needs no decimals.
    const text = value.n === 0n ? '0' : toDecimal(value, decimals, rounding);
    return { value: fromDecimal(text) as Rational, step: rational(1n, 10n ** BigInt(decimals)), text };
  };
  return {
    form: quantity.form,
    unit: to,
    text: '',
    ...(quantity.nominal ? { nominal: amount(quantity.nominal, 'even') } : {}),
    ...(quantity.lower ? { lower: amount(quantity.lower, 'up') } : {}),
    ...(quantity.upper ? { upper: amount(quantity.upper, 'down') } : {}),
    ...(quantity.plus ? { plus: amount(quantity.plus, 'down', true) } : {}),
    ...(quantity.minus ? { minus: amount(quantity.minus, 'down', true) } : {}),
  };
}

/** "0.5 to 1.5 mm", "at least 3 bar", "5 ± 0.2 mm", with no-break spaces between number and unit. */
export function printQuantity(quantity: Quantity, mark: DecimalMark = 'point'): string {
  const { unit } = quantity;
  const number = (amount: Amount | undefined): string => printNumber(amount, mark);
  const tight = unit.symbol === '' || unit.symbol === '°';
  const tail = tight ? unit.symbol : `${NBSP}${unit.symbol}`;
  switch (quantity.form) {
    case 'single':
      return `${number(quantity.nominal)}${tail}`;
    case 'range':
      return `${number(quantity.lower)} to ${number(quantity.upper)}${tail}`;
    case 'tolerance':
      return `${number(quantity.nominal)}${NBSP}±${NBSP}${number(quantity.plus)}${tail}`;
    case 'at least':
      return `at least ${number(quantity.lower)}${tail}`;
    case 'at most':
      return `at most ${number(quantity.upper)}${tail}`;
  }
}

export interface HouseUnits {
  readonly first: 'metric' | 'inch';
  readonly second: 'metric' | 'inch' | 'none';
  /** One system alone: what was written in the other is converted, where a unit of this one stands beside it. */
  readonly always?: true;
}

/** First and second unit in the house order: "25 N·m (18 lbf·ft)". */
export const printDual = (quantity: Quantity, house: HouseUnits, mark: DecimalMark = 'point'): string =>
  inOrder(quantity, (other) => converted(quantity, other), house, mark);

/** One end of a limit alone, as in a table: the second value is no looser than the first. */
export function printEnd(amount: Amount, end: 'lower' | 'upper', unit: Unit, house: HouseUnits, mark: DecimalMark = 'point'): string {
  const single = (nominal: Amount, of: Unit): Quantity => ({ form: 'single', nominal, unit: of, text: '' });
  const limit: Quantity = { form: end === 'lower' ? 'at least' : 'at most', [end]: amount, unit, text: '' };
  return inOrder(single(amount, unit), (other) => single(converted(limit, other)[end] ?? amount, other), house, mark);
}

function inOrder(quantity: Quantity, twin: (other: Unit) => Quantity, house: HouseUnits, mark: DecimalMark): string {
  const other = otherUnit(quantity.unit);
  const own = printQuantity(quantity, mark);
  const fits = quantity.unit.system === house.first || quantity.unit.system === 'both';
  if (other === undefined || (house.second === 'none' && (fits || !house.always))) return own;
  const second = printQuantity(twin(other), mark);
  if (house.second === 'none') return second;
  return fits ? `${own} (${second})` : `${second} (${own})`;
}

function printNumber(amount: Amount | undefined, mark: DecimalMark): string {
  if (!amount) return '';
  const text = amount.text.replace(/^[-–]/, '−');
  return mark === 'comma' && /^−?\d+\.\d+$/.test(text) ? text.replace('.', ',') : text;
}
