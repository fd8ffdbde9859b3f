/** Factors, rounding rules and worked examples of NIST SP 811 (2008), Appendix B; each entry of the data names its own source. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import {
  type Amount,
  convert,
  converted,
  dimensionOf,
  divide,
  fromDecimal,
  inUnit,
  measureOf,
  multiply,
  type Quantity,
  type Rational,
  rational,
  sameDimension,
  toDecimal,
  toNumber,
  type Unit,
  unitOf,
} from '../../procedures-schema/quantities/index.ts';
import { PI } from '../../procedures-schema/quantities/irrational.ts';

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
  ft_us_survey: 'ft (US survey)',
  ton_short: 'short ton',
  ton_long: 'long ton',
  ton_force_short: 'short ton-force',
  'ozf.in': 'ozf·in',
  'kgf/cm2': 'kgf/cm²',
  'lbf/ft2': 'lbf/ft²',
  gal_uk: 'UK gal',
  floz_uk: 'UK fl oz',
  'ft3/min': 'ft³/min',
  'm3/h': 'm³/h',
  'ft.lbf': 'ft·lbf (energy)',
  Btu_IT: 'Btu',
  'W.h': 'W·h',
  hp_electric: 'hp (electric)',
  hp_metric: 'hp (metric)',
  'Btu_IT/h': 'Btu/h',
  ton_refrigeration: 'ton of refrigeration',
};
const unit = (name: string): Unit | undefined => unitOf(NAMES[name] ?? name);

const known = data.factors.filter(
  ({ from, to, rational: exact }) =>
    exact !== null && unit(from) && unit(to) && sameDimension(dimensionOf(unit(from) as Unit), dimensionOf(unit(to) as Unit)),
);

test.each(known)('$from in $to ($source)', ({ from, to, rational: exact }) => {
  const [n = '0', d = '1'] = (exact as string).split('/');
  const own = inUnit(measureOf(rational(1), unit(from) as Unit, true), unit(to) as Unit, true);
  expect(own).toEqual(rational(BigInt(n), BigInt(d)));
});

// The three that are left hold pi, which no fraction is: they are compared in the digits SP 811 prints.
const withPi: Readonly<Record<string, Rational>> = {
  'r/min rad/s': divide(PI, rational(30)),
  'deg rad': divide(PI, rational(180)),
  'r rad': multiply(PI, rational(2)),
};
test('every factor is among them', () => {
  const rest = data.factors.filter((factor) => !known.includes(factor));
  console.log(`SP 811 factors: ${known.length} exact, ${rest.length} with pi, of ${data.factors.length}`);
  for (const { from, to, sp811Printed } of rest)
    expect(Math.abs(toNumber(withPi[`${from} ${to}`] as Rational) - (sp811Printed as number))).toBeLessThan(
      (sp811Printed as number) * 5e-7,
    );
  expect(known.length + rest.length).toBe(71);
  expect(rest.length).toBe(3);
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
