import { describe, expect, test } from 'vitest';
import { marginOf } from '../../../procedures-schema/assist/index.ts';
import { assistFixture, marginOfFixture, marginText } from '../../support/assist.ts';
import { sample } from '../../support/sample.ts';

describe('the margin of the fixture', () => {
  test('reads the locking out in words, with the required state', () => {
    expect(marginText(marginOfFixture({ work: '#. Clean the [scraper].' }), 'Make safe')).toBe(
      `Make safe 1 live to live
  read tells people
Make safe 2 live to live
  read* stops the machine with stop button
Make safe 3 live to live
  read* holds drum weight: drum pin in
Make safe 4 live to live
  read* isolates supply: main isolator off
Make safe 5 live to live
  read* isolates air: air valve shut
Make safe 6 live to live
  read* puts a lock on main isolator and air valve; puts a tag on main isolator and air valve
Make safe 7 live to cut
  read* lets out air: dump valve open
Make safe 8 cut to cut
  read* sends people clear
Make safe 9 cut to cut
  read* tries out with start button
10 cut to safe
  read* shows dead by air gauge
11 safe
  hands in drum bay: side guard
  read opens or takes off side guard`,
    );
  });

  test('hands, an unread sentence and a name to settle', () => {
    const margin = marginOfFixture({ work: '#. Clean the [scraper].\n#. Blorf the [scraper].\n#. Clean the [scrapper].' });
    const [clean, blorf, wrong] = margin.lines.filter(({ section }) => section === 'Work');
    expect(clean?.hands).toEqual([{ zone: 'drum bay', things: ['scraper'], sources: ['supply', 'air', 'drum weight'] }]);
    expect(blorf?.readings[0]?.status).toBe('unread');
    expect(blorf?.readings[0]?.why).toBeTruthy();
    expect(wrong?.settle.map(({ name, nearest }) => [name, ...nearest])).toEqual([['scrapper', 'scraper']]);
    expect(margin.settle).toHaveLength(1);
    // Nothing is proved past a sentence that was not read.
    expect(new Set(margin.lines.map(({ before }) => before))).toEqual(new Set(['live', 'unknown']));
  });

  test('a step that measures has its limits, formulas worked out by model and serial number', () => {
    const change = {
      front:
        'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle\n    with: feeler gauge\n    limits: table gap',
      work: '#. Measure the [scraper gap] with the [feeler gauge].\n   - If it is within the limits, go on.\n   - Otherwise stop and call the works office.\n\n| model | lower | upper |\n|---|---|---|\n| DM-10 | 0.5 mm | 1.5 mm |\n| DM-20 | 0.5 mm | 0.4 % of drum width |\n\n{#gap}',
      equipment: [
        ['  DM-20: {family', '  DM-20: {family: drum mixer, serials: [{to: 99, drum width: 300 mm}, {from: 100, drum width: 400 mm}]}'],
      ] as const,
    };
    const limitsIn = (variant?: string) =>
      marginOfFixture(change, variant).lines.flatMap(({ measured }) => measured.map(({ name, limits }) => [name, ...limits]));
    expect(limitsIn()).toEqual([
      [
        'scraper gap',
        'DM-10: 0.5 to 1.5 mm (0.020 to 0.059 in)',
        'DM-20 up to 99: 0.5 to 1.2 mm (0.020 to 0.047 in), from 0.4 % of drum width',
        'DM-20 from 100: 0.5 to 1.6 mm (0.020 to 0.062 in), from 0.4 % of drum width',
      ],
    ]);
    expect(limitsIn('DM-20 from 100')).toEqual([['scraper gap', '0.5 to 1.6 mm (0.020 to 0.062 in), from 0.4 % of drum width']]);
  });

  test('substeps, branches and lines have their own entries', () => {
    const margin = marginOfFixture({
      work: '#. Do this:\n   #. Clean the [scraper].\n   #. Clean the [air hose].\n#. Clean the\n   [scraper].',
    });
    expect(
      margin.lines.filter(({ section }) => section === 'Work').map((line) => [line.label, line.depth, line.endLine - line.line]),
    ).toEqual([
      ['1', 0, 2],
      ['1a', 1, 0],
      ['1b', 1, 0],
      ['2', 0, 1],
    ]);
  });

  test('a reading that was accepted is told by its key, wherever the sentence stands', () => {
    const first = assistFixture({ work: '#. Clean the [scraper].' });
    const keys = marginOf(first.facts, first.library).lines.flatMap((line) => line.readings.map(({ key }) => key));
    const second = assistFixture({ work: '#. Clean the [air hose].\n#. Clean the [scraper].' });
    const readings = marginOf(second.facts, second.library, undefined, new Set(keys)).lines.flatMap((line) => line.readings);
    expect(readings.filter(({ accepted }) => !accepted).map(({ text }) => text)).toEqual(['Clean the air hose.']);
  });
});

describe('the margin of the sample', () => {
  test('is plain data, has one entry a step, and no variant is worse than all together', async () => {
    const { report } = await sample();
    const rank = { unknown: 4, live: 3, cut: 2, open: 1, safe: 0 };
    for (const facts of report.facts.procedures) {
      const all = marginOf(facts, report.facts);
      expect(structuredClone(all)).toEqual(all);
      expect(all.lines).toHaveLength(facts.read.labels.steps.length);
      expect(all.lines.flatMap(({ settle }) => settle)).toEqual([]);
      for (const { name } of all.variants) {
        const one = marginOf(facts, report.facts, name);
        one.lines.forEach((line, index) => {
          if (line.before !== 'unknown') expect(rank[line.before]).toBeLessThanOrEqual(rank[all.lines[index]?.before ?? 'unknown']);
        });
      }
    }
  });

  test('without the option its air is no source', async () => {
    const { report } = await sample();
    const facts = report.facts.procedures.find(({ head }) => head.id === 'OM-5130');
    if (!facts) throw new Error('the sample has no OM-5130');
    const touched = (variant: string) =>
      marginOf(facts, report.facts, variant).lines.flatMap(({ hands }) => hands.flatMap(({ sources }) => sources));
    expect(touched('LR-600 with pop-up transfer')).toContain('line air');
    expect(facts.machines.map(({ variant }) => variant.name)).toContain('LR-600 with pop-up transfer');
  });
});
