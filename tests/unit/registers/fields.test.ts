/**
 * What people are told about a field that is wrong: where, what stands there, what is expected, the nearest right name.
 * Source of the cases: common practice, no source; the shapes are those of the JSON Schemas in procedures-schema/schemas.
 */
import { describe, expect, test } from 'vitest';
import { FIXTURE_REGISTERS } from '../../support/fixture.ts';
import { guideProblems, headProblems, problemsIn } from '../../support/registers.ts';

const equipment = (text: string) => problemsIn({ 'registers/equipment.yaml': text });
/** A family with one source whose fields are given. */
const source = (fields: string) => equipment(`families:\n  hoist:\n    energy:\n      load: ${fields}\n`);

test('registers in good order have no problem', () => {
  expect(problemsIn(FIXTURE_REGISTERS)).toEqual([]);
});

describe('a field that is not one', () => {
  test('with its nearest', () => {
    expect(source('{kind: gravity, size: 80 kg, isolates: {brake: set}}')).toEqual([
      '4:42 "isolates" is not a field of an energy source; did you mean "isolate"? -> isolate',
    ]);
  });
  test('with all that there are, where none is near', () => {
    expect(problemsIn({ 'registers/notices.yaml': 'notices:\n  oil: {word: caution, text: Wipe it up., colour: red}\n' })).toEqual([
      '2:43 "colour" is not a field of a notice. -> one of the fields text, word',
    ]);
  });
  test('at the top of a file', () => {
    expect(problemsIn({ 'registers/tools.yaml': 'tool:\n  hammer: {}\n' })).toEqual([
      '1:1 "tool" is not a field of the tool register; did you mean "tools"? -> tools',
    ]);
  });
  test('beside names of the writer, told by the form of its value', () => {
    expect(equipment('models:\n  K-1: {family: hoist, option: [hook]}\nfamilies: {hoist: {energy: {}}}\n')).toEqual([
      '2:24 "option" is not a field of a model; did you mean "options"? -> options',
    ]);
    expect(headProblems(`${HEAD}measurements:\n  gap:\n    quantity: length\n    limits: {lowr: 1 mm}\n`)).toEqual([
      '10:14 "lowr" is not a field of "limits"; did you mean "lower"? -> lower',
    ]);
  });
});

describe('a field that is missing', () => {
  test('of an entry', () => {
    expect(source('{kind: gravity}')).toEqual([
      '4:7 The energy source "load" has no "size". -> How much there is: voltage, pressure, mass.',
    ]);
  });
  test('misspelt, where any name is allowed beside it', () => {
    expect(equipment('models:\n  K-1: {famliy: hoist}\n')).toEqual([
      '2:3 The model "K-1" has no "family"; is "famliy" meant for it? -> The family that the model belongs to.',
    ]);
  });
  test('written without a value', () => {
    expect(headProblems(HEAD.replace('title: Wait', 'title:'))).toEqual([
      '2:1 "title" of the front matter is empty. -> What the procedure does: Renew the cylinder seal.',
    ]);
  });
  test('of an entry without any value', () => {
    expect(equipment('families:\n  hoist:\n    energy:\n      load:\n')).toEqual([
      '4:7 The energy source "load" has no "kind". -> Kind of energy.',
      '4:7 The energy source "load" has no "size". -> How much there is: voltage, pressure, mass.',
    ]);
  });
  test('near miss: a heading with nothing below it, an entry that needs no fields', () => {
    expect(equipment('families:\n  hoist:\n    energy: {}\n    covers:\n    controls:\n      up button:\n      down button: {}\n')).toEqual(
      [],
    );
  });
});

