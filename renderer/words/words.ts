/** The words of the page in the reader's language. Exports only what views use. */
import { setting } from '../state/settings.ts';
import { de } from './de.ts';
import { en, type Words } from './en.ts';

const LANGUAGES: Readonly<Record<string, Words>> = { en, de };

const asked = setting('language') || navigator.language;
export const language = Object.keys(LANGUAGES).find((code) => asked.startsWith(code)) ?? 'en';
export const words: Words = LANGUAGES[language] ?? en;
export const languages = Object.keys(LANGUAGES);
