/** A filled-in value against the limits of a model: at, just under and just over each. */
import { expect, test } from 'vitest';
import { judge, type Limit, parseQuantity, type Quantity, unitOf } from '../../../procedures-schema/quantities/index.ts';

const amount = (text: string) => (parseQuantity(text) as Quantity).nominal;
const limit = (lower?: string, upper?: string): Limit => {
  const [low, high] = [lower === undefined ? undefined : amount(lower), upper === undefined ? undefined : amount(upper)];
  return {
    ...(low ? { lower: low } : {}),
    ...(high ? { upper: high } : {}),
    unit: unitOf('mm') as NonNullable<ReturnType<typeof unitOf>>,
    span: { start: 0, end: 0 },
  };
};

test.each([
  ['0.49 mm', 'under'],
  ['0.50 mm', 'within'],
  ['1.50 mm', 'within'],
  ['1.51 mm', 'over'],
  ['1', 'within'],
  ['0.02 in', 'within'],
  ['0.06 in', 'over'],
  ['3 N', 'other quantity'],
  ['about one', 'unreadable'],
  ['1,234', 'unreadable'],
  ['', 'unreadable'],
])('%s against 0.5 to 1.5 mm is %s', (filled, expected) => {
  expect(judge(filled, limit('0.5 mm', '1.5 mm'))).toBe(expected);
});

test('one-sided limits', () => {
  expect(judge('100 mm', limit('0.5 mm'))).toBe('within');
  expect(judge('0.4 mm', limit('0.5 mm'))).toBe('under');
  expect(judge('-3 mm', limit(undefined, '1.5 mm'))).toBe('within');
});
