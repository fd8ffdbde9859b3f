/**
 * Which language each stretch of a book is in, where text and printed words are in two: marked while composing, taken out of the finished book and listed
 * by the words. The marks are noncharacters, which Unicode keeps for use inside a program, so no writer's letter is taken for one.
 */
import type { Book, Spoken } from '../book.ts';
import { languageOfWords, type PrintedWords, printedWords } from '../printed-words/index.ts';
import type { ComposeInput } from './scope.ts';

const [BEGIN, SAYS, END] = ['\ufdd0', '\ufdd1', '\ufdd2'] as const;
const marked = new RegExp(`${BEGIN}([A-Za-z]{2,3}(?:-[A-Za-z0-9]{2,8})*)${SAYS}([^${BEGIN}${END}]*)${END}`, 'g');
const strays = new RegExp(`[${BEGIN}${SAYS}${END}]`, 'g');

/** Words in a language, to stand among words in another. */
export const saidIn = (language: string, text: string): string => (text === '' ? '' : `${BEGIN}${language}${SAYS}${text}${END}`);

const first = (language: string): string => language.toLowerCase().split('-')[0] ?? '';

/** Of the writer's words. */
export const languageOfText = ({ written, library }: Pick<ComposeInput, 'written' | 'library'>): string =>
  written ?? library.registers.house.language;

/** What is printed besides the writer's words, told apart from them where it is in another language. */
export function wordsOf(input: Pick<ComposeInput, 'written' | 'library'>): PrintedWords {
  const { language } = input.library.registers.house;
  const own = languageOfWords(language);
  return first(own) === first(languageOfText(input)) ? printedWords(own) : allSaidIn(own);
}

const made = new Map<string, PrintedWords>();

function allSaidIn(language: string): PrintedWords {
  const known = made.get(language);
  if (known !== undefined) return known;
  const words = printedWords(language);
  const { signals } = words.book;
  const all = said(words, language) as PrintedWords;
  // The first of each pair is no word but names one.
  const named = signals.map(([word, says]) => [word, said(says, language)] as const);
  const out = { ...all, layout: words.layout, book: { ...all.book, signals: named as unknown as typeof signals } };
  made.set(language, out);
  return out;
}

/** What a pattern leaves open is filled with a writer's words. */
const said = (words: unknown, language: string): unknown => {
  if (typeof words === 'string')
    return words
      .split(/(\{\w+\})/)
      .map((part) => (/^\{\w+\}$/.test(part) ? part : saidIn(language, part)))
      .join('');
  if (typeof words === 'function') return (...args: unknown[]) => saidIn(language, words(...args));
  if (Array.isArray(words)) return words.map((one) => said(one, language));
  if (typeof words === 'object' && words !== null)
    return Object.fromEntries(Object.entries(words).map(([key, one]) => [key, said(one, language)]));
  return words;
};

/** The stretches of a text, in order; `language` is that of what is not marked. */
export function stretchesOf(text: string, language: string): Spoken[] {
  if (!text.includes(BEGIN)) return [{ text, language }];
  const out: Spoken[] = [];
  const push = (words: string, own: string): void => {
    const clean = words.replace(strays, '');
    if (clean !== '') out.push({ text: clean, language: own });
  };
  let from = 0;
  for (const found of text.matchAll(marked)) {
    push(text.slice(from, found.index), language);
    push(found[2] ?? '', found[1] ?? language);
    from = found.index + found[0].length;
  }
  push(text.slice(from), language);
  return out;
}

const LINE = '\u2028';

function linesOf(stretches: readonly Spoken[]): readonly (readonly Spoken[])[] {
  const lines: Spoken[][] = [[]];
  for (const { text, language } of stretches)
    text.split(LINE).forEach((part, index) => {
      if (index > 0) lines.push([]);
      if (part !== '') lines.at(-1)?.push({ text: part, language });
    });
  return lines;
}

/** The marks taken out; the book says which language its words are in instead. */
export function spoken(book: Book): Book {
  const language = book.written ?? book.language;
  const known = new Map<string, readonly Spoken[]>();
  const clean = (value: unknown): unknown => {
    if (typeof value === 'string') {
      if (!value.includes(BEGIN)) return value;
      const stretches = stretchesOf(value, language);
      const words = stretches.map(({ text }) => text).join('');
      known.set(words, stretches);
      // Lines of a cell are set one by one.
      if (words.includes(LINE)) for (const line of linesOf(stretches)) known.set(line.map(({ text }) => text).join(''), line);
      return words;
    }
    if (Array.isArray(value)) return value.map(clean);
    if (typeof value !== 'object' || value === null || value instanceof Uint8Array) return value;
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, clean(one)]));
  };
  const out = clean(book) as Book;
  if (known.size === 0) return book;
  // What the layout itself prints stands in no block.
  const own = languageOfWords(book.language);
  for (const text of Object.values(printedWords(own).layout.band)) known.set(text, [{ text, language: own }]);
  return { ...out, spoken: known };
}
