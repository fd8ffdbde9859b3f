/** What writers type, and what it is read as. Invented text; the forms are those of the format's rules. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  compare,
  compareDual,
  convert,
  converted,
  findQuantities,
  fromDecimal,
  parseQuantity,
  printQuantity,
  type Quantity,
  type Rational,
  rational,
  sameKind,
  toDecimal,
  toNumber,
  UNITS,
  type Unit,
} from '../../../procedures-schema/quantities/index.ts';

/** "range 6..9 lbf" for a text, one line a quantity. */
function read(text: string, mark: 'point' | 'comma' = 'point'): string {
  return findQuantities(text, mark)
    .map(({ quantity, second }) => said(quantity) + (second ? ` / ${said(second.quantity)}` : ''))
    .join('; ');
}
function said({ form, nominal, lower, upper, plus, unit }: Quantity): string {
  const numbers = [nominal, lower, upper, plus].filter((amount) => amount !== undefined).map((amount) => toNumber(amount.value));
  return `${form} ${numbers.join('..')} ${unit.symbol}`;
}

test.each([
  ['6 to 9 lbf', 'range 6..9 lbf'],
  ['3/8 in', 'single 0.375 in'],
  ['0.010-0.015 in.', 'range 0.01..0.015 in'],
  ['1 1/2 in', 'single 1.5 in'],
  ['1½ in', 'single 1.5 in'],
  ['-5 °C ± 2 °C', 'tolerance -5..2 °C'],
  ['−5 °C', 'single -5 °C'],
  ['25 N·m (18 lbf·ft)', 'single 25 N·m / single 18 lbf·ft'],
  ['2 % of span', 'single 2 %'],
  ['min. 3 bar', 'at least 3 bar'],
  ['not more than 40 dB', 'at most 40 dB'],
  ['not less than 4 mm', 'at least 4 mm'],
  ['80 °C or less', 'at most 80 °C'],
  ['90°', 'single 90 °'],
  ['between 3 and 5 bar', 'range 3..5 bar'],
  ['0.4 mm to 0.6 mm (0.016 in to 0.024 in)', 'range 0.4..0.6 mm / range 0.016..0.024 in'],
  ['M12 bolts at OM-3120', ''],
  ['put 4 in the holes', ''],
  ['steps 4 to 7', ''],
  ['12:30 and 10:1', ''],
  ['wait 10 min.', 'single 10 min'],
])('%s', (text, expected) => {
  expect(read(text)).toBe(expected);
});

test.each([
  // No number of thousands begins with nought, or with four digits.
  ['0,350 mm', 'point', 'single 0.35 mm'],
  ['0.350 mm', 'comma', 'single 0.35 mm'],
  ['0.001 mm', 'comma', 'single 0.001 mm'],
  ['1200,125 mm', 'point', 'single 1200.125 mm'],
  ['1,200 mm', 'point', 'single 1200 mm'],
  ['12,200 mm', 'point', 'single 12200 mm'],
  ['120,200 mm', 'point', 'single 120200 mm'],
] as const)('%s under a decimal %s, with the other mark', (text, mark, expected) => {
  expect(read(text, mark)).toBe(expected);
  expect(findQuantities(text, mark)[0]?.quantity.nominal?.doubtful).toBeDefined();
});

test('what a second value should read is written as the library writes numbers', () => {
  const [found] = findQuantities('2,8 mm (0,2 in)', 'comma');
  expect(compareDual(found?.quantity as Quantity, found?.second?.quantity as Quantity, 'comma')).toMatchObject({
    kind: 'differ',
    shouldRead: '0,110\u00a0in',
  });
});

test('comma locales follow the language', () => {
  expect(read('5,5 mm', 'comma')).toBe('single 5.5 mm');
  expect(read('1.200 mm', 'comma')).toBe('single 1200 mm');
  expect(read('1.500,5 mm', 'comma')).toBe('single 1500.5 mm');
  expect(read('0,05 bis 1,00 mm', 'comma')).toBe('single 1 mm');
  expect(read('0,05 to 1,00 mm', 'comma')).toBe('range 0.05..1 mm');
  expect(parseQuantity('1,200 mm')?.nominal?.doubtful).toContain('1.200');
  expect(parseQuantity('5,5 mm')?.nominal?.doubtful).toContain('decimal mark');
});

describe('conversion for print', () => {
  const units = UNITS.filter((unit) => unit.system !== 'both' && unit.kind !== 'temperature');
  const pair = fc.tuple(fc.constantFrom(...units), fc.constantFrom(...units)).filter(([a, b]) => sameKind(a, b) && a.symbol !== b.symbol);
  const decimal = fc
    .tuple(fc.integer({ min: 1, max: 99_999 }), fc.integer({ min: 0, max: 3 }))
    .map(([digits, places]) => toDecimal(rational(BigInt(digits), 10n ** BigInt(places)), places));

  test('a converted lower limit is never below, an upper never above the exact one', () => {
    fc.assert(
      fc.property(pair, decimal, decimal, ([from, to], a, b) => {
        const order = compare(fromDecimal(a) as Rational, fromDecimal(b) as Rational);
        // "1 to 1.0" is one value, not a range: no digits hold it exactly, so its two limits may cross.
        fc.pre(order !== 0);
        const [low, high] = order < 0 ? [a, b] : [b, a];
        const quantity = parseQuantity(`${low} to ${high} ${from.symbol}`);
        fc.pre(quantity?.lower !== undefined && quantity.upper !== undefined);
        const out = converted(quantity as Quantity, to);
        const exact = (text: string): Rational => convert(fromDecimal(text) as Rational, from, to);
        expect(compare(out.lower?.value as Rational, exact(low))).toBeGreaterThanOrEqual(0);
        expect(compare(out.lower?.value as Rational, out.upper?.value as Rational)).toBeLessThanOrEqual(0);
        expect(compare(out.upper?.value as Rational, exact(high))).toBeLessThanOrEqual(0);
      }),
      { numRuns: 500 },
    );
  });

  test('parse(print(q)) is q at the printed precision', () => {
    fc.assert(
      fc.property(fc.constantFrom(...UNITS.filter((unit) => unit.meant === undefined)), decimal, decimal, (unit: Unit, a, b) => {
        for (const text of [
          `${a} ${unit.symbol}`,
          `${a} to ${b} ${unit.symbol}`,
          `${a} ± ${b} ${unit.symbol}`,
          `at least ${a} ${unit.symbol}`,
        ]) {
          const quantity = parseQuantity(text) as Quantity;
          const again = parseQuantity(printQuantity(quantity)) as Quantity;
          expect(said(again)).toBe(said(quantity));
        }
      }),
      { numRuns: 300 },
    );
  });
});

// Verdicts from the reference's dual-unit examples (units.json, dualUnitExamples).
test.each([
  ['1/4 in to 3/8 in (6 mm to 10 mm)', 'looser'],
  ['0.010 in to 0.015 in (0.25 mm to 0.38 mm)', 'agree'],
  ['1/2 in to 3/4 in (13 mm to 25 mm)', 'differ'],
  ['60 to 80 lbf·ft (81 to 108 N·m)', 'agree'],
  ['60 to 80 lbf·ft (6.8 to 9.0 N·m)', 'differ'],
  ['25 N·m (18 lbf)', 'other quantity'],
])('%s: %s', (text, expected) => {
  const [found] = findQuantities(text);
  expect(compareDual(found?.quantity as Quantity, found?.second?.quantity as Quantity).kind).toBe(expected);
});
