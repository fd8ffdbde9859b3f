import { describe, expect, test } from 'vitest';
import {
  insertBranches,
  insertBranching,
  insertFigure,
  insertFigures,
  insertMakeSafe,
  insertMeasurement,
  insertNotice,
  insertRestore,
  insertStep,
  newProcedure,
  nextNumber,
} from '../../../procedures-schema/assist/index.ts';
import type { ProcedureFacts } from '../../../procedures-schema/index.ts';
import { assistFixture, type FixtureChange, FX, marginOfFile } from '../../support/assist.ts';
import { around, inserted, withNew } from '../../support/assist-insert.ts';
import { sample } from '../../support/sample.ts';

const NOTICE = {
  word: 'caution',
  hazard: 'The scraper has sharp edges',
  harm: 'It can cut your fingers',
  avoid: 'Wear the [work gloves]',
} as const;
const GLOVES: FixtureChange = {
  front: 'protection: [work gloves]',
  work: '#. Put on the [work gloves].\n#. Clean ¦the [scraper].\n#. Look at the [scraper].',
};

describe('a notice', () => {
  test('goes before the step of the caret, and checks clean', () => {
    const { report, facts, library, offset } = assistFixture(GLOVES);
    const { shown, fresh } = inserted(report, FX, insertNotice(facts, library, offset, NOTICE));
    expect(around(shown, 3, 3)).toBe(
      '1. Put on the [work gloves].\n\n:::caution\n¦The scraper has sharp edges. It can cut your fingers. Wear the [work gloves].\n:::\n\n2. Clean the [scraper].',
    );
    expect(fresh).toEqual([]);
  });
  test('under a heading, it guards the section', () => {
    const { report, facts, library, offset } = assistFixture({
      front: 'protection: [work gloves]',
      body: '@SAFE\n## Work\n¦\n#. Put on the [work gloves].\n#. Clean the [scraper].\n\n@CLOSE\n',
    });
    const { shown, fresh } = inserted(report, FX, insertNotice(facts, library, offset, NOTICE));
    expect(shown).toContain('## Work\n\n:::caution\n¦The scraper');
    expect(fresh).toEqual([]);
  });
  test('one of the register carries its words', () => {
    const files = {
      'registers/notices.yaml':
        'notices:\n  sharp edges:\n    word: caution\n    text: The scraper has sharp edges. It can cut your fingers. Wear work gloves.\n',
    };
    const { report, facts, library, offset } = assistFixture({ ...GLOVES, files });
    const { text, fresh } = inserted(report, FX, insertNotice(facts, library, offset, { word: 'caution', use: 'sharp edges' }));
    expect(text).toContain(':::caution {use="sharp edges"}\nThe scraper has sharp edges.');
    expect(fresh).toEqual([]);
  });
  test('an empty one asks for its parts, and says which', () => {
    const { report, facts, library, offset } = assistFixture(GLOVES);
    const insertion = insertNotice(facts, library, offset, { word: 'danger' });
    expect(insertion.ok && insertion.notes).toEqual(['Say what endangers.', 'Say what it does to people.', 'Say how it is avoided.']);
    expect(inserted(report, FX, insertion).fresh.every((finding) => finding.startsWith('notice-'))).toBe(true);
  });
});

