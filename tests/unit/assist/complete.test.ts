import { describe, expect, test } from 'vitest';
import { complete } from '../../../procedures-schema/assist/index.ts';
import { assistFixture, FX, offered, taken } from '../../support/assist.ts';

describe('in brackets', () => {
  test('names of the family that start so, the likeliest kind first', () => {
    expect(offered({ work: '#. Clean the [s¦' })).toBe(
      'reference\ncontrol start button\ncontrol stop button\ncontrol speed knob\ncover side guard',
    );
  });
  test('a later word counts, and letters in order', () => {
    expect(offered({ work: '#. Tighten the [bolts¦].' }, 1)).toBe('reference\nfastener scraper bolts');
    expect(offered({ work: '#. Read the [agg¦].' }, 1)).toBe('reference\ngauge air gauge');
  });
  test('a measurement of the front matter, a step with an id, a section, a procedure', () => {
    const front = 'measurements:\n  edge gap: {quantity: length, with: feeler gauge, limits: {lower: 1 mm, upper: 2 mm}}';
    expect(offered({ front, work: '#. Measure the [edge¦].' }, 1)).toBe('reference\nmeasurement edge gap');
    expect(offered({ work: '#. {#wipe} Clean the [scraper].\n#. Repeat [step #w¦].' }, 1)).toBe('reference\nstep step #wipe');
    expect(offered({ work: '#. Go to [section cl¦].' }, 1)).toBe('reference\nsection section Close up');
  });
  test('closes the bracket once', () => {
    expect(taken({ work: '#. Clean the [scr¦' }, 'scraper')).toBe('1. Clean the [scraper]¦');
    expect(taken({ work: '#. Clean the [scr¦] well.' }, 'scraper')).toBe('1. Clean the [scraper]¦ well.');
    expect(taken({ work: '#. Clean the [sc¦raper] well.' }, 'scraper')).toBe('1. Clean the [scraper]¦ well.');
  });
  test('a closed bracket before the caret is no bracket', () => {
    expect(offered({ work: '#. Clean the [scraper] with the wor¦' }, 1)).toBe('prose\ntool work gloves');
  });
});

describe('at the start of a step', () => {
  test('instructions from the register', () => {
    expect(offered({ work: '#. Sw¦' }, 2)).toBe(
      'step start\ninstruction Switch off the main isolator\ninstruction Switch on the main isolator',
    );
    expect(taken({ work: '#. Sw¦' }, 'Switch off the main isolator')).toBe('1. Switch off the [main isolator].¦');
  });
  test('a torque from the register', () => {
    expect(taken({ work: '#. Ti¦' }, 'Tighten the two scraper bolts to 25 N·m, dry')).toBe(
      '1. Tighten the two [scraper bolts] to 25 N·m, dry.¦',
    );
  });
  test('a verb of the lexicon leaves room for its object', () => {
    expect(taken({ work: '#. Lubr¦' }, 'Lubricate the')).toBe('1. Lubricate the [¦]');
    expect(taken({ work: '#. {#x} Slack¦' }, 'Slacken the')).toBe('1. {#x} Slacken the [¦]');
  });
});

describe('units, notices, braces', () => {
  test('a unit after a number, those of the text and of the house first', () => {
    expect(offered({ work: '#. Tighten the two [scraper bolts] to 25 N¦' }, 2)).toBe('unit\nunit N\nunit N·m');
    expect(offered({ work: '#. Tighten the two [scraper bolts] to 25 nm¦' }, 1)).toBe('unit\nunit N·m');
    expect(offered({ work: '#. Wait 5 m¦' }, 3)).toContain('unit min');
    expect(offered({ work: '#. Wait 5 ¦' }, 3)).toBe('unit\nunit bar\nunit min\nunit mm');
  });
  test('signal words after a fence', () => {
    expect(offered({ work: ':::¦' })).toBe('notice\nnotice danger\nnotice warning\nnotice caution\nnotice notice');
    expect(offered({ work: ':::ca¦' })).toBe('notice\nnotice caution');
  });
  test('keys that the place knows and that are not there yet', () => {
    expect(offered({ work: '#. {¦' })).toBe('braces\nattribute #\nattribute reads\nattribute because\nattribute by');
    expect(offered({ work: '#. {#a reads="nothing" b¦} Clean the [scraper].' })).toBe('braces\nattribute because\nattribute by');
    expect(offered({ body: '@SAFE\n## Apart {¦}\n\n@CLOSE\n' })).toBe('braces\nattribute #\nattribute aside');
  });
});

