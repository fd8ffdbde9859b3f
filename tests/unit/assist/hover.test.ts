import { describe, expect, test } from 'vitest';
import { hover, quickFixesAt } from '../../../procedures-schema/assist/index.ts';
import { assistFixture, FX, gone, hovered } from '../../support/assist.ts';
import { sample } from '../../support/sample.ts';

describe('what stands here', () => {
  test('a registered thing, and how the sentence was read', () => {
    expect(hovered({ work: '#. Clean the [scr¦aper].' })).toBe(`thing scraper
  Part in the drum bay.
  Endangered there by supply, air and drum weight.
  In the register: drum mixer.
reading Step Work 1 is read as
  cleans scraper.`);
  });
  test('a point says for which source which position is safe', () => {
    expect(hovered({ work: '#. Look at the [dump¦ valve].' })).toContain('Lets out the air: safe when open.');
  });
  test('a control says that it makes nothing safe', () => {
    expect(hovered({ work: '#. Look at the [stop¦ button].' })).toContain('It moves no point and makes nothing safe.');
  });
  test('where a reference leads, pointed at anywhere in its bracket', () => {
    for (const work of [
      '#. {#wipe} Clean the [scraper].\n#. Repeat [st¦ep #wipe].',
      '#. {#wipe} Clean the [scraper].\n#. Repeat [step #wi¦pe].',
    ])
      expect(hovered({ work })).toContain('reference Step Work 1\n  Work\n  Clean the scraper.');
    expect(hovered({ work: '#. Go to [section Cl¦ose up].' })).toContain(
      'reference Close up\n  Section of 9 steps.\n  1. Refit the side guard.',
    );
  });
  test('a measurement with its limits, and a formula in a table with what it comes to', () => {
    const change = (work: string, row: string) => ({
      front:
        'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle\n    with: feeler gauge\n    limits: table gap',
      work: `${work}\n\n| model | lower | upper |\n|---|---|---|\n| DM-10 | 0.5 mm | 1.5 mm |\n${row}\n\n{#gap}`,
      equipment: [['  DM-20: {family', '  DM-20: {family: drum mixer, drum width: 400 mm}']] as const,
    });
    const row = '| DM-20 | 0.5 mm | 0.4 % of drum width |';
    expect(hovered(change('#. Measure the [scraper g¦ap] with the [feeler gauge].', row))).toContain(
      'Limits: DM-20: 0.5 to 1.6 mm (0.020 to 0.062 in), from 0.4 % of drum width.',
    );
    expect(hovered(change('#. Clean the [scraper].', row.replace('of drum', 'of dr¦um')))).toContain(
      'quantity 0.4 % of drum width\n  scraper gap, 0.5 to 1.6 mm (0.020 to 0.062 in), from 0.4 % of drum width.',
    );
  });
  test('an unread sentence protects nobody', () => {
    expect(hovered({ work: '#. Blo¦rf the [scraper].' })).toContain('It protects nobody.');
  });
  test('a field of the front matter, and one of a register', () => {
    expect(hovered({ front: 'ends w¦ith: closed' })).toBe(
      'field ends with\n  State in which the machine is left.\n  One of: closed, opened and locked out, out of service.',
    );
    expect(hovered({ equipment: [['      scraper: {zone: drum bay}', '      scraper: {zo¦ne: drum bay}']] })).toMatch(/^field zone\n/);
  });
  test('nothing where nothing stands', () => {
    expect(hovered({ body: '@SAFE\n## Background\n\nIt is ¦old.\n\n@CLOSE\n' })).toBe('');
  });
});

describe('a quantity', () => {
  // Source of the values: NIST Special Publication 811 (2008), Appendix B: 1 in = 25.4 mm exactly, 1 lbf·ft = 1.355 818 N·m.
  test('in the other unit, exact or rounded', () => {
    expect(hovered({ work: '#. Move the [scraper] by 1¦ in.' })).toContain('quantity 1 in\n  Length.\n  25 mm (rounded).');
    expect(hovered({ work: '#. Move the [scraper] by 25¦.4 mm.' })).toContain('quantity 25.4 mm\n  Length.\n  1.000 in (exact).');
    expect(hovered({ work: '#. Tighten the two [scraper bolts] to 25¦ N·m, dry.' })).toContain(
      'quantity 25 N·m\n  Torque.\n  18 lbf·ft (rounded).',
    );
  });
  test('with its value in brackets', () => {
    expect(hovered({ work: '#. Move the [scraper] by 10¦ mm [0.39 in].' })).toContain('agrees within the digits written');
    expect(hovered({ work: '#. Move the [scraper] by 10¦ mm [0.5 in].' })).toContain('differs; it should read 0.39 in.');
    expect(hovered({ work: '#. Move the [scraper] by 10¦ mm [5 N].' })).toContain('is another quantity');
  });
});

describe('going there', () => {
  test('to the register, to the step, to the section, to the head', () => {
    expect(gone({ work: '#. Clean the [scr¦aper].' })).toBe('registers/equipment.yaml: scraper: {zone: drum bay}');
    expect(gone({ work: '#. Look at the [dump¦ valve].' })).toContain('relieve: {dump valve: open}');
    expect(gone({ work: '#. {#wipe} Clean the [scraper].\n#. Repeat [step #wi¦pe].' })).toBe(`${FX}: 1. {#wipe} Clean the [scraper].`);
    expect(gone({ work: '#. Go to [section Cl¦ose up].' })).toBe(`${FX}: ## Close up`);
    expect(gone({ front: 'symptoms: [drum scr¦apes]' })).toContain('registers/symptoms.yaml: drum scrapes:');
    expect(gone({ files: { 'guides/FX-500.md': '---\nid: FX-500\ntitle: G\n---\n\n## A\n\n- [FX-1¦00]\n' } })).toBe(`${FX}: id: FX-100`);
    expect(gone({ equipment: [['      scraper: {zone: drum bay}', '      scraper: {zone: dru¦m bay}']] })).toContain(
      'drum bay: {endangered by:',
    );
  });
  test('nowhere from plain words', () => {
    expect(gone({ work: '#. Clean¦ the [scraper].' })).toBe('nowhere');
  });
});

describe('anywhere', () => {
  test('answers at every place of a sample procedure with plain data whose spans hold the place', async () => {
    const { report } = await sample();
    for (const facts of report.facts.procedures.filter(({ head }) => head.id === 'OM-4130'))
      for (let offset = 0; offset <= facts.source.text.length; offset += 3) {
        const said = hover(facts.file, offset, report.facts);
        expect(structuredClone(said)).toEqual(said);
        for (const { span } of said) expect(span.start <= offset && offset <= span.end).toBe(true);
      }
  });
});

describe('fixes at a place', () => {
  test('only those that touch it, bound to the text', () => {
    const { report, text } = assistFixture({ work: '#. Clean the [scrapper].' });
    const at = text.indexOf('scrapper');
    const fixes = quickFixesAt(FX, { start: at, end: at }, report.findings, report.facts);
    expect(fixes.map(({ title, check, files }) => [title, check, files.length])).toEqual([['Write scraper', 'names-known', 1]]);
    expect(quickFixesAt(FX, { start: 0, end: 0 }, report.findings, report.facts)).toEqual([]);
  });
});
