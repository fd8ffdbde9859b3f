/** Editions of a guide in other units: what the writer gave in both stands as it was given, limits come over and are never looser, nothing is lost. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { parseQuantity } from '../../procedures-schema/index.ts';
import type { Book } from '../../publishing/book.ts';
import { inUnits, UNITS_EDITIONS, type UnitsEdition, valuesIn } from '../../publishing/compose/units-edition.ts';
import { checklistOf, guideBook, shortGuide, writeChecklist } from '../../publishing/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
beforeAll(async () => {
  it = await sample();
});

const book = (units: UnitsEdition | undefined, make: typeof guideBook | typeof shortGuide = guideBook): Book => {
  const found = it.report.facts.guides.find(({ head }) => head.id === 'OM-8010') as Parameters<typeof guideBook>[0];
  return make(found, { ...it.input, ...(units === undefined ? {} : { units }) });
};

/** Every word that a book carries, and the units beside its boxes. */
function said(value: unknown, out: string[] = []): string[] {
  if (Array.isArray(value)) for (const one of value) said(one, out);
  else if (value !== null && typeof value === 'object')
    for (const [key, own] of Object.entries(value)) {
      if ((key === 'text' || key === 'unit' || key === 'footLine') && typeof own === 'string') out.push(own);
      else said(own, out);
    }
  return out;
}
const words = (own: Book): string => said(own).join('\n').replaceAll('\u00a0', ' ');

