/**
 * Every factor of the unit table, derived anew from the definitions of its units, by arithmetic that shares nothing with the table.
 * Each definition has its source beside it; no converted figure is used, so the derivation stands apart from any table of factors.
 */
import { expect, test } from 'vitest';
import { UNIT_TABLE } from '../../procedures-schema/quantities/unit-table.ts';

/** A fraction of whole numbers. */
type F = readonly [n: bigint, d: bigint];
const reduced = ([n, d]: F): F => {
  let [a, b] = [n < 0n ? -n : n, d];
  while (b !== 0n) [a, b] = [b, a % b];
  return [n / a, d / a];
};
/** "25.4", "7000", "5/9". */
const f = (text: string): F => {
  const [over = '', under = '1'] = text.split('/');
  const decimals = over.split('.')[1]?.length ?? 0;
  return reduced([BigInt(over.replace('.', '')), BigInt(under) * 10n ** BigInt(decimals)]);
};
const times = (...all: readonly F[]): F => reduced(all.reduce<F>(([n, d], [m, e]) => [n * m, d * e], [1n, 1n]));
const per = (a: F, b: F): F => reduced([a[0] * b[1], a[1] * b[0]]);
const squared = (a: F): F => times(a, a);
const cubed = (a: F): F => times(a, a, a);
const n = (whole: number): F => [BigInt(whole), 1n];

// Definitions. SI units within: m, kg, s, A.
/** 16 CFR 500.19: "1 inch = 2.54 cm", marked exact. */
const inch = f('0.0254');
const foot = times(n(12), inch);
/** UCUM (ucum-essence.xml): the foot of the US survey is 1200/3937 m. */
const surveyFoot = f('1200/3937');
/** UCUM: the pound is 7000 grains of 64.79891 mg. */
const pound = times(n(7000), f('0.00006479891'));
/** Third General Conference on Weights and Measures, 1901; UCUM. */
const gravity = f('9.80665');
const poundForce = times(pound, gravity);
/** UCUM: 231 cubic inches; a quart is a quarter, a pint half a quart, a gill a quarter pint, a fluid ounce a quarter gill. */
const gallon = times(n(231), cubed(inch));
/** UCUM: 4.54609 L; the pint an eighth, the gill a quarter pint, the fluid ounce a fifth of it. */
const britishGallon = f('0.00454609');
/** UCUM and SP 811: 101 325 Pa; the torr is its 760th part. */
const atmosphere = n(101_325);
/** Conventional mercury 13 595.1 kg/m³ and water 1000 kg/m³ under standard gravity: SP 811 notes; the same in a public algebra system's units. */
const mercury = times(f('13595.1'), gravity);
const water = times(n(1000), gravity);
/** UCUM: 1.055 055 852 62 kJ, which is 2326 J/kg for each pound and degree Fahrenheit of a degree Celsius: 2326 J/kg is exact. */
const btu = times(n(2326), pound);
/** 550 foot pounds-force a second (UCUM); 75 kilogram-force metres a second; 746 W by definition. */
const horsepower = times(n(550), foot, poundForce);
const metricHorsepower = times(n(75), gravity);
/** 1852 m: First International Extraordinary Hydrographic Conference, 1929; UCUM. */
const nauticalMile = n(1852);
const litre = f('0.001');
const [minute, hour] = [n(60), n(3600)];

