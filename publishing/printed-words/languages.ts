/** The words that a print carries besides the writer's own, by language. A language is added by adding a file here and naming it below. */
import { de } from './de.ts';
import { en } from './en.ts';
import type { PrintedWords } from './words.ts';

const LANGUAGES: ReadonlyMap<string, PrintedWords> = new Map(Object.entries({ en, de }));
/** Of which there are words, as BCP 47 names their languages. */
export const PRINTED_LANGUAGES: readonly string[] = [...LANGUAGES.keys()];

/** Of the words that `printedWords` gives for a language. */
export const languageOfWords = (language: string): string => (LANGUAGES.has(language.toLowerCase().split('-')[0] ?? '') ? language : 'en');

/** `language` as BCP 47 writes it, region and script passed over; English where there are no words of it. */
export function printedWords(language: string): PrintedWords {
  return LANGUAGES.get(language.toLowerCase().split('-')[0] ?? '') ?? en;
}
