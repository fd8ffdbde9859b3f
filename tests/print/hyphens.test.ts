/** Where words are divided, language by language: as published, never in codes, and one language's words never by the rules of another. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Book, Inline } from '../../publishing/book.ts';
import { hyphenate, texExceptions } from '../../publishing/layout/hyphenate.ts';
import { layoutBook, newFontSource, type Shaper } from '../../publishing/layout/index.ts';
import { sample } from '../support/sample.ts';

let shaper: Shaper;
beforeAll(async () => {
  shaper = newFontSource((await sample()).fonts).shaper;
});

const divided = (word: string, language: string): string => hyphenate(word, language).join('-');
const whole = (word: string): string => word.replaceAll('-', '');

describe('German', () => {
  // The examples of the official rules (Amtliche Regelung der deutschen Rechtschreibung, Worttrennung am Zeilenende) of six letters or more.
  const official =
    'steu-ern Mu-se-um in-di-vi-du-ell Haus-tür Be-fund ehr-lich bei-ßen Wei-mar trau-rig nei-disch Hei-mat Hop-fen Lud-wig ros-ten leug-nen ' +
    'sin-gen sin-ken sit-zen Städ-te Bag-ger ren-nen müs-sen Drit-tel zän-kisch Ach-tel Rech-ner ber-gig wid-rig freund-lich frucht-bar ' +
    'ernst-lich knusp-rig la-chen wa-schen Deut-sche Sa-phir Ste-phan bli-cken Zu-cker Schul-hof Ent-wurf Er-trag Ver-lust';
  test.each(official.split(' '))('%s', (word) => expect(divided(whole(word), 'de')).toBe(word));

  // Common practice, no source: words of the trade.
  const trade = 'Haupt-schal-ter Druck-min-de-rer Ver-rie-ge-lung In-stand-hal-tung Schrau-ben-schlüs-sel Dreh-mo-ment Quetsch-ge-fahr';
  test.each(trade.split(' '))('%s', (word) => expect(divided(whole(word), 'de-AT')).toBe(word));
});

test.each(texExceptions)('English: %s, an exception of hyphen.tex', (word) => {
  // Under seven letters nothing is divided.
  expect(divided(whole(word), 'en')).toBe(whole(word).length < 6 ? whole(word) : word);
});

test('the same letters in two languages are each divided by their own', () => {
  const word = 'Transporter';
  const [english, german] = [divided(word, 'en'), divided(word, 'de')];
  expect(english).not.toBe(german);
  // Asked again, and the other way about: what one language learned is not told in the other.
  expect([divided(word, 'de'), divided(word, 'en')]).toEqual([german, english]);
  expect(divided('minister', 'en')).toBe('min-is-ter');
  expect(divided('minister', 'DE-ch')).toBe('mi-nis-ter');
});

test('a language without patterns is not divided', () => {
  for (const language of ['fr', 'den', '', 'x-de']) expect(divided('Instandhaltung', language), language).toBe('Instandhaltung');
});

test('codes and names in capitals stay whole in every language', () => {
  for (const language of ['de', 'en'])
    for (const word of ['DRUCKMINDERER', 'DLxxxxxx25', 'kWhAbcdef', 'kurz']) expect(divided(word, language)).toBe(word);
});

describe('a strong name before a colon', () => {
  // Each of these many words moves the name by a little, so that it stands at the end of the line in one of them at least.
  const linesOf = (kind: 'strong' | 'text', before: number): readonly string[] => {
    const inline: Inline[] = [
      { kind: 'text', text: `${'i'.repeat(before)} ${'and so on and on '.repeat(5)}` },
      { kind, text: 'Consumables: ' },
      { kind: 'text', text: 'lint-free cloth, degreaser and leak spray, as many as are wanted' },
    ];
    const book: Book = {
      title: 'T',
      number: 'X-1',
      publisher: 'X',
      language: 'en',
      paper: 'a5',
      binding: 'left',
      duplex: false,
      draft: false,
      chapters: [{ title: 'T', startRight: false, blocks: [{ kind: 'paragraph', inline }] }],
    };
    return layoutBook(book, shaper).pages.flatMap(({ slabs }) =>
      slabs.flatMap(({ slab }) =>
        slab.items.flatMap((item) =>
          item.kind === 'line'
            ? [item.line.parts.flatMap((part) => (part.kind === 'page' ? [] : part.shaped.map((one) => one.text))).join('')]
            : [],
        ),
      ),
    );
  };
  const dividedIn = (kind: 'strong' | 'text'): number =>
    Array.from({ length: 60 }, (_, before) => linesOf(kind, before)).filter((lines) =>
      lines.some((line) => /Con(?:sum|suma)?\u00ad?$/.test(line)),
    ).length;

  test('is not divided, as the same word in running text is', () => {
    expect(dividedIn('text')).toBeGreaterThan(0);
    expect(dividedIn('strong')).toBe(0);
  });
});