describe('a step, branches, a figure', () => {
  test('a step takes its label, and the later ones move on', () => {
    const { report, facts, library, offset } = assistFixture({
      work: '#. Clean ¦the [scraper].\n#. Look at the [scraper].\n#. Repeat steps 1 to 2.',
    });
    const { shown } = inserted(report, FX, insertStep(facts, library, offset, ['Clean the [air hose].']));
    expect(around(shown, 1, 2)).toBe(
      '1. Clean the [scraper].\n2. ¦Clean the [air hose].\n3. Look at the [scraper].\n4. Repeat steps 1 to 3.',
    );
  });
  test('a step put in from the heading goes on with the numbers of its section', () => {
    const { report, facts, library, text } = assistFixture({ work: '#. Clean ¦the [scraper].\n#. Look at the [scraper].' });
    const { shown } = inserted(report, FX, insertStep(facts, library, text.indexOf('## Work') + 4, ['Clean the [air hose].']));
    expect(around(shown, 1, 0)).toBe('2. Look at the [scraper].\n3. ¦Clean the [air hose].');
  });
  test('branches under a measurement answer each of its outcomes', () => {
    const front =
      'tools: [feeler gauge]\nmeasurements:\n  edge gap: {quantity: length, at: at the scraper, with: feeler gauge, limits: {lower: 1 mm, upper: 2 mm}}';
    const { report, facts, library, offset } = assistFixture({
      front,
      work: '#. Measure ¦the [edge gap] with the [feeler gauge].\n#. Clean the [scraper].',
    });
    const { report: after, text, fresh } = inserted(report, FX, insertBranches(facts, library, offset, 'edge gap'));
    expect(text).toContain(
      '   - If it is within the limits, go on with the next step.\n   - If it is under or over the limits, stop and call for help.\n2. Clean',
    );
    const readings = marginOfFile(after.facts, FX)
      .lines.filter(({ section }) => section === 'Work')
      .flatMap((line) => line.readings);
    expect(readings.flatMap(({ words }) => words)).toEqual([
      'measures edge gap with feeler gauge',
      'only if the last reading is within the limits',
      'changes nothing; goes on',
      'only if the last reading is not within the limits',
      'stops and calls for help',
      'cleans scraper',
    ]);
    expect(fresh).toEqual([]);
  });
  test('a step with branches in the words of its writer, read as they are meant', () => {
    const { report, facts, library, offset } = assistFixture({ work: '#. Clean ¦the [scraper].\n#. Look at the [scraper].' });
    const insertion = insertBranching(facts, library, offset, {
      step: 'Look at the [scraper]',
      branches: [
        { when: 'it is bent', does: 'stop and call for help' },
        { when: 'If it is straight,', does: 'go on with the next step.' },
      ],
    });
    expect(insertion.ok && insertion.notes).toEqual([]);
    const { shown, fresh } = inserted(report, FX, insertion);
    expect(around(shown, 1, 3)).toBe(
      '1. Clean the [scraper].\n2. ¦Look at the [scraper].\n   - If it is bent, stop and call for help.\n   - If it is straight, go on with the next step.\n3. Look at the [scraper].',
    );
    expect(fresh).toEqual([]);
  });
  test('a branch keeps the word of condition that its writer began with', () => {
    const { report, facts, library, offset } = assistFixture({ work: '#. Clean ¦the [scraper].\n#. Look at the [scraper].' });
    const insertion = insertBranching(facts, library, offset, {
      step: 'Look at the [scraper]',
      branches: [
        { when: 'unless it is bent', does: 'go on with the next step' },
        { when: 'iffy edges are seen', does: 'stop and call for help' },
      ],
    });
    const { text } = inserted(report, FX, insertion);
    expect(text).toContain('   - Unless it is bent, go on with the next step.\n   - If iffy edges are seen, stop and call for help.');
  });
  test('branches under the step that stands there; one alone asks for the other', () => {
    const { report, facts, library, offset } = assistFixture({ work: '#. Look at ¦the [scraper].\n#. Clean the [scraper].' });
    const insertion = insertBranching(facts, library, offset, { branches: [{ when: 'it is bent', does: 'stop and call for help' }] });
    expect(insertion.ok && insertion.notes).toEqual(['Say what is done when it is not so.']);
    expect(inserted(report, FX, insertion).text).toContain(
      '1. Look at the [scraper].\n   - If it is bent, stop and call for help.\n2. Clean the [scraper].',
    );
  });
  test('several figures of one name have ids of their own, and are one change', () => {
    const { report, facts, library, offset } = assistFixture({ work: '#. Clean ¦the [scraper].\n#. Look at the [scraper].' });
    const insertion = insertFigures(facts, library, offset, [
      { path: 'figures/edge.svg', alt: 'The edge' },
      { path: 'figures/edge.png', alt: 'The same edge' },
    ]);
    const { text, fresh } = inserted(report, FX, insertion, ['figures/edge.svg', 'figures/edge.png']);
    expect(text).toContain('   ![The edge](figures/edge.svg){#edge}\n\n   ![The same edge](figures/edge.png){#edge-2}\n\n2. Look at');
    expect(fresh).toEqual([]);
  });
  test('a figure stands under its step, with an id that is free', () => {
    const { report, facts, library, offset } = assistFixture({ work: '#. {#edge} Clean ¦the [scraper].\n#. Look at the [scraper].' });
    const insertion = insertFigure(facts, library, offset, { path: 'figures/edge.svg', alt: 'The edge of the scraper' });
    expect(insertion.ok && insertion.notes).toEqual(['The library has no file figures/edge.svg yet.']);
    const { text, fresh } = inserted(report, FX, insertion, ['figures/edge.svg']);
    expect(text).toContain('1. {#edge} Clean the [scraper].\n\n   ![The edge of the scraper](figures/edge.svg){#edge-2}\n\n2. Look at');
    expect(fresh).toEqual([]);
  });
  test('a figure put in after a table goes after the id that names the table', async () => {
    const { report } = await sample();
    const facts = report.facts.procedures.find(({ head }) => head.id === 'OM-3140') as ProcedureFacts;
    const insertion = insertFigure(facts, report.facts, facts.source.text.indexOf('| DL-30 |'), { path: 'figures/x.svg', alt: 'A view' });
    const { text, fresh } = inserted(report, facts.file, insertion, [...report.facts.paths, 'figures/x.svg']);
    expect(text).toMatch(/\| DL-30 .*\n\n\{#drift-limits\}\n\n!\[A view\]/);
    expect(fresh).toEqual([]);
  });
  test.each([
    [
      'a notice among prose',
      (f: ReturnType<typeof assistFixture>) => insertNotice(f.facts, f.library, f.text.length, NOTICE),
      'section with steps',
    ],
    [
      'a notice that is not registered',
      (f: ReturnType<typeof assistFixture>) => insertNotice(f.facts, f.library, f.text.indexOf('1. Tell'), { word: 'danger', use: 'x' }),
      'no notice "x"',
    ],
    [
      'branches of nothing',
      (f: ReturnType<typeof assistFixture>) => insertBranches(f.facts, f.library, f.text.indexOf('1. Tell'), 'x'),
      'no measurement "x"',
    ],
    [
      'a branch that does nothing',
      (f: ReturnType<typeof assistFixture>) =>
        insertBranching(f.facts, f.library, f.text.indexOf('1. Tell'), { branches: [{ when: 'it is bent', does: ' ' }] }),
      'what is done then',
    ],
    ['no figure', (f: ReturnType<typeof assistFixture>) => insertFigures(f.facts, f.library, f.text.indexOf('1. Tell'), []), 'No figure'],
    [
      'a figure with a space',
      (f: ReturnType<typeof assistFixture>) => insertFigure(f.facts, f.library, f.text.indexOf('1. Tell'), { path: 'a b.svg', alt: '' }),
      'no spaces',
    ],
  ])('%s is refused', (_, insert, reason) => {
    const answer = insert(assistFixture({ body: '@SAFE\n@CLOSE\n## Records\n\nWrite down the date.\n' }));
    expect(answer.ok ? '' : answer.reason).toContain(reason);
  });
});

describe('a measurement', () => {
  const WORK = { work: '#. Clean ¦the [scraper].\n#. Look at the [scraper].' };
  const gap = { name: 'edge gap', quantity: 'length', at: 'between the scraper and the drum', with: 'feeler gauge' } as const;
  test('with limits for each model: front matter, table, tool and step, checked clean', () => {
    const { report, facts, library, offset } = assistFixture(WORK);
    const rows = [
      { model: 'DM-10', lower: '0.2 mm', upper: '0.4 mm' },
      { model: 'DM-20', lower: '0.3 mm', upper: '0.5 mm' },
    ];
    const { text, fresh } = inserted(report, FX, insertMeasurement(facts, library, offset, { ...gap, limits: { kind: 'models', rows } }));
    expect(text).toContain(
      'measurements:\n  edge gap:\n    quantity: length\n    at: between the scraper and the drum\n    with: feeler gauge\n    limits: table edge-gap-limits',
    );
    // Inches of 25.4 mm, the lower limit rounded up and the upper one down, so that the second pair is never looser.
    expect(text).toContain(
      '| DM-10 | 0.2 mm [0.008 in] | 0.4 mm [0.015 in] |\n| DM-20 | 0.3 mm [0.012 in] | 0.5 mm [0.019 in] |\n\n{#edge-gap-limits}',
    );
    expect(text).toContain('tools:\n  - feeler gauge\n');
    expect(text).toContain('2. {#edge-gap} Measure the [edge gap] with the [feeler gauge].\n   - If it is within the limits,');
    expect(text).toContain('3. Look at the [scraper].');
    expect(fresh).toEqual([]);
  });
  test('rows without values ask for them and for nothing else', () => {
    const { report, facts, library, offset } = assistFixture(WORK);
    const rows = ['DM-10', 'DM-20'].map((model) => ({ model, lower: '', upper: '' }));
    const insertion = insertMeasurement(facts, library, offset, { ...gap, limits: { kind: 'models', rows } });
    expect(insertion.ok && insertion.notes[0]).toBe('Limits are missing for DM-10, DM-20.');
    const { fresh } = inserted(report, FX, insertion);
    expect(fresh.length).toBeGreaterThan(0);
    expect(fresh.filter((finding) => !/^limits-/.test(finding))).toEqual([]);
  });
  test('one set of limits, and one that is sensed', () => {
    const { report, facts, library, offset } = assistFixture(WORK);
    expect(
      inserted(report, FX, insertMeasurement(facts, library, offset, { ...gap, limits: { kind: 'one', lower: '0.2 mm', upper: '0.4 mm' } }))
        .fresh,
    ).toEqual([]);
    const sensed = {
      name: 'edge state',
      quantity: 'look',
      at: 'edge of the scraper',
      limits: { kind: 'sensed', pass: 'the edge is straight', fail: 'the edge has notches' },
    } as const;
    expect(inserted(report, FX, insertMeasurement(facts, library, offset, sensed)).fresh).toEqual([]);
  });
  test('a name that is taken', () => {
    const { facts, library, offset } = assistFixture(WORK);
    expect(insertMeasurement(facts, library, offset, { ...gap, name: 'scraper', limits: { kind: 'one' } })).toMatchObject({
      ok: false,
      reason: '"scraper" is the part scraper already.',
    });
  });
});

describe('making safe and putting back', () => {
  test('of the fixture: every source isolated, locked, let out or held, tried out and read', () => {
    const { report, facts, library } = assistFixture({ body: '## When to use\n\nUse this procedure when it scrapes.\n' });
    const safe = inserted(report, FX, insertMakeSafe(facts, library));
    expect(safe.text).toContain(`## Make safe

1. Tell the people at the mixer that it will be stopped.
2. Press the [stop button].
3. Set the [speed knob] to 0.
4. Put the [drum pin] in.
5. Switch off the [main isolator].
6. Shut the [air valve].
7. Put your lock and tag on the [main isolator] and the [air valve].
8. Open the [dump valve] and leave it open.
9. Send everyone clear of the mixer.
10. Set the [speed knob] to run.
11. Press the [start button]: the mixer must not move.
12. Set the [speed knob] to 0.
13. Read the [air gauge]: it must show 0 bar.
`);
    const procedure = safe.report.facts.procedures.find(({ file }) => file === FX);
    if (!procedure) throw new Error('no procedure');
    const both = inserted(safe.report, FX, insertRestore(procedure, safe.report.facts));
    expect(both.report.findings.filter(({ severity }) => severity !== 'advice')).toEqual([]);
    expect(both.report.facts.procedures[0]?.flow.verdicts.map(({ verdict }) => verdict)).toEqual(['proved', 'proved']);
  });
  test('a second person puts on a lock and takes it off', () => {
    const { report, facts, library } = assistFixture({
      front: 'roles: [second person]\npeople: 2',
      body: '## When to use\n\nUse this procedure when it scrapes.\n',
    });
    const safe = inserted(report, FX, insertMakeSafe(facts, library));
    expect(safe.text).toContain('The second person puts a lock and tag on the [main isolator] and the [air valve].');
    const procedure = safe.report.facts.procedures.find(({ file }) => file === FX);
    if (!procedure) throw new Error('no procedure');
    const both = inserted(safe.report, FX, insertRestore(procedure, safe.report.facts));
    expect(both.text).toContain('The second person takes their lock and tag off the [main isolator] and the [air valve].');
    expect(both.report.findings.filter(({ severity }) => severity !== 'advice').map(({ check, message }) => `${check} ${message}`)).toEqual(
      [],
    );
  });
  test('a section of that name is not made twice, several families want a choice', async () => {
    const { facts, library } = assistFixture();
    expect(insertMakeSafe(facts, library)).toMatchObject({ ok: false, reason: 'This procedure has a section "Make safe" already.' });
    const { facts: none, library: other } = assistFixture({ front: 'models: [XX-1]' });
    expect(insertMakeSafe(none, other)).toMatchObject({ ok: false, reason: expect.stringContaining('no registered model') });
  });
});

describe('a new procedure', () => {
  test('for every family of the sample and each of its covers: nothing found but what asks the writer', async () => {
    const { report, paths } = await sample();
    const { registers } = report.facts;
    for (const family of registers.families) {
      const models = registers.models.filter((model) => model.family === family.name).map(({ name }) => name);
      const [cover] = family.covers.filter(({ fitted, openLive }) => !fitted && !openLive);
      const made = newProcedure(
        { title: `Look into the ${family.aliases[0] ?? family.name}`, models, date: '2026-04-01', ...(cover ? { cover: cover.name } : {}) },
        report.facts,
      );
      const { fresh, report: after } = withNew(report, made, paths);
      if (!made.ok) throw new Error(made.reason);
      // What only a meter shows is left to the writer; fasteners without a torque ask how tight.
      const open = fresh.filter((finding) => !/^(?:hands-proved|torque-)/.test(finding));
      expect(open, family.name).toEqual([]);
      const verdicts = after.facts.procedures.find(({ file }) => file === made.path)?.flow.verdicts.map(({ verdict }) => verdict);
      expect(new Set(verdicts), family.name).toEqual(
        new Set([fresh.some((finding) => finding.startsWith('hands-proved')) ? 'refuted' : 'proved']),
      );
    }
  });
  test('a copy takes the new head and leaves the rest', async () => {
    const { report } = await sample();
    const made = newProcedure({ title: 'Measure the shake again', models: ['EF-315'], date: '2026-04-01', from: 'OM-1110' }, report.facts);
    if (!made.ok) throw new Error(made.reason);
    expect(made.path).toBe('procedures/OM-1140-measure-the-shake-again.md');
    expect(made.text.slice(0, 140)).toBe(
      '---\nid: OM-1140\ntitle: Measure the shake again\nrevision: "A"\ndate: 2026-04-01\nmodels:\n  - EF-315\noptions:\n  - speed drive\nsymptoms:\n  - fan shakes\n'.slice(
        0,
        140,
      ),
    );
    expect(made.notes[1]).toBe('The text may still speak of EF-450 and EF-630.');
  });
  test.each([
    ['a number in tens, after the highest of its family', ['LR-400'], 'OM-5140'],
    ['of another family', ['DL-20', 'DL-25'], 'OM-3170'],
  ])('%s', async (_, models, number) => {
    const { report } = await sample();
    expect(nextNumber(report.facts, models)).toBe(number);
  });
  test('the first number of a pattern, and none where the pattern is full', () => {
    const { library } = assistFixture({ files: { [FX]: '' } });
    expect(nextNumber(library, ['DM-10'])).toBe('FX-100');
    const full = assistFixture({
      files: { 'library.yaml': 'publisher: T\ndocument numbers: "FX-10[01]"\n', 'procedures/b.md': '---\nid: FX-101\n---\n' },
    });
    expect(nextNumber(full.library, ['DM-10'])).toBeUndefined();
  });
  test.each([
    [{ models: ['XX-1'] }, 'no registered model'],
    [{ models: [] }, 'Choose the models'],
    [{ title: ' ' }, 'needs a title'],
    [{ date: 'today' }, 'year-month-day'],
    [{ number: 'FX-100' }, 'is taken'],
    [{ number: ' ' }, 'needs a number'],
    [{ number: 'X' }, 'X does not follow the pattern of the house'],
    [{ from: 'FX-999' }, 'no procedure FX-999'],
    [{ cover: 'lid' }, 'no cover "lid"'],
  ])('%j is refused', (change, reason) => {
    const { library } = assistFixture();
    const answer = newProcedure({ title: 'Look', models: ['DM-10'], date: '2026-04-01', ...change }, library);
    expect(answer.ok ? '' : answer.reason).toContain(reason);
  });
});
