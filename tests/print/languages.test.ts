/** A guide whose printed words are in another language than its text: each stretch is divided, quoted and tagged by the language it is in. */
import type { PDFDict } from 'pdf-lib';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Book } from '../../publishing/book.ts';
import { type ComposeInput, guideBook, printBook, procedureBook, shortGuide } from '../../publishing/index.ts';
import { hyphenate } from '../../publishing/layout/hyphenate.ts';
import { type DrawnBook, drawBook, layoutBook, type NodeId, newFontSource } from '../../publishing/layout/index.ts';
import { eachElement, RawPdf } from '../support/raw-pdf.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
beforeAll(async () => {
  it = await sample();
});

const guideNamed = (id: string) => {
  const guide = it.report.facts.guides.find(({ head }) => head.id === id);
  if (guide === undefined) throw new Error(`${id} is gone`);
  return guide;
};
const drawn = (book: Book): DrawnBook => drawBook(layoutBook(book, newFontSource(it.fonts).shaper));

/** What is printed of each element, pieces in the order they are drawn, with the language that the structure gives it. */
function said({ pages, structure }: DrawnBook, whole: string): readonly { readonly text: string; readonly language: string }[] {
  const languageOf = (node: NodeId): string => {
    const one = structure.nodes[node];
    return one === undefined ? whole : (one.language ?? languageOf(one.parent));
  };
  const out = new Map<NodeId, string>();
  for (const { ops } of pages) {
    let open: NodeId | undefined;
    for (const op of ops)
      if (op.op === 'begin') open = op.node;
      else if (op.op === 'end') open = undefined;
      else if (op.op === 'text' && open !== undefined && structure.nodes[open]?.role !== 'Figure')
        out.set(open, (out.get(open) ?? '') + op.run.map(({ text }) => text).join(''));
  }
  return [...out].map(([node, text]) => ({ text, language: languageOf(node) }));
}

const divisions = (text: string): readonly (readonly [string, string])[] =>
  [...text.matchAll(/(\p{L}+)\u00ad\s*(\p{Ll}+)/gu)].map(([, before = '', after = '']) => [before, after]);
const cutBy = (before: string, after: string, language: string): boolean => {
  const parts = hyphenate(before + after, language);
  return parts.some((_, index) => parts.slice(0, index + 1).join('') === before);
};

const german = (input: ComposeInput = it.input, language?: string): Book => {
  const guide = guideNamed('OM-8010');
  const own = language === undefined ? guide : { ...guide, head: { ...guide.head, language } };
  return guideBook(own, input, { language: 'de', paper: 'a5', large: true });
};

