/** A new guide: its number, its parts, and that what is written checks clean whatever was chosen. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { newGuide, nextGuideNumber } from '../../../procedures-schema/assist/index.ts';
import { checkLibrary } from '../../../procedures-schema/index.ts';
import { assistFixture, FX } from '../../support/assist.ts';
import { withNew } from '../../support/assist-insert.ts';
import { sample } from '../../support/sample.ts';

const DATE = '2026-04-01';

describe('a new guide', () => {
  test('has the next number of the guides, the models of its procedures, and a part for each machine', async () => {
    const { report, paths } = await sample();
    const made = newGuide({ title: ' Levellers  and fans ', procedures: ['OM-3150', 'OM-3140', 'OM-1120'], date: DATE }, report.facts);
    if (!made.ok) throw new Error(made.reason);
    expect(made.path).toBe('guides/OM-8030-levellers-and-fans.md');
    expect(made.text).toMatch(
      /^---\nid: OM-8030\ntitle: Levellers and fans\nrevision: "A"\ndate: 2026-04-01\nmodels:\n( {2}- (EF|DL)-\d+\n)+---\n/,
    );
    expect(made.text).toContain('## Dock leveller\n\n- [OM-3150]\n- [OM-3140]\n\n## Extraction fan\n\n- [OM-1120]\n');
    expect(withNew(report, made, paths).fresh).toEqual([]);
  });

  test('in another order than by machine keeps that order, in one part', async () => {
    const { report } = await sample();
    const made = newGuide({ title: 'G', procedures: ['OM-3150', 'OM-1120', 'OM-3140'], date: DATE }, report.facts);
    expect(made.ok && made.text.slice(made.text.indexOf('##'))).toBe('## Procedures\n\n- [OM-3150]\n- [OM-1120]\n- [OM-3140]\n');
  });

  test('checks clean whatever is chosen: what a procedure sends its reader to is bound in behind it, and that is said', async () => {
    const { report, paths } = await sample();
    const numbers = report.facts.procedures.map(({ head }) => head.id);
    fc.assert(
      fc.property(fc.shuffledSubarray(numbers), (procedures) => {
        const made = newGuide({ title: 'Any of them', procedures, date: DATE }, report.facts);
        if (!made.ok) throw new Error(made.reason);
        expect(withNew(report, made, paths).fresh).toEqual([]);
        for (const { number, because } of made.also) {
          expect(procedures).not.toContain(number);
          expect(made.text.indexOf(`[${because}]`)).toBeLessThan(made.text.indexOf(`[${number}]`));
          expect(made.notes.join(' ')).toContain(`${number} is bound in too, because ${because} sends its reader there.`);
        }
      }),
      { numRuns: 4 },
    );
  });

  test('binds in a procedure that is called by the one that was chosen', () => {
    const called =
      '---\nid: FX-101\ntitle: Clean it\nrevision: "A"\ndate: 2026-01-15\nmodels: [DM-10]\nstarts with: closed\n---\n\n## When to use\n\nNow.\n\n## Clean\n\n1. Wait for 1 min.\n';
    const { library } = assistFixture({ work: '#. Clean it as in [FX-101: Clean].', files: { 'procedures/FX-101.md': called } });
    const made = newGuide({ title: 'Mixer', procedures: ['FX-100'], date: DATE }, library);
    expect(made.ok && [made.also, made.text.includes('- [FX-100]\n- [FX-101]\n')]).toEqual([
      [{ number: 'FX-101', because: 'FX-100' }],
      true,
    ]);
  });

  test('in a library that has nothing yet is written all the same, and checks clean', () => {
    const files = [
      { path: 'library.yaml', text: 'publisher: Orrfen Machines\n' },
      { path: 'registers/equipment.yaml', text: 'families: {}\nmodels: {}\n' },
    ];
    const report = checkLibrary(files);
    const made = newGuide({ title: 'The first', procedures: [], date: DATE }, report.facts);
    if (!made.ok) throw new Error(made.reason);
    expect(made.notes[0]).toMatch(/binds in nothing yet/);
    const after = checkLibrary([...files, { path: made.path, text: made.text }]);
    expect(after.facts.guides.map(({ head }) => head.title)).toEqual(['The first']);
    expect(after.findings.filter(({ file }) => file === made.path)).toEqual([]);
  });

  test.each([
    [{ title: ' ' }, 'needs a title'],
    [{ date: 'today' }, 'year-month-day'],
    [{ number: 'FX-100' }, 'FX-100 is taken'],
    [{ number: ' ' }, 'needs a number'],
    [{ number: 'X' }, 'X does not follow the pattern of the house'],
    [{ procedures: ['FX-999'] }, 'no procedure FX-999'],
    [{ models: ['XX-1'] }, 'no registered model'],
  ])('%j is refused', (change, reason) => {
    const { library } = assistFixture();
    const made = newGuide({ title: 'Mixer guide', procedures: ['FX-100'], date: DATE, ...change }, library);
    expect(made.ok ? '' : made.reason).toContain(reason);
  });

  test('of models that were chosen has those and no others; without a guide the number follows the procedures', () => {
    const { library } = assistFixture();
    const made = newGuide({ title: 'Mixer guide', procedures: ['FX-100'], models: ['dm-10'], date: DATE }, library);
    expect(made.ok && made.models).toEqual(['DM-10']);
    expect(nextGuideNumber(library)).toBe(made.ok && made.number);
    expect(nextGuideNumber(assistFixture({ files: { [FX]: '' } }).library)).toBe('FX-100');
  });
});
