import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type FieldValue,
  formEdits,
  frontMatterForm,
  type ListLine,
  type MeasurementLine,
} from '../../../procedures-schema/assist/index.ts';
import { applyEdits, checkLibrary } from '../../../procedures-schema/index.ts';
import { assistFixture, type FixtureChange, FX } from '../../support/assist.ts';
import { sample } from '../../support/sample.ts';

/** The front matter after an edit of one field: the lines that differ, "-" before and "+" after. */
function edited(change: FixtureChange, key: string, value: FieldValue): string {
  const { facts } = assistFixture(change);
  const before = facts.source.text.split('\n');
  const after = applyEdits(facts.source.text, formEdits(facts, key, value)).split('\n');
  let start = 0;
  while (start < before.length && before[start] === after[start]) start += 1;
  let end = 0;
  while (end < Math.min(before.length, after.length) - start && before.at(-1 - end) === after.at(-1 - end)) end += 1;
  return [
    ...before.slice(start, before.length - end).map((line) => `-${line}`),
    ...after.slice(start, after.length - end).map((line) => `+${line}`),
  ].join('\n');
}

const form = (text: string) => {
  const { texts } = assistFixture();
  const library = checkLibrary(texts.map((file) => (file.path === FX ? { path: FX, text } : file))).facts;
  const facts = library.procedures.find(({ file }) => file === FX);
  if (!facts) throw new Error('no procedure');
  return { facts, form: frontMatterForm(facts, library) };
};

describe('the form', () => {
  test('has every field of the schema, with kind, choices and what is wrong', () => {
    const { facts, library, report } = assistFixture({ front: 'starts with: ajar\ntools: [torque wrench]' });
    const { fields } = frontMatterForm(facts, library, report.findings);
    const field = (key: string) => fields.find((one) => one.key === key);
    expect(fields.map(({ key }) => key).slice(0, 5)).toEqual(['id', 'title', 'revision', 'date', 'models']);
    expect(field('starts with')).toMatchObject({ kind: 'choice', text: 'ajar', open: false });
    expect(field('starts with')?.choices.map(({ value }) => value)).toEqual(['live', 'closed', 'opened and locked out']);
    expect(field('starts with')?.messages).toHaveLength(1);
    expect(field('models')).toMatchObject({ kind: 'list', required: true, lines: [{ name: 'DM-10' }, { name: 'DM-20' }] });
    expect(field('protection')).toMatchObject({ kind: 'list', none: true, lines: [] });
    expect(field('requires')).toMatchObject({ present: false });
    expect(field('tools')?.choices.map(({ value }) => value)).toContain('feeler gauge');
    expect(structuredClone(fields)).toEqual(fields);
  });
});

