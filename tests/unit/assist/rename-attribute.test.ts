import { describe, expect, test } from 'vitest';
import { hover, namedAt, rename, usesOf } from '../../../procedures-schema/assist/index.ts';
import { formulaNames } from '../../../procedures-schema/quantities/index.ts';
import { assistFixture } from '../../support/assist.ts';
import { differences, renaming } from '../../support/assist-rename.ts';
import { sample } from '../../support/sample.ts';

const WIDTHS: readonly (readonly [string, string])[] = [
  ['DM-10: {family', '  DM-10: {family: drum mixer, drum width: 300 mm, belts: 2}'],
  ['DM-20: {family', '  DM-20: {family: drum mixer, serials: [{to: 99, drum width: 380 mm}, {from: 100, Drum width: 400 mm}], belts: 3}'],
];
const FRONT = `tools: [feeler gauge]
measurements:
  scraper gap:
    quantity: length
    at: middle of the blade
    with: feeler gauge
    limits: {lower: 0.1 % of drum width, upper: "0.4 % of Drum width + 0.1 mm per belt"}
  edge gap:
    quantity: length
    at: edge of the blade
    with: feeler gauge
    limits: table gap`;
const WORK = `#. Look at the drum width.

| model | edge gap, lower (mm) | edge gap, upper (mm) |
|---|---|---|
| DM-10 | 0.1 | 0.4 % of drum  width |
| DM-20 | 0.1 | 0.4 % of drum width, to 0.1 mm |

{#gap}`;
const WIDTH = { kind: 'attribute', family: 'drum mixer', name: 'drum width' } as const;
const BELTS = { ...WIDTH, name: 'belts' } as const;
const fixture = () => assistFixture({ front: FRONT, work: WORK, equipment: WIDTHS });

describe('attributes in a formula', () => {
  const attributes = { 'drum width': '300 mm', drum: '2', belts: '3', bar: '1' };
  test.each([
    ['0.1 % of drum width', 'drum width'],
    ['25 N + 4 N per belt', 'belts'],
    ['2 * drum - (Drum  width)', 'drum, drum width'],
    ['5 bar', ''],
    ['0.5 * bar', 'bar'],
    ['0.1 % of drum wdth', 'drum'],
    ['300 mm', ''],
  ])('%s: %s', (text, names) => {
    expect(
      formulaNames(text, attributes)
        .map(({ name }) => name)
        .join(', '),
    ).toBe(names);
  });
});

describe('an attribute of models', () => {
  test('is renamed in the register, its serial ranges, the front matter and the tables of limits; words of the text stay', () => {
    expect(renaming(fixture().report, WIDTH, 'shell breadth').split('\n')).toEqual(
      expect.arrayContaining([
        '+  DM-10: {family: drum mixer, shell breadth: 300 mm, belts: 2}',
        '+  DM-20: {family: drum mixer, serials: [{to: 99, shell breadth: 380 mm}, {from: 100, shell breadth: 400 mm}], belts: 3}',
        '+    limits: {lower: 0.1 % of shell breadth, upper: "0.4 % of Shell breadth + 0.1 mm per belt"}',
        '+| DM-10 | 0.1 | 0.4 % of shell breadth |',
        '+| DM-20 | 0.1 | 0.4 % of shell breadth, to 0.1 mm |',
      ]),
    );
    expect(renaming(fixture().report, WIDTH, 'shell breadth')).not.toContain('+1.');
  });

  test('leaves all findings as they were', () => {
    const { report, texts } = fixture();
    const paths = texts.map(({ path }) => path);
    expect(differences(report, paths, WIDTH, 'shell breadth')).toBe('');
    expect(differences(report, paths, BELTS, 'ropes')).toBe('');
  });

  test('is written so that a formula still reads it: "per box" would not be "boxes"', () => {
    expect(renaming(fixture().report, BELTS, 'ropes')).toContain('0.1 mm per rope"}');
    expect(renaming(fixture().report, BELTS, 'boxes')).toContain('0.1 mm per boxes"}');
  });

  test('is found at the caret in the register and in a formula', () => {
    const { library, report } = fixture();
    const at = (file: string, words: string) => {
      const text = [...library.registerFiles.map(({ file }) => file.source), ...library.procedures.map(({ source }) => source)].find(
        ({ path }) => path.endsWith(file),
      );
      return text && namedAt(text.path, text.text.indexOf(words) + 3, library);
    };
    expect(at('equipment.yaml', 'drum width: 300')).toEqual(WIDTH);
    expect(at('FX-100.md', 'Drum width + 0.1')).toEqual(WIDTH);
    expect(usesOf(WIDTH, report.facts)).toHaveLength(7);
  });

  test('says what each model has', () => {
    const { library, path, text } = fixture();
    const [first] = hover(path, text.indexOf('drum width, upper') + 2, library);
    expect(first?.lines).toEqual([
      'Attribute of models of the drum mixer:',
      'DM-10: 300 mm',
      'DM-20 up to 99: 380 mm',
      'DM-20 from 100: 400 mm',
    ]);
  });

  test.each([
    ['belt', 'have the attribute belts already'],
    ['serials', 'a field that a model has anyway'],
    ['bar', 'read as a unit'],
    ['2nd width', 'begins with a letter'],
    ['width (inner)', 'begins with a letter'],
    ['belt deflection', 'what formulas work out'],
    ['Drum Width', undefined],
  ])('to %s', (to, reason) => {
    const answer = rename(WIDTH, to, fixture().library);
    expect(answer.ok ? undefined : answer.reason).toEqual(reason === undefined ? undefined : expect.stringContaining(reason));
  });

  test('is not torn from the one of another family in one procedure', () => {
    const { library } = assistFixture({
      front: `models: [DM-10, DM-20, DS-1]\n${FRONT}`,
      work: WORK,
      equipment: [...WIDTHS, ['models:', '  drum stand: {}\nmodels:\n  DS-1: {family: drum stand, drum width: 300 mm}']],
    });
    const answer = rename(WIDTH, 'shell breadth', library);
    expect(answer.ok ? '' : answer.reason).toContain('drum mixer and the drum stand, which both have');
  });

  test('of the sample library', async () => {
    const { facts } = (await sample()).report;
    const answer = rename({ kind: 'attribute', family: 'dock leveller', name: 'rod diameter' }, 'rod thickness', facts);
    expect(answer.ok && answer.files.map(({ file }) => file)).toEqual(['procedures/OM-3140-lip-cylinder.md', 'registers/equipment.yaml']);
  });
});
