/** Limits of the front matter as a form: what it shows, that nothing but what was typed is written, and what it leaves alone. */
import { describe, expect, test } from 'vitest';
import { type LimitsForm, limitsEdits } from '../../../procedures-schema/assist/index.ts';
import { assistFixture, type FixtureChange } from '../../support/assist.ts';
import { limitRows, openedLimits, typedLimits } from '../../support/assist-limits.ts';

const STEP =
  '#. Measure the [edge gap] with the [feeler gauge].\n   - If it is within the limits, go on.\n   - Otherwise stop and call the works office.';
const EACH = `
      DM-10: {lower: 0.2 mm, upper: 0.4 mm}   # as built
      DM-20: {lower: 0.3 mm, upper: "0.5 mm"}`;

/** `limits` as it stands behind the key; `¦` is the caret, in the front matter where the step has none. */
const given = (limits: string, step = STEP): FixtureChange => {
  const caret = step.includes('¦') ? '' : '¦';
  const value = limits.startsWith('\n') ? limits : ` ${limits}`;
  const front =
    'tools: [feeler gauge]\nmeasurements:\n  edge gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge';
  return { front: `${front}\n    limits:${caret}${value}`, work: step };
};

const opened = (change: FixtureChange): LimitsForm => openedLimits(assistFixture(change));
const shown = (form: LimitsForm): readonly string[] => [form.columns.map(({ heading }) => heading).join(' | '), ...limitRows(form)];

/** The lines that went and came when the cells were typed. */
function filledIn(change: FixtureChange, ...typed: readonly (readonly [number, number, string])[]) {
  const { before, after, fresh, notes } = typedLimits(change, typed);
  const [was, is] = [before.split('\n'), after.split('\n')];
  return { gone: was.filter((line) => !is.includes(line)), come: is.filter((line) => !was.includes(line)), fresh, notes };
}

describe('limits of the front matter', () => {
  test('are shown by model, from where they stand and from the step that measures', () => {
    const rows = ['lower | upper', 'DM-10 | 0.2 mm | 0.4 mm', 'DM-20 | 0.3 mm | 0.5 mm'];
    expect(opened(given(EACH)).where).toBe('front matter');
    expect(shown(opened(given(EACH)))).toEqual(rows);
    expect(shown(opened(given(EACH, STEP.replace('Measure', 'Mea¦sure'))))).toEqual(rows);
  });

  test('take one value, and nothing else of the text changes: comments and quotes stay', () => {
    expect(filledIn(given(EACH), [0, 1, '0.45 mm'], [1, 1, '0.6 mm'])).toEqual({
      gone: ['      DM-10: {lower: 0.2 mm, upper: 0.4 mm}   # as built', '      DM-20: {lower: 0.3 mm, upper: "0.5 mm"}'],
      come: ['      DM-10: {lower: 0.2 mm, upper: 0.45 mm}   # as built', '      DM-20: {lower: 0.3 mm, upper: "0.6 mm"}'],
      fresh: [],
      notes: [],
    });
  });

  test('get an entry for a model that had none, written as those before it', () => {
    const one = given('\n      DM-10: {lower: 0.2 mm, upper: 0.4 mm}');
    expect(shown(opened(one)).at(-1)).toBe('DM-20 |  | ');
    expect(filledIn(one, [1, 0, '0.3 mm'], [1, 1, '0.5 mm'])).toMatchObject({
      gone: [],
      come: ['      DM-20: {lower: 0.3 mm, upper: 0.5 mm}'],
      notes: [],
    });
    const block = given('\n      DM-10:\n        lower: 0.2 mm\n        upper: 0.4 mm');
    expect(filledIn(block, [1, 0, '0.3 mm'])).toMatchObject({ gone: [], come: ['      DM-20:', '        lower: 0.3 mm'] });
    expect(filledIn(one, [0, 0, '0.1 mm']).notes).toEqual(['Limits are missing for DM-20.']);
  });

  test('of all models at once, of one end, and as one value with its tolerance', () => {
    const all = given('{lower: 0.2 mm, upper: 0.4 mm}');
    expect(shown(opened(all))).toEqual(['lower | upper', 'all models | 0.2 mm | 0.4 mm']);
    expect(filledIn(all, [0, 0, '']).come).toEqual(['    limits: {upper: 0.4 mm}']);
    expect(filledIn(all, [0, 0, ''], [0, 1, '']).come).toEqual(['    limits: {}']);
    expect(filledIn(given('{upper: 0.4 mm}'), [0, 0, '0.1 mm']).come).toEqual(['    limits: {upper: 0.4 mm, lower: 0.1 mm}']);
    expect(filledIn(given('{upper: 0.4 mm}'), [0, 1, '0.3 mm']).notes).toEqual([]);
    const one = given('0.3 mm ± 0.1 mm');
    expect(shown(opened(one))).toEqual(['limits', 'all models | 0.3 mm ± 0.1 mm']);
    expect(filledIn(one, [0, 0, '0.4 mm ± 0.1 mm']).come).toEqual(['    limits: 0.4 mm ± 0.1 mm']);
  });

  test('under a name that is no model of the procedure stay, and that is said', () => {
    const form = opened(given(`${EACH}\n      XX-9: {lower: 1 mm}`));
    expect(form.rows.map(({ head }) => head)).toEqual(['DM-10', 'DM-20']);
    expect(form.kept).toEqual(['What stands under "XX-9" is no limits of a model of this procedure; it stays as it is.']);
  });

  test('that name a table of the text open that table', () => {
    const table = '\n\n| model | edge gap lower | edge gap upper |\n|---|---|---|\n| DM-10 | 0.2 mm | 0.4 mm |\n\n{#gap}';
    const form = opened({ ...given('table gap'), work: `${STEP}${table}` });
    expect(form.columns.map(({ heading }) => heading)).toEqual(['edge gap lower', 'edge gap upper']);
  });

  test('are said to be unchanged, or not there any more', () => {
    const { facts, library } = assistFixture(given(EACH));
    const { at } = opened(given(EACH));
    expect(limitsEdits(facts, library, at, [{ row: 0, column: 0, text: '0.2 mm ' }])).toMatchObject({
      ok: false,
      reason: expect.stringContaining('Nothing'),
    });
    expect(limitsEdits(facts, library, at + 1, [])).toMatchObject({ ok: false, reason: expect.stringContaining('not there any more') });
  });
});