describe('an edit of one field changes no more than that', () => {
  test('a text, its quotes where it needs them', () => {
    expect(edited({}, 'title', 'Open the mixer: all of it')).toBe(
      '-title: Open the mixer and close it again\n+title: "Open the mixer: all of it"',
    );
    expect(edited({}, 'time', '50 min')).toBe('-time: 40 min\n+time: 50 min');
  });
  test('a field that is not there goes to its place in the order of the schema', () => {
    expect(edited({}, 'options', [{ name: 'heater' }])).toBe('+options:\n+  - heater');
    expect(edited({ front: '-time' }, 'time', '1 h')).toBe('+time: 1 h');
  });
  test('a field is taken out', () => {
    expect(edited({}, 'people', undefined)).toBe('-people: 1');
  });
  test('lines of a list come and go; the comment of the others stays', () => {
    const front = 'tools:\n  - torque wrench # the small one\n  - feeler gauge\n\n  # by hand\n  - 13 mm wrench';
    expect(edited({ front }, 'tools', [{ name: 'torque wrench' }, { name: '13 mm wrench' }])).toBe('-  - feeler gauge');
    expect(
      edited({ front }, 'tools', [
        { name: 'drum wedge', note: 'two' },
        { name: 'torque wrench' },
        { name: 'feeler gauge' },
        { name: '13 mm wrench' },
      ]),
    ).toBe('+  - name: drum wedge\n+    note: two');
    expect(edited({ front }, 'tools', [])).toContain('+tools: none');
  });
  describe('what is said beside a name', () => {
    const front =
      'tools:\n  - torque wrench # the small one\n  # for the drum\n  - note: two of them # by hand\n    name: drum wedge # oak\n    models: [DM-10, DM-20] # both\n  - {name: feeler gauge, note: long}';
    const wedge = { name: 'drum wedge', models: ['DM-10', 'DM-20'], note: 'two of them' };
    const wrench = { name: 'torque wrench' };
    const gauge = { name: 'feeler gauge', note: 'long' };
    test.each<[string, ListLine[], string]>([
      ['a note', [wrench, { ...wedge, note: 'one' }, gauge], '-  - note: two of them # by hand\n+  - note: one # by hand'],
      ['models', [wrench, { ...wedge, models: ['DM-20'] }, gauge], '-    models: [DM-10, DM-20] # both\n+    models: [DM-20] # both'],
      ['a name', [wrench, { ...wedge, name: 'drum block' }, gauge], '-    name: drum wedge # oak\n+    name: drum block # oak'],
      ['a quantity that was not there', [wrench, { ...wedge, quantity: '2' }, gauge], '+    quantity: 2'],
      [
        'the first field of a line',
        [wrench, { name: 'drum wedge', models: wedge.models }, gauge],
        '-  - note: two of them # by hand\n-    name: drum wedge # oak\n+  - name: drum wedge # oak',
      ],
      [
        'all but the name',
        [wrench, { name: 'drum wedge' }, gauge],
        '-  - note: two of them # by hand\n-    name: drum wedge # oak\n-    models: [DM-10, DM-20] # both\n+  - name: drum wedge # oak',
      ],
      [
        'a note to a name alone',
        [{ ...wrench, note: '5 to 25 N·m' }, wedge, gauge],
        '-  - torque wrench # the small one\n+  - name: torque wrench # the small one\n+    note: 5 to 25 N·m',
      ],
      [
        'a line in brackets',
        [wrench, wedge, { name: 'feeler gauge', models: ['DM-10'] }],
        '-  - {name: feeler gauge, note: long}\n+  - {name: feeler gauge, models: [DM-10]}',
      ],
    ])('%s', (_, lines, change) => expect(edited({ front }, 'tools', lines)).toBe(change));
    test('in a list in brackets, and of a line that the file ends with', () => {
      expect(edited({}, 'models', [{ name: 'DM-10', note: 'old, too' }, { name: 'DM-20' }])).toBe(
        '-models: [DM-10, DM-20]\n+models: [{name: DM-10, note: "old, too"}, DM-20]',
      );
    });
    test('lists that hold names alone are told apart', () => {
      const { facts, library } = assistFixture();
      const listed = frontMatterForm(facts, library).fields.filter((field) => field.listed);
      expect(listed.map(({ key }) => key)).toContain('tools');
      expect(listed.map(({ key }) => key)).not.toContain('only on');
    });
  });
  test('a list in brackets stays in brackets', () => {
    expect(edited({}, 'models', [{ name: 'DM-20' }])).toBe('-models: [DM-10, DM-20]\n+models: [DM-20]');
    expect(edited({}, 'tools', [{ name: 'torque wrench' }])).toBe('-tools: none\n+tools:\n+  - torque wrench');
  });
  test('a measurement, field by field', () => {
    const front = 'measurements:\n  edge gap: # at the edge\n    quantity: length\n    limits: {lower: 1 mm, upper: 2 mm}';
    const gap: MeasurementLine = { name: 'edge gap', quantity: 'length', limits: { lower: '1 mm', upper: '2 mm' } };
    expect(edited({ front }, 'measurements', [{ ...gap, with: 'feeler gauge' }])).toBe('+    with: feeler gauge');
    expect(edited({ front }, 'measurements', [{ ...gap, limits: { lower: '1 mm', upper: '3 mm' } }])).toContain('+    limits:');
    expect(edited({ front }, 'measurements', [gap, { name: 'hum', quantity: 'sound', pass: 'none', fail: 'a hum' }])).toBe(
      '+  hum:\n+    quantity: sound\n+    pass: none\n+    fail: a hum',
    );
    expect(edited({}, 'measurements', [gap])).toContain('+measurements:\n+  edge gap:');
  });
  test('a file without front matter gets one', () => {
    const { facts } = form('## Make safe\n');
    expect(applyEdits(facts.source.text, formEdits(facts, 'id', 'FX-101'))).toBe('---\nid: FX-101\n---\n\n## Make safe\n');
    const empty = form('---\n---\n\n## Make safe\n').facts;
    expect(applyEdits(empty.source.text, formEdits(empty, 'id', 'FX-101'))).toBe('---\nid: FX-101\n---\n\n## Make safe\n');
  });

  test('the values of the sample given back change nothing', async () => {
    const { report } = await sample();
    for (const facts of report.facts.procedures)
      for (const { key, kind, present, text, lines, measurements, none } of frontMatterForm(facts, report.facts).fields) {
        if (!present) continue;
        const value = kind === 'list' ? (none ? [] : lines) : kind === 'measurements' ? measurements : text;
        expect(formEdits(facts, key, value), `${facts.file} ${key}`).toEqual([]);
      }
  });

  test('whatever a list becomes, it is read back so, and every other line stays', () => {
    const name = fc.constantFrom(
      'torque wrench',
      'feeler gauge',
      '13 mm wrench',
      'drum wedge',
      'odd: #name',
      '- dash',
      'a, b',
      'it"s',
      'null',
      ' ',
    );
    const line: fc.Arbitrary<ListLine> = fc.record(
      { name, models: fc.constantFrom(['DM-10'], ['DM-10', 'odd, #one']), note: fc.constantFrom('left', 'for: "x" # y') },
      { requiredKeys: ['name'] },
    );
    const written = (lines: readonly ListLine[]) =>
      `tools:\n${lines.map((one, n) => (one.note || one.models ? `  - name: ${JSON.stringify(one.name)} # about ${n}\n${one.models ? `    models: ${JSON.stringify(one.models)}\n` : ''}${one.note ? `    note: ${JSON.stringify(one.note)}\n` : ''}` : `  - ${JSON.stringify(one.name)}${n % 2 ? ` # remark ${n}` : ''}\n`)).join('')}`;
    const distinct = (lines: readonly ListLine[]) => lines.filter((one) => one.name.trim() !== '');
    fc.assert(
      fc.property(
        fc.array(line, { minLength: 1, maxLength: 5 }),
        fc.array(line, { maxLength: 5 }),
        fc.constantFrom('anew', 'more', 'beside'),
        (first, second, how) => {
          const had = distinct(first);
          // The same names, with something else said beside them.
          const beside = had.map(({ name: own }, at) => ({ ...second[at % second.length], name: own }));
          const wanted = distinct(
            how === 'beside' && second.length > 0 ? beside : how === 'more' ? [...second.slice(0, 2), ...had, ...second.slice(2)] : second,
          );
          if (had.length === 0) return;
          const text = `---\nid: FX-100 # number\n${written(had)}  # between\nparts: none # really\n---\n\n## Make safe\n`;
          const { facts, form: before } = form(text);
          const after = applyEdits(text, formEdits(facts, 'tools', wanted));
          const read = form(after);
          expect(read.facts.problems.filter(({ rule }) => rule === 'front-matter')).toEqual([]);
          expect(read.form.fields.find(({ key }) => key === 'tools')?.lines).toEqual(wanted);
          for (const kept of ['id: FX-100 # number', 'parts: none # really', '# between']) expect(after).toContain(kept);
          if (how === 'more' || (how === 'beside' && second.length > 0))
            for (const remark of text.match(/# (remark|about) \d/g) ?? []) expect(after).toContain(remark);
          expect(before.fields.find(({ key }) => key === 'tools')?.lines).toEqual(had);
        },
      ),
      { numRuns: 150 },
    );
  });
});
