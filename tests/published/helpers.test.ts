/** The helpers against worked examples: of public handbook and maker pages where one was found, computed from the published formula where not; each says which. */
import { expect, test } from 'vitest';
import { evaluate, type FormulaResult, inUnit, toNumber, type Unit, unitOf } from '../../procedures-schema/quantities/index.ts';
import { PI } from '../../procedures-schema/quantities/irrational.ts';
import { NO_UNIT } from '../../procedures-schema/quantities/units.ts';

const value = (formula: string, unit: string): number => {
  const made = evaluate(formula, {}) as { result: FormulaResult };
  return toNumber(inUnit(made.result.measure, unit === '' ? NO_UNIT : (unitOf(unit) as Unit)) as never);
};

/**
 * Values as their source prints them; a helper must come within half of the last digit printed. Those marked "computed" have no printed
 * example behind them, only the printed formula.
 */
// biome-ignore format: data
const EXAMPLES: readonly (readonly [formula: string, unit: string, printed: string, source: string])[] = [
  // V-belt force-deflection.
  [
    'belt deflection(100 in)',
    'in',
    '1.5625',
    "1 9/16 in for a span of 100 in: a belt maker's installation guide; US Army TM 5-4310-339-15, 5-5.1",
  ],
  ['belt deflection(32 in)', 'in', '0.5', 'a 32 in span wants 32/64 or 1/2 in: V-belt tensioning notes on a public slide page'],
  ['belt deflection(36 in)', 'in', '0.5625', "9/16 in for a span of 36 in: a belt maker's guide"],
  ['belt span(24 in; 12 in; 4 in)', 'in', '23.664', 'computed from the printed formula'],
  ['belt deflection(belt span(24 in; 12 in; 4 in))', 'mm', '9.39', 'computed from the printed formula'],
  // Roller chain. A journal paper on chain drives quotes a textbook's worked drive: 20 and 63 teeth.
  [
    'chain center(114; 63; 20)',
    '',
    '35.6',
    '35.6 pitches for 114 pitches on 20 and 63 teeth, the textbook formula as quoted in a paper on optimal chain drives',
  ],
  // The paper's excerpt does not show the centre distance of the length it quotes; 36 pitches is the one that gives it.
  ['chain pitches(63; 20; 36)', '', '114.8', '114.8 pitches for the same drive (its 36 pitches between centres inferred)'],
  ['chain pitches(51; 17; 40)', '', '114.732', 'computed from the formula three public pages print: No. 60, 30 in centres'],
  ['chain center(116; 51; 17)', '', '40.6397', 'computed: the same drive, fitted with 116 pitches'],
  ['chain slack(46.5 in; 4 %)', 'in', '1.86', "a chain span of 46.5 in: slack 1.86 in: a chain maker's installation page"],
  ['chain slack(24 in; 2 %)', 'in', '0.48', '2 % of 24 in is 0.48 in: a public chain sag page'],
  // Bolts. Proof stress of class 8.8 up to M16: 580 MPa, EN ISO 898-1.
  // The table rounds its loads unevenly: M6, M10 and M16 stand there as 11 600, 33 700 and 91 000 N against 11 658, 33 640 and 91 060.
  ['580 MPa * 36.6 mm²', 'kN', '21.2', 'proof load of M8 class 8.8: ISO 898-1 table on a fastener page'],
  ['580 MPa * 84.3 mm²', 'kN', '48.9', 'proof load of M12 class 8.8: the same table'],
  ['580 MPa * 115 mm²', 'kN', '66.7', 'proof load of M14 class 8.8: the same table'],
  ['580 MPa * stress area(12 mm; 1.75 mm)', 'kN', '48.9', 'the same from the thread'],
  ['600 MPa * stress area(20 mm; 2.5 mm)', 'kN', '147', 'proof load of M20 class 8.8, above M16: 147 kN, reference "mechanical" 3'],
  ['70 % * 580 MPa * 84.3 mm²', 'kN', '34', 'M12 class 8.8 at 70 percent of proof, about 34 kN: a bolt torque page'],
  ['bolt torque(0.20; 12 mm; 70 % * 580 MPa * 84.3 mm²)', 'N·m', '82', 'the same bolt as received, about 82 N·m'],
  ['bolt torque(0.20; 10 mm; 25 kN)', 'N·m', '50', 'M10 at 25 kN with K 0.20 takes 50 N·m: another bolt torque page'],
  [
    'bolt torque(0.20; 16 mm; preload(580 MPa; 156.67 mm2))',
    'N·m',
    '218.08',
    'M16 class 8.8 at 218.08 N·m, a worked example with A = 156.67 mm²',
  ],
  ['preload(580 MPa; 84.3 mm²)', 'kN', '36.67', 'computed: 75 percent of 48.89 kN'],
  ['bolt torque(0.15; 10 mm; preload(580 MPa; stress area(10 mm; 1.5 mm)))', 'N·m', '37.8', 'computed: M10 class 8.8, lubricated'],
  // Forces.
  ['spring force(49.05 N/mm; 100 mm)', 'N', '4905', 'a car suspension of 49 050 N/m pressed by 0.1 m carries 4905 N: an engineering toolbox page'],
  ['pressure force(3000 psi; 5 in²)', 'lbf', '15000', '3000 psi on 5 square inches is 15 000 pounds: a hydraulics page'],
  ['pressure force(6 bar; piston area(50 mm))', 'N', '1178', 'a bore of 50 mm at 6 bar pushes with 1178 N: a page on air cylinders'],
  ['piston area(63 mm)', 'mm²', '3117', 'a bore of 63 mm has about 3117 mm²: a page on air cylinders'],
  // Settling time of a capacitor.
  [
    'bleed-down time(250 kΩ; 80 µF; 100 V; 36.7879441 V)',
    's',
    '20',
    'OpenStax College Physics, chapter 21, problem 71 (a): 250 kΩ and 80 µF have a time constant of 20 s',
  ],
  ['bleed-down time(250 kΩ; 80 µF; 100 V; 0.25 V)', 's', '120', 'the same, (b): down to 0.250 percent in 120 s'],
  ['bleed-down time(260 kΩ; 85 µF; 100 V; 36.7879441 V)', 's', '22.1', 'the same problem with other figures: 22.1 s'],
  ['bleed-down time(260 kΩ; 85 µF; 100 V; 0.35 V)', 's', '125', 'the same, down to 0.350 percent in 125 s'],
];

