/** Factors, rounding rules and worked examples of NIST SP 811 (2008), Appendix B; each entry of the data names its own source. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import {
  type Amount,
  convert,
  converted,
  fromDecimal,
  type Quantity,
  type Rational,
  rational,
  toDecimal,
  toNumber,
  type Unit,
  unitOf,
} from '../../procedures-schema/quantities/index.ts';

interface Factor {
  readonly quantity: string;
  readonly from: string;
  readonly to: string;
  readonly rational: string | null;
  readonly sp811Printed?: number;
  readonly source: string;
}
interface Worked {
  readonly value: string;
  readonly from: string;
  readonly to: string;
  readonly expected: string;
  readonly source: string;
}
interface RoundingRule {
  readonly value: string;
  readonly digits: number;
  readonly expected: string;
  readonly source: string;
}
const data = JSON.parse(readFileSync(new URL('./data/units.json', import.meta.url), 'utf8')) as {
  factors: Factor[];
  workedExamples: Worked[];
  roundingRules: RoundingRule[];
};

/** The data's names for units that we print otherwise. */
const NAMES: Readonly<Record<string, string>> = {
  um: 'µm',
  'lbf.ft': 'lbf·ft',
  'lbf.in': 'lbf·in',
  'N.m': 'N·m',
  'mN.m': 'mN·m',
  'kgf.m': 'kgf·m',
  'kgf.cm': 'kgf·cm',
  gal_us: 'gal',
  qt_us: 'qt',
  pt_us: 'pt',
  floz_us: 'fl oz',
  in3: 'in³',
  ft3: 'ft³',
  m3: 'm³',
  'gal_us/min': 'gal/min',
  degF: '°F',
  degC: '°C',
  deg: '°',
};
const unit = (name: string): Unit | undefined => unitOf(NAMES[name] ?? name);

const known = data.factors.filter(
  ({ from, to, rational: exact }) => exact !== null && unit(from) && unit(to) && unit(from)?.kind === unit(to)?.kind,
);

test.each(known)('$from in $to ($source)', ({ from, to, rational: exact }) => {
  const [n = '0', d = '1'] = (exact as string).split('/');
  expect(convert(rational(1), unit(from) as Unit, unit(to) as Unit)).toEqual(rational(BigInt(n), BigInt(d)));
});

// The rest are units no service page uses (survey feet, imperial gallons, refrigeration tons, ...).
test('the units of service work are all among them', () => {
  console.log(`SP 811 factors checked exactly: ${known.length} of ${data.factors.length}`);
  expect(known.length).toBeGreaterThanOrEqual(42);
});

test.each(data.roundingRules)('$value to $digits digits is $expected ($source)', ({ value, digits, expected }) => {
  const decimals = digits - 1; // all values have one digit before the point
  expect(toDecimal(fromDecimal(value) as Rational, decimals)).toBe(expected);
});

const amount = (text: string): Amount => {
  const decimals = text.split('.')[1]?.length ?? 0;
  return { value: fromDecimal(text.replace(/^-/, '')) as Rational, step: rational(1n, 10n ** BigInt(decimals)), text };
};

// The data itself calls these defensible either way, or gives the precision in words beside the number.
const OTHER_PRECISION = new Set(['25 lbf.ft', '180 lbf.in', '36 (known to the nearest inch) ft', '90 psi', '160 degF', '0.250 in']);
const worked = data.workedExamples.filter(
  ({ value, from, to }) => /^\d+(?:\.\d+)?$/.test(value) && unit(from) && unit(to) && !OTHER_PRECISION.has(`${value} ${from}`),
);

test.each(worked)('$value $from is $expected $to ($source)', ({ value, from, to, expected }) => {
  const quantity: Quantity = { form: 'single', nominal: amount(value), unit: unit(from) as Unit, text: value };
  expect(converted(quantity, unit(to) as Unit).nominal?.text).toBe(expected);
});

test('temperatures carry their offset, intervals do not', () => {
  const [f, c] = [unitOf('°F') as Unit, unitOf('°C') as Unit];
  expect(toNumber(convert(rational(212), f, c))).toBe(100);
  expect(toNumber(convert(rational(-40), f, c))).toBe(-40);
  expect(toNumber(convert(rational(9), f, c, true))).toBe(5);
});
