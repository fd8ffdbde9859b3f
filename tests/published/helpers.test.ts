/** The helpers against worked examples: of public handbook and maker pages where one was found, computed from the published formula where not; each says which. */
import { expect, test } from 'vitest';
import { evaluate, type FormulaResult, inUnit, toNumber, type Unit, unitOf } from '../../procedures-schema/quantities/index.ts';
import { PI } from '../../procedures-schema/quantities/irrational.ts';
import { NO_UNIT } from '../../procedures-schema/quantities/units.ts';

const value = (formula: string, unit: string): number => {
  const made = evaluate(formula, {}) as { result: FormulaResult };
  return toNumber(inUnit(made.result.measure, unit === '' ? NO_UNIT : (unitOf(unit) as Unit)) as never);
};

const EXAMPLES: readonly (readonly [formula: string, unit: string, expected: number, within: number, source: string])[] = [
  // V-belt force-deflection: a belt maker's guide.
  ['belt deflection(100 in)', 'in', 1.5625, 0.00005, "1 9/16 in for a span of 100 in: belt maker's guide"],
  ['belt deflection(36 in)', 'in', 0.5625, 0.00005, "9/16 in for a span of 36 in: belt maker's guide"],
  ['belt span(24 in; 12 in; 4 in)', 'in', 23.664, 0.0005, 'computed from the published formula'],
  ['belt deflection(belt span(24 in; 12 in; 4 in))', 'mm', 9.39, 0.005, 'computed from the published formula'],
  // Roller chain.
  ['chain pitches(51; 17; 40)', '', 114.732, 0.00005, 'No. 60, 30 in centres: computed from the formula three public pages print'],
  ['chain center(116; 51; 17)', '', 40.6397, 0.00005, 'the same drive, fitted with 116 pitches'],
  ['chain pitches(34; 17; 40)', '', 105.683, 0.00005, 'No. 40, 20 in centres'],
  ['chain center(106; 34; 17)', '', 40.1589, 0.00005, 'the same drive, fitted with 106 pitches'],
  ['chain slack(600 mm; 4 %)', 'mm', 24, 0.0005, 'chain handbook 7.1.2: 4 % of 600 mm'],
  ['chain slack(24 in; 2 %)', 'in', 0.48, 0.00005, "chain maker's page: 2 % of 24 in"],
  // Bolts: EN ISO 898-1 proof stress; stress areas of the standard's table.
  ['stress area(12 mm; 1.75 mm)', 'mm²', 84.3, 0.05, 'ISO 898-1, table of stress areas: M12'],
  ['stress area(20 mm; 2.5 mm)', 'mm²', 245, 0.5, 'ISO 898-1, table of stress areas: M20'],
  ['580 MPa * stress area(12 mm; 1.75 mm)', 'kN', 48.9, 0.05, 'proof load of M12 class 8.8, fetched as a worked example'],
  ['preload(580 MPa; stress area(16 mm; 2 mm))', 'kN', 68.3, 0.2, 'M16 class 8.8, 75 percent'],
  [
    'bolt torque(0.20; 16 mm; preload(580 MPa; 156.67 mm2))',
    'N·m',
    218.08,
    0.05,
    'M16 at 218.08 N·m, fetched as a worked example with A = 156.67 mm²',
  ],
  ['bolt torque(0.15; 10 mm; preload(580 MPa; stress area(10 mm; 1.5 mm)))', 'N·m', 37.8, 0.1, 'M10 class 8.8 lubricated'],
  // Forces and time.
  ['spring force(2 N/mm; 15 mm)', 'N', 30, 0.0005, "Hooke's law, by hand"],
  ['pressure force(100 psi; piston area(1 in))', 'lbf', 78.54, 0.005, '100 psi on a bore of 1 in is pi/4 of 100 lbf (from memory)'],
  [
    'bleed-down time(1 kΩ; 1000 µF; 100 V; 36.7879441 V)',
    's',
    1,
    0.000001,
    'one time constant: 36.8 percent is left (textbook, from memory)',
  ],
  [
    'bleed-down time(10 kΩ; 100 µF; 100 V; 0.6737947 V)',
    's',
    5,
    0.000001,
    'five time constants: 0.67 percent is left (textbook, from memory)',
  ],
];

test.each(EXAMPLES)('%s in %s', (formula, unit, expected, within, _source) => {
  expect(Math.abs(value(formula, unit) - expected)).toBeLessThanOrEqual(within);
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