/** Stress areas of coarse metric threads as ISO 898-1 prints them, three digits; pitches of ISO 261. */
// biome-ignore format: data
const AREAS: readonly (readonly [diameter: string, pitch: string, area: string])[] = [
  ['3', '0.5', '5.03'], ['4', '0.7', '8.78'], ['5', '0.8', '14.2'], ['6', '1', '20.1'], ['7', '1', '28.9'], ['8', '1.25', '36.6'],
  ['10', '1.5', '58.0'], ['12', '1.75', '84.3'], ['14', '2', '115'], ['16', '2', '157'], ['18', '2.5', '192'], ['20', '2.5', '245'],
  ['22', '2.5', '303'], ['24', '3', '353'], ['27', '3', '459'], ['30', '3.5', '561'], ['33', '3.5', '694'], ['36', '4', '817'],
  ['39', '4', '976'],
];

/** Half of the last digit printed, noughts before the point included: 0.5 of "82", 0.05 of "48.9". */
const half = (printed: string): number => 0.5 * 10 ** -(printed.split('.')[1]?.length ?? 0);

test.each(AREAS)('stress area of M%s x %s is %s mm²', (diameter, pitch, area) => {
  expect(Math.abs(value(`stress area(${diameter} mm; ${pitch} mm)`, 'mm²') - Number(area))).toBeLessThanOrEqual(half(area));
});

test.each(EXAMPLES)('%s in %s is %s (%s)', (formula, unit, printed) => {
  expect(Math.abs(value(formula, unit) - Number(printed))).toBeLessThanOrEqual(half(printed));
});

test('pi, against the sum of Machin (1706): pi = 16 arctan 1/5 - 4 arctan 1/239', () => {
  const scale = 10n ** 50n;
  const arctan = (n: bigint): bigint => {
    let power = scale / n;
    let sum = power;
    for (let k = 3n, sign = -1n; power !== 0n; k += 2n, sign = -sign) {
      power /= n * n;
      sum += (sign * power) / k;
    }
    return sum;
  };
  const machin = 16n * arctan(5n) - 4n * arctan(239n);
  const ours = (PI.n * scale) / PI.d;
  expect(ours - machin < 10n ** 11n && machin - ours < 10n ** 11n).toBe(true);
});
