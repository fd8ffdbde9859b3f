/** Quotation marks and apostrophes as printed: those of the language, never after a digit or in code, and no letter lost up to the copy from the PDF. */
import fc from 'fast-check';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Book } from '../../publishing/book.ts';
import { quoteMarks, type Stretch } from '../../publishing/compose/quote-marks.ts';
import { typographic } from '../../publishing/compose/typographic.ts';
import { guideBook, printBook } from '../../publishing/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
beforeAll(async () => {
  it = await sample();
});

const set = (text: string, language = 'en'): string => quoteMarks([{ text }], language).join('');

describe('English', () => {
  test.each([
    ['hang a tag "Out of service" on it', 'hang a tag “Out of service” on it'],
    ["the machine's own pump, by a hand's breadth", 'the machine’s own pump, by a hand’s breadth'],
    ["the operators' lamps don't light", 'the operators’ lamps don’t light'],
    ["the 'on' lamp", 'the ‘on’ lamp'],
    ['a sign ("Keep off") and "Stop".', 'a sign (“Keep off”) and “Stop”.'],
    [`"turn to 'jog'" is shown`, '“turn to ‘jog’” is shown'],
    // Inches, feet, minutes of arc: never after a digit.
    [`a 3/4" bolt, 6' 2" long, 30' of arc, 1½" and 5'-6"`, `a 3/4" bolt, 6' 2" long, 30' of arc, 1½" and 5'-6"`],
    // Whether the mark after a digit ends the words or is inches nobody can tell: both stay.
    ['shows "E 21" and "Stop"', 'shows "E 21" and “Stop”'],
    ['"3/4" bolt"', '"3/4" bolt"'],
    ['shows "21 E"', 'shows “21 E”'],
    // Without a partner.
    ['a " alone, and "one more', 'a " alone, and "one more'],
    ['\'\'doubled\'\' and ""doubled""', '\'\'doubled\'\' and ""doubled""'],
  ])('%s', (typed, shown) => expect(set(typed)).toBe(shown));
});

test.each([
  ['am Schild "Außer Betrieb"', 'am Schild „Außer Betrieb“'],
  ["geht's, 'an' und \"sagt 'halt' laut\"", 'geht’s, ‚an‘ und „sagt ‚halt‘ laut“'],
  ['ein Rohr 3/4"', 'ein Rohr 3/4"'],
])('German: %s', (typed, shown) => {
  expect(set(typed, 'de')).toBe(shown);
  expect(set(typed, 'DE-at')).toBe(shown);
});

test('a language whose marks are not known keeps what was typed', () => {
  for (const language of ['fr', '', 'den']) expect(set(`l'arrêt "Stop"`, language)).toBe(`l'arrêt "Stop"`);
});

test('a pair may begin and end in stretches of another type; code stays as typed', () => {
  const typed: Stretch[] = [
    { text: 'say "' },
    { text: 'stop' },
    { text: '", then ' },
    { text: `set 'a' "b"`, code: true },
    { text: ` "now"` },
  ];
  expect(quoteMarks(typed, 'en')).toEqual(['say “', 'stop', '”, then ', `set 'a' "b"`, ' “now”']);
});

describe('of any words', () => {
  const letter = fc.constantFrom(...`""''""''  ab.,()-5½²Ä\u00a0\u2028`.split(''), '\u{1F527}');
  const stretches = fc.array(fc.record({ text: fc.array(letter, { maxLength: 12 }).map((all) => all.join('')), code: fc.boolean() }), {
    maxLength: 5,
  });
  const straight = (text: string): string => text.replace(/[“”„]/g, '"').replace(/[‘’‚]/g, "'");

  test('only straight marks are replaced, each by one of the same weight, none after a digit and none in code', () => {
    fc.assert(
      fc.property(stretches, fc.constantFrom('en', 'de', 'fr'), (typed, language) => {
        const shown = quoteMarks(typed, language);
        expect(shown.map(straight)).toEqual(typed.map(({ text }) => text));
        const joined = shown.join('');
        expect(joined).not.toMatch(/\p{N}[“”„‘’‚]/u);
        typed.forEach(({ text, code }, index) => {
          if (code || language === 'fr') expect(shown[index]).toBe(text);
        });
        // As many marks open as close, and once more changes nothing.
        const [open, close] = language === 'de' ? ['„', '“'] : ['“', '”'];
        expect(joined.split(open).length).toBe(joined.split(close).length);
      }),
      { numRuns: 3000, seed: 3 },
    );
  });
});

describe('in a book', () => {
  const walk = (value: unknown, see: (key: string, text: string) => void, key = ''): void => {
    if (typeof value === 'string') see(key, value);
    else if (Array.isArray(value)) for (const one of value) walk(one, see, key);
    else if (value !== null && typeof value === 'object' && !('kind' in value && value.kind === 'code'))
      for (const [name, own] of Object.entries(value)) walk(own, see, name);
  };
  const sampleBook = (): Book => guideBook(it.report.facts.guides[0] as Parameters<typeof guideBook>[0], it.input);

  test('no word that is printed is forgotten: marked in every text, all come out, and names of fields and places stay', () => {
    // What is not printed, or is a picture.
    const silent = new Set([
      'kind',
      'style',
      'anchor',
      'anchors',
      'near',
      'through',
      'unlabelled',
      'last',
      'field',
      'image',
      'source',
      'alt',
      'align',
      'word',
      'panel',
      'band',
      'paper',
    ]);
    const quiet = new Set(['binding', 'language', 'number', 'revision', 'date', 'label', 'unit', 'name', 'boxes', 'state', 'to']);
    const mark = (value: unknown, key = ''): unknown => {
      if (typeof value === 'string') return silent.has(key) || quiet.has(key) ? value : `${value} hand's`;
      if (Array.isArray(value)) return value.map((one) => mark(one, key));
      if (value === null || typeof value !== 'object') return value;
      return Object.fromEntries(Object.entries(value).map(([name, own]) => [name, mark(own, name)]));
    };
    const marked = typographic(mark(sampleBook()) as Book);
    let seen = 0;
    walk(marked, (key, text) => {
      if (silent.has(key) || quiet.has(key)) return;
      seen += 1;
      expect(text, key).toMatch(/hand’s$/);
    });
    expect(seen).toBeGreaterThan(2000);
    const plain: string[] = [];
    const after: string[] = [];
    walk(sampleBook(), (key, text) => (key === 'anchor' || key === 'field') && plain.push(text));
    walk(typographic(sampleBook()), (key, text) => (key === 'anchor' || key === 'field') && after.push(text));
    expect(after.filter((text) => plain.includes(text)).length).toBe(plain.length);
  });

  test('what is copied from the PDF are the letters that are printed', async () => {
    const text = `The operators' sign "Keep off" hangs 6' 2" high; it's the machine's.`;
    const book: Book = {
      title: 'T',
      number: 'N',
      publisher: 'P',
      language: 'en',
      paper: 'a4',
      binding: 'none',
      duplex: false,
      draft: false,
      chapters: [{ title: 'C', startRight: false, blocks: [{ kind: 'paragraph', inline: [{ kind: 'text', text }] }] }],
    };
    const pdf = await getDocument({ data: printBook(typographic(book), it.fonts).bytes.slice(), verbosity: 0 }).promise;
    const page = await (await pdf.getPage(1)).getTextContent();
    const copied = page.items
      .map((item) => ('str' in item ? item.str : ''))
      .join(' ')
      .replace(/\s+/g, ' ');
    expect(copied).toContain(`The operators’ sign “Keep off” hangs 6' 2" high; it’s the machine’s.`);
    await pdf.destroy();
  });
});
