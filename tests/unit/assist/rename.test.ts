import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { aliasAt, applyFileEdits, rename, renameAlias, textsOf, usesOf } from '../../../procedures-schema/assist/index.ts';
import { inFormOf, plural, singular, takesAn } from '../../../procedures-schema/assist/written-form.ts';
import { assistFixture, FX } from '../../support/assist.ts';
import { allNamed, differences, renaming, thereAndBack } from '../../support/assist-rename.ts';
import { sample } from '../../support/sample.ts';

const part = (name: string) => ({ kind: 'thing', thing: 'part', name, family: 'drum mixer' }) as const;
const fastener = (name: string) => ({ kind: 'thing', thing: 'fastener', name, family: 'drum mixer' }) as const;

describe('how a name was written', () => {
  test.each([
    ['scraper', 'scraper', 'wiper', 'wiper'],
    ['Scraper', 'scraper', 'wiper', 'Wiper'],
    ['SCRAPER', 'scraper', 'wiper', 'WIPER'],
    ['scrapers', 'scraper', 'wiper', 'wipers'],
    ['guard screw', 'guard screws', 'cover bolts', 'cover bolt'],
    ['Guard  screws', 'guard screws', 'cover bolts', 'Cover bolts'],
    ['key', 'key', 'box', 'box'],
    ['keys', 'key', 'box', 'boxes'],
    ['side\n   guard', 'side guard', 'end plate', 'end plate'],
    ['mixer', 'drum mixer', 'kneader', undefined],
  ])('%s of %s becomes, for %s, %s', (written, name, to, expected) => {
    expect(inFormOf(written, name, to)).toBe(expected);
  });
  test('plurals and singulars are each other of the words of the trade', () => {
    for (const word of ['valve', 'box', 'key', 'battery', 'brush', 'tooth', 'foot', 'knife', 'bus'])
      expect(singular(plural(word))).toBe(word);
  });
  test.each([
    ['air hose', true],
    ['hour meter', true],
    ['unit', false],
    ['scraper', false],
    ['LED', undefined],
    ['13 mm wrench', undefined],
  ])('an before %s: %s', (name, expected) => {
    expect(takesAn(name)).toBe(expected);
  });
});

describe('a registered name', () => {
  test('in the register, in brackets, in plain words, over a line break, with its article', () => {
    const { report } = assistFixture({
      work: '#. Clean the [scraper] with a lint-free cloth.\n#. Look at the scraper for a scraper\n   mark.\n#. Loosen the two [scraper bolts].',
    });
    const shown = renaming(report, part('scraper'), 'edge wiper').split('\n');
    expect(shown).toContain('+1. Clean the [edge wiper] with a lint-free cloth.');
    expect(shown).toContain('+2. Look at the edge wiper for an edge wiper');
    expect(shown).toContain('+      scraper bolts: {count: 2, torque: 25 N·m, condition: dry, of: edge wiper, zone: drum bay}');
    expect(shown).toContain('+  scraper blade kit: {renews: edge wiper, models: [DM-10, DM-20]}');
    // Another registered name that holds the word stays.
    expect(shown.some((line) => line.startsWith('+') && line.includes('edge wiper bolts'))).toBe(false);
  });

  test('an alias stays', () => {
    const { report } = assistFixture();
    const shown = renaming(report, { kind: 'thing', thing: 'machine', name: 'drum mixer', family: 'drum mixer' }, 'drum kneader');
    expect(shown).toContain('+  drum kneader:');
    expect(shown).not.toContain('kneader that it will be stopped');
  });

  test('quotes where YAML needs them', () => {
    const { report } = assistFixture();
    expect(renaming(report, part('scraper'), '#2 scraper, left')).toContain('of: "#2 scraper, left",');
  });
});