describe('a value that cannot be', () => {
  test('a word that is none of the set, with its nearest', () => {
    expect(source('{kind: gravty, size: 80 kg}')).toEqual([
      '4:20 "kind" of the energy source "load" cannot be "gravty"; did you mean "gravity"? -> gravity',
    ]);
  });
  test('a word far from all', () => {
    expect(problemsIn({ 'library.yaml': 'publisher: Test Works\npaper: legal\n' })).toEqual([
      '2:8 "paper" cannot be "legal". -> a4, letter, a5 or 160 x 230 mm',
    ]);
  });
  test('nothing, in quotes', () => {
    expect(source('{kind: "", size: 80 kg}')).toEqual(['4:20 "kind" of the energy source "load" is empty. -> Kind of energy.']);
  });
  test('near miss: capital letters', () => {
    expect(source('{kind: Gravity, size: 80 kg, can come back: Yes}')).toEqual([]);
  });
  test('fields where text is expected, text where fields are', () => {
    expect(source('{kind: gravity, size: {load: 80 kg}}')).toEqual([
      '4:29 "size" of the energy source "load" holds fields, not text. -> How much there is: voltage, pressure, mass.',
    ]);
    expect(equipment('families:\n  hoist:\n    energy: {}\n    covers: lid\n')).toEqual([
      '4:13 "covers" of the family "hoist" holds text, not fields. -> Guards, panels, doors and lids.',
    ]);
  });
  test('an item of a list', () => {
    expect(headProblems(`${HEAD}consumables:\n  - {nme: grease}\n`)).toEqual([
      '8:5 Item 1 of "consumables" has no "name". -> Registered name.',
      '8:6 "nme" is not a field of a listed thing; did you mean "name"? -> name',
    ]);
  });
  test('a date of another form, and a day that is none', () => {
    const right = 'Date of this revision as year-month-day: 2026-03-02.';
    expect(headProblems(HEAD.replace('2026-03-02', '2.3.2026'))).toEqual([`4:7 "date" cannot be "2.3.2026". -> ${right}`]);
    expect(headProblems(HEAD.replace('2026-03-02', '2026-02-29'))).toEqual([
      '4:7 There is no day 2026-02-29: that month has 28 days. -> a day up to 2026-02-28',
    ]);
    expect(headProblems(HEAD.replace('2026-03-02', '2028-02-29'))).toEqual([]);
  });
});

const HEAD = 'id: T-1\ntitle: Wait\nrevision: "A"\ndate: 2026-03-02\nmodels: [K-1]\ntools: none\n';

describe('front matter', () => {
  test('complete', () => {
    expect(headProblems(HEAD)).toEqual([]);
  });
  test('empty: each field is asked for once, at the fence', () => {
    expect(headProblems('').map((line) => line.replace(/ ->.*/, ''))).toEqual(
      ['date', 'id', 'models', 'revision', 'title', 'tools'].map((field) => `0:1 The front matter has no "${field}".`),
    );
  });
  test('near miss: front matter whose YAML is broken is told of once, by reading its form', () => {
    expect(headProblems('['.repeat(70))).toEqual([]);
  });
  test('limits: a table, fields, one quantity, or per model', () => {
    const limits = (text: string) => headProblems(`${HEAD}measurements:\n  gap: {quantity: length, limits: ${text}}\n`);
    for (const good of [
      'table gaps',
      '5 mm ± 0.2 mm',
      '{lower: 1 mm}',
      '{nominal: 5 mm, tolerance: 0.2 mm}',
      '{K-1: {lower: 1 mm, upper: 2 mm}, K-2: {upper: 3 mm}}',
    ])
      expect(limits(good), good).toEqual([]);
    expect(limits('{tolerance: 0.2 mm}')).toEqual([
      '8:27 "limits" of the measurement "gap" has a "tolerance", but no "nominal" that it belongs to. -> "nominal" beside it',
    ]);
  });
  test('something sensed needs no quantity, something measured does', () => {
    expect(headProblems(`${HEAD}measurements:\n  feel: {at: axle, pass: it runs on, fail: it stops}\n`)).toEqual([]);
    expect(headProblems(`${HEAD}measurements:\n  gap: {at: axle}\n`)[0]).toMatch(/^8:3 The measurement "gap" has no "quantity"\./);
  });
});

test('front matter of a guide', () => {
  expect(guideProblems('id: G-1\ntitle: Hoists\nrevision: "A"\ndate: 2026-03-02\nbinding: left\nduplex: yes\n')).toEqual([]);
  expect(guideProblems('id: G-1\ntitle: Hoists\nrevision: "A"\ndate: 2026-03-02\nbinding: right\nduplx: yes\n')).toEqual([
    '5:10 "binding" cannot be "right". -> left, top or none',
    '6:1 "duplx" is not a field of the front matter; did you mean "duplex"? -> duplex',
  ]);
});

test('a file in registers/ that is none', () => {
  expect(problemsIn({ 'registers/tool.yaml': 'tools: {}\n' })).toEqual([
    '1:1 No register is called "tool", so this file is not read; did you mean "tools.yaml"? -> registers/tools.yaml',
  ]);
});