describe('German words around an English text', () => {
  let pieces: ReturnType<typeof said> | undefined;
  const inGerman = (): ReturnType<typeof said> => {
    pieces ??= said(drawn(german()), 'de');
    return pieces;
  };

  test('each word is divided by the patterns of the language that its element is tagged with', () => {
    const cuts = inGerman().flatMap(({ text, language }) => divisions(text).map(([before, after]) => ({ before, after, language })));
    for (const language of ['de', 'en']) expect(cuts.filter((cut) => cut.language === language).length, language).toBeGreaterThan(0);
    for (const { before, after, language } of cuts)
      expect([language, before, after, cutBy(before, after, language)]).toEqual([language, before, after, true]);
  });

  test.each([
    ['de', /^Wie man dieses Heft benutzt$/],
    ['de', /^Was Sie brauchen$/],
    // Printed words and text in one line.
    ['de', /^Tabelle$/],
    ['de', /^\(Seite/],
    ['en', /^rod wear/],
    ['en', /Put your lock and tag on the main isolator/],
    ['en', /^Site lockout rules, local codes and licensed/],
  ])('%s: %s', (language, words) => {
    const found = inGerman().filter(({ text }) => words.test(text.replace(/\u00ad\s*/g, '').trim()));
    expect(new Set(found.map((one) => one.language))).toEqual(new Set([language]));
  });

  test('what a guide says itself is in the language that the guide gives', () => {
    const book = german(it.input, 'de');
    const all = said(drawn(book), book.language);
    const found = all.filter(({ text }) => text.startsWith('Site lockout rules, local codes'));
    expect(found.map(({ language }) => language)).toEqual(['de']);
    const text = all.filter((one) => one.text.includes('Put your lock and tag on the'));
    expect(new Set(text.map(({ language }) => language))).toEqual(new Set(['en']));
  });

  test('the file says so too, element by element', async () => {
    const book = german();
    const raw = await RawPdf.of(printBook(book, it.fonts).bytes);
    const given = [...eachElement(raw.structure())].map(({ role, dict }) => [role, raw.text(dict, 'Lang')] as const);
    expect(raw.text(raw.catalog, 'Lang')).toBe('de');
    // A chapter is text; printed words in it are the exceptions.
    for (const [role, language] of given) if (role === 'Sect') expect(language).toBe('en');
    expect(new Set(given.filter(([role]) => role === 'Span').map(([, language]) => language))).toEqual(new Set(['de']));
  });

  test('a bookmark names its heading, which says what language both are in', async () => {
    const book = german();
    const raw = await RawPdf.of(printBook(book, it.fonts).bytes);
    const lang = (element: PDFDict | undefined): string | undefined =>
      element === undefined ? undefined : (raw.text(element, 'Lang') ?? lang(raw.dict(element, 'P')));
    const found: (readonly [title: string, language: string | undefined])[] = [];
    const walk = (entry: PDFDict | undefined): void => {
      for (let one = entry; one !== undefined; one = raw.dict(one, 'Next')) {
        if (raw.text(one, 'Title') !== undefined) found.push([raw.text(one, 'Title') as string, lang(raw.dict(one, 'SE'))]);
        walk(raw.dict(one, 'First'));
      }
    };
    walk(raw.dict(raw.catalog, 'Outlines'));
    const wanted = found.map(([title]) => [title, book.spoken?.get(title)?.[0]?.language ?? 'en'] as const);
    expect(found).toEqual(wanted);
    for (const language of ['de', 'en']) expect(found.filter((one) => one[1] === language).length, language).toBeGreaterThan(8);
    // In one language nobody need be told.
    const plain = printBook(guideBook(guideNamed('OM-8010'), it.input), it.fonts).bytes;
    expect(Buffer.from(plain).toString('latin1')).not.toContain('/SE ');
  });

  test('quotation marks are those of the words they stand around', () => {
    const procedures = it.report.facts.procedures.map((facts) => ({ ...facts, head: { ...facts.head, title: 'The "stop" plate' } }));
    const library = { ...it.input.library, procedures };
    const shown = JSON.stringify(german({ ...it.input, library }));
    expect(shown).toContain('The “stop” plate');
    expect(shown).toContain('„Vom Fehlerbild zur Anweisung“');
  });
});

test('no mark of the composing stays in a book', () => {
  const guide = guideNamed('OM-8010');
  const facts = it.report.facts.procedures[0] as (typeof it.report.facts.procedures)[number];
  const earlier = it.report.facts;
  for (const book of [
    german(),
    german(it.input, 'de'),
    shortGuide(guide, it.input, { language: 'de' }),
    procedureBook(facts, { ...it.input, model: facts.head.models[0]?.name ?? '' }, { language: 'de', signOff: true }),
    guideBook(guide, { ...it.input, earlier }, { language: 'de' }),
  ]) {
    const { spoken, ...rest } = book;
    expect(spoken?.size).toBeGreaterThan(20);
    expect(JSON.stringify(rest)).not.toMatch(/[\ufdd0-\ufdd2]/);
  }
});

test('in one language nothing is marked; without patterns nothing is divided', () => {
  const guide = guideNamed('OM-8010');
  const plain = guideBook(guide, it.input);
  expect([plain.spoken, plain.written]).toEqual([undefined, undefined]);
  expect(drawn(plain).structure.nodes.some(({ role, language }) => role === 'Span' || language !== undefined)).toBe(false);
  const { registers } = it.input.library;
  const french = {
    ...it.input,
    library: { ...it.input.library, registers: { ...registers, house: { ...registers.house, language: 'fr' } } },
  };
  const own = { ...guide, head: { ...guide.head, language: 'fr' } };
  const book = guideBook(own, french, { paper: 'a5', large: true });
  const pieces = said(drawn(book), book.language);
  // There are no French words to print, so English ones are, and they are told as such.
  expect(pieces.filter(({ language }) => language === 'fr').flatMap(({ text }) => divisions(text))).toEqual([]);
  const languageOf = (words: string) => new Set(pieces.filter(({ text }) => text.trim() === words).map(({ language }) => language));
  expect(languageOf('What you need')).toEqual(new Set(['en']));
  expect(languageOf('Close up')).toEqual(new Set(['fr']));
});
