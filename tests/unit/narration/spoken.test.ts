/** Written words as a voice reads them: cases as data, and what must hold of any text. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { UNITS } from '../../../procedures-schema/index.ts';
import { spokenForm, UNIT_SAYINGS } from '../../../procedures-schema/narration/index.ts';
import { SPOKEN_CASES } from './spoken-cases.ts';

describe.each(Object.entries(SPOKEN_CASES))('%s', (_, cases) => {
  test.each(cases)('%s', (written, spoken) => {
    expect(spokenForm(written)).toBe(spoken);
  });
});

test.each([
  ['Set it to 2,5 mm (0,10 in).', 'Set it to two point five millimetres.'],
  ['Set it to 1.200 mm.', 'Set it to one thousand two hundred millimetres.'],
  ['Set it to 1.200,5 mm.', 'Set it to one thousand two hundred point five millimetres.'],
  ['Set it to 0.5 mm.', 'Set it to zero point five millimetres.'],
  ['Hold it between 0,05 and 0,10 mm.', 'Hold it between zero point zero five and zero point one zero millimetres.'],
  ['The factor is 1,25.', 'The factor is one point two five.'],
  ['Do step 3.2, then 4, 5 and 6.', 'Do step three point two, then four, five and six.'],
])('with decimal commas: %s', (written, spoken) => {
  expect(spokenForm(written, 'comma')).toBe(spoken);
});

test('there are at least 120 cases', () => {
  expect(Object.values(SPOKEN_CASES).flat().length).toBeGreaterThanOrEqual(120);
});

test('every unit found in text has a saying, and no saying is for a unit that is not there', () => {
  expect(Object.keys(UNIT_SAYINGS).sort()).toEqual([...new Set(UNITS.map(({ symbol }) => symbol))].sort());
});

test('what was said once is not changed by saying it again', () => {
  for (const [, spoken] of Object.values(SPOKEN_CASES).flat()) expect(spokenForm(spoken)).toBe(spoken);
});

test('no digit and no unit sign is left of any value with a unit', () => {
  const units = UNITS.map(({ symbol }) => symbol);
  fc.assert(
    fc.property(
      fc.integer({ min: -9999, max: 999_999 }),
      fc.integer({ min: 0, max: 999 }),
      fc.constantFrom(...units),
      (whole, part, unit) => {
        const typed = part === 0 ? String(whole) : `${whole}.${String(part).padStart(3, '0')}`;
        expect(spokenForm(`Set it to ${typed} ${unit}.`)).toMatch(/^Set it to [a-zA-Z' -]+\.$/);
      },
    ),
    { numRuns: 300 },
  );
});

test('any text is said without failing, on one line', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', maxLength: 60 }), (text) => {
      expect(spokenForm(text)).not.toMatch(/\n| {2}|^ | $/);
    }),
    { numRuns: 300 },
  );
});
