/** A table of limits that stands in the text, as a form: what it shows, that nothing but what was typed is written, and what it leaves alone. */
import { describe, expect, test } from 'vitest';
import { limitsEdits, limitsForm } from '../../../procedures-schema/assist/index.ts';
import { type AssistFixture, assistFixture, type FixtureChange } from '../../support/assist.ts';
import { limitRows, openedLimits, typedLimits } from '../../support/assist-limits.ts';

const FRONT =
  'tools: [feeler gauge]\nmeasurements:\n  edge gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: table gap';
const STEP =
  '#. Measure the [edge gap] with the [feeler gauge].\n   - If it is within the limits, go on.\n   - Otherwise stop and call the works office.';
const PLAIN =
  '| model | edge gap lower | edge gap upper |\n|---|---|---|\n| DM-10 | 0.2 mm [0.008 in] | ¦0.4 mm [0.015 in] |\n| DM-20 | 0.3 mm [0.012 in] | 0.5 mm [0.019 in] |';
const withTable = (table: string): FixtureChange => ({ front: FRONT, work: `${STEP}\n\n${table}\n\n{#gap}` });

const opened = openedLimits;
const shown = limitRows;

/** The lines of the table after the cells were typed. */
function filledIn(change: FixtureChange, ...typed: readonly (readonly [number, number, string])[]) {
  const { before, after, fresh, notes } = typedLimits(change, typed);
  return { lines: after.split('\n').filter((line) => /^[ >]*\|/.test(line)), fresh, notes, whole: after, before };
}

