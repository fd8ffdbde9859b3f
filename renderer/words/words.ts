/** The words of the page in the reader's language. Exports only what views use. */
import { de } from './de.ts';
import { en, type Words } from './en.ts';

const LANGUAGES: Readonly<Record<string, Words>> = { en, de };

const asked = new URLSearchParams(location.hash.slice(1)).get('language') ?? localStorage.getItem('language') ?? navigator.language;
export const language = Object.keys(LANGUAGES).find((code) => asked.startsWith(code)) ?? 'en';
export const words: Words = LANGUAGES[language] ?? en;
export const languages = Object.keys(LANGUAGES);

/** Takes effect at once by opening the page anew; unsaved text is in the journal by then. */
export function setLanguage(code: string): void {
  localStorage.setItem('language', code);
  location.reload();
}