/** One of each unit in SI, and the table's base unit of its kind in SI. */
const BASE: Readonly<Record<string, F>> = {
  length: f('0.001'),
  area: f('0.000001'),
  volume: f('0.000001'),
  mass: f('0.001'),
  flow: per(litre, minute),
  'rotational speed': f('1/60'),
  'spring rate': n(1000),
};
// biome-ignore format: data
const SI: Readonly<Record<string, F>> = {
  in: inch, ft: foot, yd: times(n(3), foot), mil: per(inch, n(1000)), mi: times(n(5280), foot), 'ft (US survey)': surveyFoot,
  'in²': squared(inch), 'in³': cubed(inch), 'ft³': cubed(foot), gal: gallon, qt: per(gallon, n(4)), pt: per(gallon, n(8)),
  'fl oz': per(gallon, n(128)), 'UK gal': britishGallon, 'UK fl oz': per(britishGallon, n(160)), lb: pound, oz: per(pound, n(16)),
  'short ton': times(n(2000), pound), 'long ton': times(n(2240), pound), lbf: poundForce, ozf: per(poundForce, n(16)), kgf: gravity,
  kip: times(n(1000), poundForce), 'short ton-force': times(n(2000), poundForce), lbf·ft: times(poundForce, foot),
  lbf·in: times(poundForce, inch), lb·ft: times(poundForce, foot), lb·in: times(poundForce, inch),
  ozf·in: times(per(poundForce, n(16)), inch), kgf·m: gravity, kgf·cm: per(gravity, n(100)), psi: per(poundForce, squared(inch)),
  ksi: per(times(n(1000), poundForce), squared(inch)), 'lbf/ft²': per(poundForce, squared(foot)), inHg: times(inch, mercury),
  mmHg: times(f('0.001'), mercury), inH2O: times(inch, water), mmH2O: times(f('0.001'), water), atm: atmosphere,
  Torr: per(atmosphere, n(760)), 'kgf/cm²': times(n(10_000), gravity), at: times(n(10_000), gravity), 'gal/min': per(gallon, minute),
  'ft³/min': per(cubed(foot), minute), 'ft/min': per(foot, minute), 'ft/s': foot, 'in/s': inch, 'mi/h': per(times(n(5280), foot), hour),
  kn: per(nauticalMile, hour), 'lbf/in': per(poundForce, inch), 'ft·lbf (energy)': times(foot, poundForce), Btu: btu,
  'Btu/h': per(btu, hour), hp: horsepower, 'hp (electric)': n(746), 'hp (metric)': metricHorsepower,
  // 12 000 Btu an hour: a conversion table of the FAO (T0713E).
  'ton of refrigeration': per(times(n(12_000), btu), hour),
  // Metric and everyday units: powers of ten, sixty, and degrees.
  mm: f('0.001'), cm: f('0.01'), m: n(1), km: n(1000), µm: f('0.000001'), 'mm²': f('0.000001'), 'cm²': f('0.0001'), 'm²': n(1), L: litre,
  mL: f('0.000001'), 'm³': n(1), g: f('0.001'), kg: n(1), mg: f('0.000001'), t: n(1000), N: n(1), kN: n(1000), N·m: n(1),
  mN·m: f('0.001'), kN·m: n(1000), bar: n(100_000), mbar: n(100), Pa: n(1), kPa: n(1000), MPa: n(1_000_000), '°C': n(1), '°F': f('5/9'),
  K: n(1), s: n(1), ms: f('0.001'), min: minute, h: hour, d: n(86_400), '°': n(1), arcmin: f('1/60'), turn: n(1), V: n(1), mV: f('0.001'),
  kV: n(1000), A: n(1), mA: f('0.001'), Ω: n(1), kΩ: n(1000), MΩ: n(1_000_000), mF: f('0.001'), µF: f('0.000001'), Hz: n(1), kHz: n(1000),
  W: n(1), kW: n(1000), J: n(1), kJ: n(1000), W·h: hour, 'L/min': per(litre, minute), 'L/s': litre, 'm³/h': per(n(1), hour), 'm/s': n(1),
  'mm/s': f('0.001'), 'm/min': per(n(1), minute), 'km/h': per(n(1000), hour), 'r/min': f('1/60'), dB: n(1), '%': f('0.01'),
  'N/mm': n(1000),
};

test.each(UNIT_TABLE)('$symbol follows from its definition', ({ symbol, kind, factor }) => {
  const own = SI[symbol];
  expect(own, `a definition of ${symbol}`).toBeDefined();
  expect(f(factor)).toEqual(per(own as F, BASE[kind] ?? n(1)));
});

test('zero of the temperature scales: 0 °C is 273.15 K, 32 °F is 0 °C', () => {
  const offset = (symbol: string): F => f(UNIT_TABLE.find((unit) => unit.symbol === symbol)?.offset ?? '0');
  expect(offset('°C')).toEqual(f('273.15'));
  const [a, b] = [f('273.15'), times(n(32), f('5/9'))];
  expect(offset('°F')).toEqual(reduced([a[0] * b[1] - b[0] * a[1], a[1] * b[1]]));
});

/** The same factors as other tables print them: the value in the second unit, in the digits printed. */
const PRINTED: readonly (readonly [from: string, to: string, printed: string, source: string])[] = [
  ['in³', 'mL', '16.3871', '16 CFR 500.19'],
  ['ft³', 'm³', '0.0283168', '16 CFR 500.19'],
  ['fl oz', 'mL', '29.5735', '16 CFR 500.19'],
  // The same table prints the pint as 473.177 mL, one too many in the last digit: 231/8 in³ are 473.176 473 mL.
  ['qt', 'mL', '946.353', '16 CFR 500.19'],
  ['gal', 'L', '3.78541', '16 CFR 500.19'],
  ['oz', 'g', '28.3495', '16 CFR 500.19'],
  ['lb', 'g', '453.592', '16 CFR 500.19'],
  ['lbf', 'N', '4.4482216152605', 'open-source tables of units, several'],
  ['psi', 'kPa', '6.894757', 'purescript-quantities'],
  ['mmHg', 'Pa', '133.322387415', 'purescript-quantities'],
  ['Btu', 'J', '1055.05585262', 'UCUM'],
  ['hp', 'W', '745.69987158227022', 'open-source tables of units, several'],
  ['hp (metric)', 'W', '735.49875', 'open-source tables of units, several'],
];
test.each(PRINTED)('1 %s is %s: %s %s (%s)', (from, to, printed) => {
  const factor = (symbol: string): F => f(UNIT_TABLE.find((unit) => unit.symbol === symbol)?.factor ?? '0');
  const made = per(factor(from), factor(to));
  const [told, half] = [f(printed), f(`0.${'0'.repeat(printed.split('.')[1]?.length ?? 0)}5`)];
  const gap = made[0] * told[1] - told[0] * made[1];
  expect((gap < 0n ? -gap : gap) * half[1] <= half[0] * made[1] * told[1]).toBe(true);
});