describe('values that the writer gave in both systems', () => {
  test('stand in the order asked for, digit for digit', () => {
    expect(inUnits('2 m', '6.6 ft', 'inch-first')).toBe('6.6 ft (2 m)');
    expect(inUnits('2 m', '6.6 ft', 'metric-first')).toBe('2 m (6.6 ft)');
    expect(inUnits('6.6 ft', '2 m', 'metric-first')).toBe('2 m (6.6 ft)');
    expect(inUnits('2 m', '6.6 ft', 'inch-only')).toBe('6.6 ft');
    expect(inUnits('0.5 to 1.5 mm', '0.020 to 0.059 in', 'metric-only')).toBe('0.5 to 1.5 mm');
    // Neither tells its system: nothing is lost.
    expect(inUnits('about so', 'so many', 'inch-only')).toBe('about so (so many)');
  });

  test('no edition makes a number of its own', () => {
    const amount = fc.tuple(fc.integer({ min: 0, max: 9999 }), fc.nat({ max: 3 })).map(([n, places]) => (n / 10 ** places).toFixed(places));
    const pair = fc.constantFrom(['mm', 'in'], ['m', 'ft'], ['N·m', 'lbf·ft'], ['bar', 'psi'], ['kg', 'lb'], ['L', 'gal']);
    fc.assert(
      fc.property(amount, amount, pair, fc.boolean(), fc.constantFrom(...UNITS_EDITIONS), (a, b, [metric, inch], turned, edition) => {
        const [first, second] = turned ? [`${b} ${inch}`, `${a} ${metric}`] : [`${a} ${metric}`, `${b} ${inch}`];
        const out = inUnits(first, second, edition);
        const kept = edition.endsWith('only') ? [edition === 'inch-only' ? `${b} ${inch}` : `${a} ${metric}`] : [first, second];
        for (const one of kept) expect(out).toContain(one);
        expect(out.match(/\d[\d.]*/g)).toHaveLength(kept.length);
        expect(parseQuantity(out.replace(/ \(.*/, ''))?.unit.system).toBe(edition.startsWith('inch') ? 'inch' : 'metric');
      }),
    );
  });
});

describe('values in the front matter, where text has no marks', () => {
  const printed = (text: string, units?: UnitsEdition): string =>
    valuesIn(text, { ...it.input, ...(units === undefined ? {} : { units }) });
  const text = 'rear of the press, at 2 bar [29 psi] for 5 min, seen from 1 m [3.3 ft]';
  test.each<[UnitsEdition | undefined, string]>([
    [undefined, 'rear of the press, at 2 bar (29 psi) for 5 min, seen from 1 m (3.3 ft)'],
    ['inch-first', 'rear of the press, at 29 psi (2 bar) for 5 min, seen from 3.3 ft (1 m)'],
    ['metric-only', 'rear of the press, at 2 bar for 5 min, seen from 1 m'],
    ['inch-only', 'rear of the press, at 29 psi for 5 min, seen from 3.3 ft'],
  ])('%s', (units, expected) => expect(printed(text, units)).toBe(expected));
  test('what is no second value stays as it was typed', () => {
    for (const typed of ['at 2 bar', 'gauge [left]', '2 bar [left]', '[29 psi]', '']) expect(printed(typed, 'inch-first')).toBe(typed);
    expect(printed('a gap (1 mm [0.04 in])')).toBe('a gap (1 mm; 0.04 in)');
  });
  test('a technician is told in both how far to stand off', () => {
    const guide = it.report.facts.guides.find(({ head }) => head.id === 'OM-8020') as Parameters<typeof guideBook>[0];
    const all = words(guideBook(guide, it.input));
    expect(all).toContain('seen through the open side door from 1 m (3.3 ft)');
    expect(all).not.toMatch(/seen[^\n]* from \d+ m(?! \()/);
  });
});

test('the ends of a computed limit are told with as many decimals, and none that nobody wrote', () => {
  const guide = it.report.facts.guides.find(({ head }) => head.id === 'OM-8020') as Parameters<typeof guideBook>[0];
  const all = words(guideBook(guide, it.input));
  expect(all).toContain('8 to 15 N (1.8 to 3.3 lbf)');
  const decimals = (text: string): number => text.split('.')[1]?.length ?? 0;
  const ranges = [...all.matchAll(/\((\d[\d.]*) to (\d[\d.]*) (?:in|psi|lbf|°F)\)/g)];
  expect(ranges.length).toBeGreaterThan(20);
  // Nought needs no decimals.
  for (const [said, lower = '', upper = ''] of ranges) if (lower !== '0') expect([said, decimals(lower)]).toEqual([said, decimals(upper)]);
});

describe('a guide', () => {
  const LIMIT = /(\d[\d.]*) to (\d[\d.]*) (mm|in|bar|psi)/g;

  test('without an edition is as the house prints it, and says nothing of units on its leaves', () => {
    expect(book(undefined).footLine).not.toMatch(/units/i);
    expect(words(book(undefined))).toContain('0 to 4 mm (0 to 0.15 in)');
  });

  test.each(UNITS_EDITIONS)('%s says so on every leaf, of the guide and of its checklists', (edition) => {
    const mark = edition.startsWith('inch') ? /^Inch units/ : /^Metric units/;
    expect(book(edition).footLine).toMatch(mark);
    expect(book(edition, shortGuide).footLine).toMatch(mark);
  });

  test('in inches first leads with them in the text, at the step, in the tables and beside the box', () => {
    const own = words(book('inch-first'));
    expect(own).toContain('6.6 ft (2 m)');
    expect(own).toContain('0 to 0.15 in (0 to 4 mm)');
    expect(own).toContain('0.15 in (4 mm)');
    expect(own).toContain('133 lbf·ft (180 N·m)');
    expect(said(book('inch-first'))).toContain('in');
    expect(words(book('inch-first', shortGuide))).toContain('0 to 0.15 in (0 to 4 mm)');
  });

  test('in one system alone shows no limit of the other and loses none', () => {
    const limits = (own: Book): string[] => [...words(own).matchAll(LIMIT)].map(([, , , unit]) => unit as string);
    const both = limits(book(undefined));
    const [metric, inch] = [limits(book('metric-only')), limits(book('inch-only'))];
    // What is left of the other system is the scale of tools: "0 to 200 bar", "0 to 50 mm".
    const tools = it.report.facts.registers.tools.flatMap(({ range, size }) => [range ?? '', size ?? '']);
    const left = [...words(book('inch-only')).matchAll(LIMIT)].filter(([, , , unit]) => unit === 'mm' || unit === 'bar');
    for (const [said] of left) expect(tools.join('; ')).toContain(said);
    expect(inch.filter((unit) => unit === 'in' || unit === 'psi').length).toBe(
      both.filter((unit) => unit === 'in' || unit === 'psi').length,
    );
    expect(metric.filter((unit) => unit === 'in' || unit === 'psi')).toEqual([]);
    expect(metric.length).toBe(both.filter((unit) => unit === 'mm' || unit === 'bar').length);
    expect(both.length).toBeGreaterThan(20);
  });
});

test('the checklist as data is no edition: words and numbers of a limit are of one unit', () => {
  const facts = it.report.facts.procedures.find(({ head }) => head.id === 'OM-3140') as Parameters<typeof checklistOf>[0];
  expect(writeChecklist(checklistOf(facts, { ...it.input, units: 'inch-only' }))).toBe(writeChecklist(checklistOf(facts, it.input)));
});