describe('another name of a thing', () => {
  const MIXER = { kind: 'thing', thing: 'machine', name: 'drum mixer', family: 'drum mixer' } as const;
  const at = (work: string) => {
    const { library, path, offset } = assistFixture({ work });
    return aliasAt(path, offset, library);
  };
  test('is told where it stands, in words and in the register', () => {
    expect(at('#. Tell those at the mi¦xer that it will be stopped.')).toEqual({ of: MIXER, alias: 'mixer' });
    expect(at('#. Walk round the drum mi¦xer.')).toBeUndefined();
    expect(at('#. Clean the [scra¦per].')).toBeUndefined();
  });
  test('gets other words everywhere, and the first name keeps its own', () => {
    const { library } = assistFixture({ work: '#. Walk round the drum mixer. Look at the Mixer from outside.' });
    const answer = renameAlias({ of: MIXER, alias: 'mixer' }, 'kneader', library);
    const lines = answer.ok ? answer.files.flatMap((file) => file.lines.flatMap(({ after }) => after)) : [answer.reason];
    expect(lines).toContain('1. Walk round the drum mixer. Look at the Kneader from outside.');
    expect(lines.some((line) => /also: \[kneader\]/.test(line))).toBe(true);
    expect(lines.some((line) => line.includes('drum kneader'))).toBe(false);
  });
  test('is refused where it is a name already', () => {
    const { library } = assistFixture();
    expect(renameAlias({ of: MIXER, alias: 'mixer' }, 'drum mixer', library)).toMatchObject({ ok: false });
    expect(renameAlias({ of: MIXER, alias: 'mixer' }, 'scraper', library)).toMatchObject({ ok: false });
  });
  test('counts as a use of the thing', () => {
    const { library } = assistFixture({ work: '#. Tell those at the mixer.' });
    expect(usesOf(MIXER, library).some(({ text }) => text.includes('those at the mixer'))).toBe(true);
  });
});

describe('refusals', () => {
  const { report } = assistFixture({
    body: '@SAFE\n## Work\n\n#. {#a} Clean the [scraper].\n#. {#b} Clean the [air hose].\n\n@CLOSE\n## Leak test {aside}\n\n#. Do the leak test.\n',
  });
  test.each([
    ['another part of the machine', part('scraper'), 'air hose', '"air hose" is the part air hose already'],
    ['a tool', part('scraper'), 'Torque Wrench', 'is the tool torque wrench already'],
    ['an alias of the family', part('scraper'), 'mixer', 'is the machine drum mixer already'],
    ['a section', part('scraper'), 'Make safe', 'is the section Make safe already'],
    ['its own name', part('scraper'), 'scraper', 'That is its name already.'],
    ['a bracket', part('scraper'), 'scr]aper', 'cannot stand in a name'],
    ['a quantity', part('scraper'), '5 mm', 'read as a quantity'],
    ['a reference', part('scraper'), 'step edge', 'read as a reference'],
    ['nothing', part('scraper'), '  ', 'at least one letter'],
    ['an id that is there', { kind: 'step', file: FX, id: 'a' }, 'b', 'has the id "b" already'],
    ['an id with capitals', { kind: 'step', file: FX, id: 'a' }, 'Edge', 'small letters'],
    ['a number of another pattern', { kind: 'document', number: 'FX-100' }, 'OM-1', 'does not follow the house pattern'],
    ['a cited document', { kind: 'document', number: 'FX-100' }, 'FX-900', 'document from elsewhere'],
    ['a title of prose', { kind: 'section', file: FX, id: 'make-safe', title: 'Make safe' }, 'Background', 'holds no steps'],
    ['what is nowhere', part('no such thing'), 'thing', 'stands nowhere'],
    [
      'a title that says the test which the register asks for',
      { kind: 'section', file: FX, id: 'leak-test', title: 'Leak test' },
      'Look at it',
      'asks for a leak test',
    ],
  ] as const)('%s', (_, named, to, reason) => {
    expect(renaming(report, named, to)).toMatch(/^no: /);
    expect(renaming(report, named, to)).toContain(reason);
  });
});