describe('below a step', () => {
  test('rows of a limits table: a model that changed with a serial number has its ranges too', () => {
    const change = {
      work: '#. Clean the [scraper].\n\n| model | lower | upper |\n|---|---|---|\n| DM-20¦ | 1 mm | 2 mm |',
      equipment: [['  DM-20: {family', '  DM-20: {family: drum mixer, serials: [{to: 99}, {from: 100}]}']] as const,
    };
    expect(offered(change)).toBe('table\nmodel DM-20\nmodel DM-20 up to 99\nmodel DM-20 from 100');
  });
  test('conditions for what is measured, models, otherwise', () => {
    const front = 'measurements:\n  edge gap: {quantity: length, limits: {lower: 1 mm, upper: 2 mm}}';
    expect(offered({ front, work: '#. Measure the [edge gap].\n   - If it is un¦' })).toBe(
      'branch\ntext If it is under the limit,\ntext If it is under or over the limits,',
    );
    expect(taken({ front, work: '#. Measure the [edge gap].\n   - Oth¦' }, 'Otherwise,')).toBe('   - Otherwise, ¦');
    expect(offered({ work: '#. Clean the [scraper].\n   - For¦' }, 2)).toBe('branch\ntext For the DM-10:\ntext For the DM-20:');
  });
  test('a standing notice, and what may be said outright', () => {
    const files = { 'registers/notices.yaml': 'notices:\n  sharp edges: {word: caution, text: Sharp edges can cut. Wear gloves.}\n' };
    expect(offered({ files, work: ':::caution {use="sh¦"}\n:::' }, 1)).toBe('braces\nvalue sharp edges');
    expect(offered({ work: '#. {reads="cleans s¦"} Clean the [scraper].' }, 1)).toBe('braces\nvalue cleans scraper');
  });
  test('sections of another procedure after its number', () => {
    const files = {
      'procedures/FX-110.md': '---\nid: FX-110\ntitle: Other\nmodels: [DM-10]\n---\n\n## Look round\n\n1. Look at the [air hose].\n',
    };
    expect(offered({ files, work: '#. See [FX-110: L¦].' }, 1)).toBe('reference\nsection FX-110: Look round');
  });
});

describe('in front matter', () => {
  test('fields that are not there yet', () => {
    expect(offered({ front: 'ro¦' }, 1)).toBe('front matter\nfield roles');
    expect(offered({ front: 'pe¦' }, 1)).toBe('front matter');
  });
  test('values of a field from the schema, replacing what stands there', () => {
    expect(offered({ front: 'starts with: ¦closed' }, 3)).toBe('front matter\nvalue live\nvalue closed\nvalue opened and locked out');
    expect(taken({ front: 'starts with: ¦opened and locked out' }, 'closed')).toBe('starts with: closed¦');
  });
  test('registered names in a list, without those that stand there', () => {
    expect(offered({ front: 'models: [DM-10, ¦]' }, 2)).toBe('front matter\nvalue DM-20');
    expect(offered({ front: 'tools:\n  - torque wrench\n  - ¦' }, 3)).toBe(
      'front matter\nvalue 13 mm wrench\nvalue feeler gauge\nvalue drum wedge',
    );
    expect(offered({ front: 'tools:\n  - name: fee¦' }, 2)).toBe('front matter\nvalue feeler gauge');
    expect(offered({ front: 'protection:\n  - ¦' }, 2)).toBe('front matter\nvalue work gloves\nvalue safety glasses');
  });
  test('below a measurement', () => {
    const field = (line: string) => `measurements:\n  edge gap:\n    quantity: length\n${line}`;
    expect(offered({ front: field('    w¦') }, 1)).toBe('front matter\nfield with');
    expect(offered({ front: field('    with: ¦') }, 2)).toBe('front matter\nvalue torque wrench\nvalue feeler gauge');
    expect(offered({ front: field('    limits: {l¦}') }, 1)).toBe('front matter\nfield lower');
    expect(offered({ front: field('    limits:\n      D¦') }, 2)).toBe('front matter\nvalue DM-10\nvalue DM-20');
  });
});

describe('in registers', () => {
  const EQUIPMENT = 'registers/equipment.yaml';
  test('fields and names of the family', () => {
    expect(offered({ equipment: [['      scraper: {zone: drum bay}', '      scraper: {zone: ¦}']] }, 1)).toBe('register\nvalue drum bay');
    expect(offered({ equipment: [['      scraper: {zone: drum bay}', '      scraper: {ho¦}']] }, 1)).toBe('register\nfield holds');
    expect(offered({ equipment: [['      side guard:', '      side guard: {fasteners: ¦}']] }, 2)).toBe(
      'register\nvalue guard screws\nvalue scraper bolts',
    );
  });
  test('a path with no schema offers nothing', () => {
    const { library } = assistFixture();
    expect(complete('registers/else.yaml', 0, '', library).items).toEqual([]);
    expect(complete(EQUIPMENT, 0, '', library).items.map(({ label }) => label)).toEqual(['families', 'models', 'options']);
  });
});

describe('in a guide', () => {
  test('documents, and no things of the machine', () => {
    const files = { 'guides/FX-500.md': '---\nid: FX-500\ntitle: G\n---\n\n## A\n\n- [¦\n' };
    expect(offered({ files })).toBe('reference\nprocedure FX-100');
    expect(offered({ files: { 'guides/FX-500.md': '---\nid: FX-500\nbin¦\n---\n' } })).toBe('front matter\nfield binding');
  });
});

describe('anywhere', () => {
  test('answers at every place of a text, half written or whole, with plain data and a range inside the text', () => {
    const { library, text } = assistFixture({ work: ':::warning\nHot.\n:::\n\n#. {#a} Clean the [scraper] (1) to 5 mm [0.2 in].' });
    for (let offset = 0; offset <= text.length; offset++)
      for (const typed of [text, text.slice(0, offset)]) {
        const answer = complete(FX, offset, typed, library);
        expect(structuredClone(answer)).toEqual(answer);
        for (const { replace } of answer.items) {
          expect(replace.start).toBeLessThanOrEqual(offset);
          expect(replace.end).toBeGreaterThanOrEqual(offset);
          expect(replace.end).toBeLessThanOrEqual(typed.length);
        }
      }
  });
});