describe('a table at the caret', () => {
  test('is shown as a writer would type it: the second values that the house prints are left out', () => {
    const form = opened(assistFixture(withTable(PLAIN)));
    expect(form.measurements).toEqual(['edge gap']);
    expect(form.columns.map(({ heading, end }) => `${heading}: ${end}`)).toEqual(['edge gap lower: lower', 'edge gap upper: upper']);
    expect(shown(form)).toEqual(['DM-10 | 0.2 mm | 0.4 mm', 'DM-20 | 0.3 mm | 0.5 mm']);
    expect(form.kept).toEqual([]);
  });

  test('takes one value with its second, and nothing else changes', () => {
    const { lines, fresh, whole, before, notes } = filledIn(withTable(PLAIN), [1, 1, '0.6 mm']);
    expect(lines).toEqual([
      '| model | edge gap lower | edge gap upper |',
      '|---|---|---|',
      '| DM-10 | 0.2 mm [0.008 in] | 0.4 mm [0.015 in] |',
      '| DM-20 | 0.3 mm [0.012 in] | 0.6 mm [0.023 in] |',
    ]);
    expect(whole).toBe(before.replace('0.5 mm [0.019 in]', '0.6 mm [0.023 in]'));
    expect([fresh, notes]).toEqual([[], []]);
  });

  test('keeps a second value that is not what the house would print, until the first is typed anew', () => {
    const table = PLAIN.replace('[0.008 in]', '[0.010 in]');
    expect(shown(opened(assistFixture(withTable(table))))[0]).toBe('DM-10 | 0.2 mm [0.010 in] | 0.4 mm');
    expect(filledIn(withTable(table), [0, 1, '0.45 mm']).lines[2]).toBe('| DM-10 | 0.2 mm [0.010 in] | 0.45 mm [0.0177 in] |');
  });

  test('gets a row for a model that had none, and says what is missing there', () => {
    const table = PLAIN.split('\n').slice(0, 3).join('\n');
    const change = withTable(table);
    expect(shown(opened(assistFixture(change)))).toEqual(['DM-10 | 0.2 mm | 0.4 mm', 'DM-20 |  | ']);
    const half = filledIn(change, [1, 0, '0.3 mm']);
    expect(half.lines.at(-1)).toBe('| DM-20 | 0.3 mm [0.012 in] |  |');
    expect(half.notes).toEqual(['Limits are missing for DM-20.']);
    expect(filledIn(change, [1, 0, '0.3 mm'], [1, 1, '-']).lines.at(-1)).toBe('| DM-20 | 0.3 mm [0.012 in] | - |');
  });

  test('in a step, without closing strokes and with a row that ends early', () => {
    const table = '   | model | edge gap lower | edge gap upper\n   |---|---|---\n   | DM-10 | 0.2 mm | 0.4 mm\n   | DM-20 | 0¦.3 mm';
    const change: FixtureChange = { front: FRONT, work: `${STEP}\n\n${table}\n\n   {#gap}` };
    expect(shown(opened(assistFixture(change)))).toEqual(['DM-10 | 0.2 mm | 0.4 mm', 'DM-20 | 0.3 mm | ']);
    expect(filledIn(change, [1, 1, '0.5 mm']).lines.at(-1)).toBe('   | DM-20 | 0.3 mm | 0.5 mm [0.019 in] |');
    expect(filledIn(change, [0, 0, '1 mm']).lines.at(-2)).toBe('   | DM-10 | 1 mm [0.04 in] | 0.4 mm');
  });

  test('whose columns stand in line keeps them so where there is room', () => {
    const table =
      '| model | edge gap lower | edge gap upper |\n|-------|----------------|----------------|\n| DM-10 | ¦-              | 0.4 mm         |\n| DM-20 |                | 0.5 mm         |';
    const { lines } = filledIn(withTable(table), [0, 0, '8 s'], [1, 0, '-']);
    expect(lines.slice(2)).toEqual(['| DM-10 | 8 s            | 0.4 mm         |', '| DM-20 | -              | 0.5 mm         |']);
  });

  test('with a column and a row that it does not understand, formulas and ranges of serial numbers: kept, and said', () => {
    const table =
      '| model | note | edge gap lower | edge gap upper |\n|---|---|---|---|\n| DM-10 | a \\| b | 0.2 mm | ¦0.1 % of drum width, to 0.01 mm |\n| DM-20 from 100 | c | 0.3 mm | 0.5 mm |\n| XX-99 | d | 1 mm | 2 mm |';
    const change = withTable(table);
    const form = opened(assistFixture(change));
    expect(shown(form)).toEqual(['DM-10 | 0.2 mm | 0.1 % of drum width, to 0.01 mm', 'DM-20 from 100 | 0.3 mm | 0.5 mm']);
    expect(form.kept).toEqual([
      'The column "note" holds no limits that are understood here; it stays as it is.',
      'The row "XX-99" is for no model of this procedure; it stays as it is.',
    ]);
    const { whole, before } = filledIn(change, [1, 1, '0.7 | mm']);
    expect(whole).toBe(before.replace('| 0.5 mm |', '| 0.7 \\| mm |'));
  });

  test('says what it does not read as a value, and that nothing is changed yet', () => {
    expect(filledIn(withTable(PLAIN), [0, 0, 'about two']).notes).toEqual(['"about two" is not read as a value.']);
    const { facts, library, offset } = assistFixture(withTable(PLAIN));
    const { at } = opened(assistFixture(withTable(PLAIN)));
    expect(offset).toBeGreaterThan(at);
    expect(limitsEdits(facts, library, at, [{ row: 0, column: 0, text: ' 0.2 mm ' }])).toMatchObject({
      ok: false,
      reason: 'Nothing is changed yet.',
    });
    expect(limitsEdits(facts, library, at + 1, [])).toMatchObject({ ok: false, reason: expect.stringContaining('not there any more') });
  });
});

describe('the table is found', () => {
  const at = (work: string) => limitsForm(...args(assistFixture({ front: FRONT, work })));
  const args = ({ facts, library, offset }: AssistFixture) => [facts, library, offset] as const;
  const table = PLAIN.replace('¦', '');
  test('from the step that measures, and from the line that names it', () => {
    expect(at(`${STEP.replace('Measure', 'Mea¦sure')}\n\n${table}\n\n{#gap}`)).toMatchObject({ measurements: ['edge gap'] });
    expect(at(`${STEP}\n\n${table}\n\n{#g¦ap}`)).toMatchObject({ measurements: ['edge gap'] });
  });
  test('from nowhere else, and one that no measurement reads is not taken for limits', () => {
    expect(at(`${STEP}\n#. Clean ¦the [scraper].\n\n${table}\n\n{#gap}`)).toMatchObject({
      ok: false,
      reason: expect.stringContaining('caret into limits'),
    });
    expect(at(`${STEP}\n\n${PLAIN}\n\n{#other}`)).toMatchObject({ ok: false, reason: expect.stringContaining('No measurement') });
  });
});