describe('what renaming leaves as it was', () => {
  const rich = () =>
    assistFixture({
      front: `measurements:
  edge gap: {quantity: length, at: between scraper and drum, with: feeler gauge, limits: table gap-limits}
roles: [second person]
tools: [torque wrench, feeler gauge, 13 mm wrench]
parts: [scraper blade kit]
protection: [work gloves]`,
      body: `@SAFE
## Set the edge

:::caution
The scraper has sharp edges. It can cut your fingers. Wear the [work gloves].
:::

#. Put on the [work gloves].
#. {#loosen} Loosen the two [scraper bolts] with the [13 mm wrench].
#. Renew the scraper as in [Renew].
#. {#measure} Measure the [edge gap] with the [feeler gauge].
   - If it is within the limits, go on with [step #tight].
   - If it is under or over the limits, move the [scraper] by hand.
#. Repeat [step #measure] until the [edge gap] is within the limits.
#. {#tight} Tighten the two [scraper bolts] to 25 N·m with the [torque wrench], dry.
#. Do [FX-110] and come back.

@CLOSE
## Renew {aside}

#. Take out the [scraper].
#. Put a new [scraper blade kit] in.

Limits of the edge {#gap-limits}

| model | edge gap lower | edge gap upper |
|---|---|---|
| DM-10 | 0.2 mm | 0.4 mm |
| DM-20 | 0.3 mm | 0.5 mm |
`,
      files: {
        'procedures/FX-110.md':
          '---\nid: FX-110\ntitle: Look at the air hose\nrevision: "A"\ndate: 2026-01-15\nmodels: [DM-10]\nstarts with: closed\nends with: closed\ntools: none\nconsumables: none\nparts: none\n---\n\n## Look\n\n1. Look at the [air hose] from outside.\n2. See [FX-100: Close up].\n',
        'guides/FX-500.md':
          '---\nid: FX-500\ntitle: Mixer guide\nrevision: "A"\ndate: 2026-01-15\nmodels: [DM-10, DM-20]\n---\n\nFor the DM-10.\n\n## Opening\n\n- [FX-100]\n- [FX-110]\n',
      },
    });

  test('findings, readings and bands, whatever is renamed', () => {
    const { report } = rich();
    // A fixture that is proved: a change in what touches what would show.
    expect(report.findings.filter(({ severity }) => severity !== 'advice')).toEqual([]);
    const things = allNamed(report);
    expect(things.length).toBeGreaterThan(40);
    const word = fc.constantFrom('quern', 'thole', 'gudgeon', 'spline', 'yoke', 'urn plate', 'oxbow pin', 'trunnion');
    fc.assert(
      fc.property(fc.constantFrom(...things), word, fc.constantFrom('', 'x', 'z'), (named, base, tail) => {
        const id = named.kind === 'step' || named.kind === 'table' || named.kind === 'figure';
        const to = named.kind === 'document' ? 'FX-777' : id ? `${base.replace(' ', '-')}${tail}` : `${base}${tail}`;
        if (named.kind === 'section' && ['When to use', 'Background', 'Records'].includes(named.title)) return;
        expect(differences(report, [], named, to), `${JSON.stringify(named)} to ${to}`).toBe('');
      }),
      { numRuns: 60 },
    );
  });

  test('words of the front matter that say where hands go', () => {
    const shown = renaming(rich().report, part('scraper'), 'wiper');
    expect(shown).toContain('at: between wiper and drum');
    expect(shown).toContain('+3. Renew the wiper as in [Renew].');
  });

  test('there and back is the text as it was', () => {
    const { report, texts } = rich();
    for (const named of allNamed(report)) {
      if (named.kind === 'document' || (named.kind === 'thing' && named.thing === 'document')) continue;
      expect(thereAndBack(report, named, 'quern-plate'), JSON.stringify(named)).toEqual(
        Object.fromEntries(texts.map(({ path, text }) => [path, text])),
      );
    }
  });

  test('the sample keeps its findings and readings', async () => {
    const { report, paths } = await sample();
    const F = 'live-roller conveyor';
    for (const [named, to] of [
      [{ kind: 'thing', thing: 'point', name: 'main isolator', family: F }, 'supply disconnect'],
      [{ kind: 'thing', thing: 'source', name: 'mains supply', family: 'vertical baler' }, 'line current'],
      [{ kind: 'thing', thing: 'tool', name: 'vernier caliper' }, 'slide gauge'],
      [{ kind: 'thing', thing: 'model', name: 'LR-600' }, 'LR-650'],
      [{ kind: 'document', number: 'OM-4110' }, 'OM-4111'],
    ] as const)
      expect(differences(report, paths, named, to), to).toBe('');
  });
});

describe('uses', () => {
  test('registers first, each with its line', () => {
    const { report } = assistFixture({ work: '#. Loosen the two [scraper bolts].' });
    expect(usesOf(fastener('scraper bolts'), report.facts).map(({ file, role, text }) => `${file} ${role} ${text}`)).toEqual([
      'registers/equipment.yaml definition scraper bolts: {count: 2, torque: 25 N·m, condition: dry, of: scraper, zone: drum bay}',
      'procedures/FX-100.md reference 1. Loosen the two [scraper bolts].',
    ]);
  });
  test('a base that changed meanwhile is told, and nothing is done', () => {
    const { report } = assistFixture();
    const answer = rename(part('scraper'), 'wiper', report.facts);
    if (!answer.ok) throw new Error(answer.reason);
    const texts = new Map(textsOf(report.facts));
    texts.set('registers/equipment.yaml', `${texts.get('registers/equipment.yaml')}\n`);
    expect(applyFileEdits(answer.files, texts)).toEqual({ ok: false, stale: ['registers/equipment.yaml'] });
  });
});
