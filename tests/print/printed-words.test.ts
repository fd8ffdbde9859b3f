/** The words that a print carries besides the writer's own, in every language there is: nothing missing, and no guide in two languages. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Book } from '../../publishing/book.ts';
import { guideBook, shortGuide } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource } from '../../publishing/layout/index.ts';
import { PRINTED_LANGUAGES, printedWords } from '../../publishing/printed-words/index.ts';
import { bare, blockTexts } from '../support/placed-text.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
beforeAll(async () => {
  it = await sample();
});

type Guide = Parameters<typeof guideBook>[0];
const guide = (): Guide => it.report.facts.guides.find(({ head }) => head.id === 'OM-8010') as Guide;
const withHead = (language: string): Guide => ({ ...guide(), head: { ...guide().head, language } });
const inLanguage = (language: string, make: typeof guideBook | typeof shortGuide = guideBook): Book => make(withHead(language), it.input);

/** Every sentence of a table, by its place in it. */
function sentences(value: unknown, at = ''): (readonly [string, string])[] {
  if (typeof value === 'string') return [[at, value]];
  if (typeof value === 'function') return [[at, String(value(2, 3))]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, own]) => sentences(own, `${at}.${key}`));
}

const places = (said: string): string[] => (said.match(/\{\w+\}/g) ?? []).sort();
/** All that a screen reader would read, in order. */
const readOut = (book: Book): string =>
  blockTexts(drawBook(layoutBook(book, newFontSource(it.fonts).shaper)))
    .map(({ text }) => bare(text))
    .join('|');
const others = PRINTED_LANGUAGES.filter((language) => language !== 'en');

describe.each(others)('the words in "%s"', (language) => {
  const own = new Map(sentences(printedWords(language)));
  const english = sentences(printedWords('en'));

  test('are there one for one, with the same values in them', () => {
    expect([...own.keys()].sort()).toEqual(english.map(([at]) => at).sort());
    for (const [at, said] of english) {
      expect(places(own.get(at) ?? ''), at).toEqual(places(said));
      expect(own.get(at)?.trim(), at).not.toBe('');
    }
  });

  test('are not English that was left over', () => {
    for (const [at, said] of english) if (/[a-z]{2,} [a-z]{2,}/.test(said)) expect(own.get(at), at).not.toBe(said);
  });

  test('are those of every page, and no English sentence of the printer stands among them', () => {
    for (const make of [guideBook, shortGuide] as const) {
      const plain = readOut(inLanguage('en', make));
      const said = readOut(inLanguage(language, make));
      // What the printer says in English in this very book, short words left out that a writer may use too.
      const printed = english.filter(([, one]) => one.length > 14 && places(one).length === 0 && plain.includes(bare(one)));
      expect(printed.length).toBeGreaterThan(make === guideBook ? 40 : 5);
      for (const [at, one] of printed) {
        expect(said.includes(bare(one)), `${at}: ${one}`).toBe(false);
        expect(said.includes(bare(own.get(at) ?? '')), `${at}: ${own.get(at)}`).toBe(true);
      }
    }
  });
});

test("on a German page stands no word that is neither the writer's nor of the German words", () => {
  const wordsIn = (text: string): readonly string[] => (text.match(/\p{L}{2,}/gu) ?? []).map((word) => word.toLowerCase());
  const drawings = [...it.input.figures.values()].flatMap((figure) => (figure.kind === 'svg' ? [figure.source] : []));
  const known = new Set([...it.texts.map(({ text }) => text), ...drawings].flatMap(wordsIn));
  for (const [, said] of sentences(printedWords('de'))) for (const word of wordsIn(said)) known.add(word);
  const roman = /^[ivxl]+$/;
  for (const make of [guideBook, shortGuide] as const) {
    const ops = drawBook(layoutBook(inLanguage('de', make), newFontSource(it.fonts).shaper)).pages.flatMap((page) => page.ops);
    // A word that is divided at the end of a line goes on in the next piece.
    const said = ops.map((op) => (op.op === 'text' ? `${op.run.map(({ texts }) => texts.join('')).join('')} ` : '')).join('');
    const texts = wordsIn(said.replace(/\u00ad\s*/g, ''));
    expect(texts.length).toBeGreaterThan(3000);
    expect([...new Set(texts.filter((word) => !known.has(word) && !roman.test(word)))]).toEqual([]);
  }
});

describe('the language of a print', () => {
  test('is told with or without a region, and is English where there are no words of it', () => {
    expect(printedWords('de-AT')).toBe(printedWords('de'));
    expect(printedWords('DE')).toBe(printedWords('de'));
    expect(printedWords('en-US')).toBe(printedWords('en'));
    expect(printedWords('xx')).toBe(printedWords('en'));
    expect(printedWords('constructor')).toBe(printedWords('en'));
  });

  test('is that of the guide, else that of the house', () => {
    const { library } = it.input;
    const registers = { ...library.registers, house: { ...library.registers.house, language: 'de' } };
    const german = { ...it.input, library: { ...library, registers } };
    const { language: _, ...head } = guide().head;
    for (const make of [guideBook, shortGuide] as const) {
      const own = inLanguage('de', make);
      expect(own.language).toBe('de');
      const around = (book: Book): readonly string[] => [book.language, ...book.chapters.map(({ title }) => title)];
      expect(around(make({ ...guide(), head }, german))).toEqual(around(own));
      expect(around(make(withHead('en'), german))).toEqual(around(inLanguage('en', make)));
    }
  });
});
