/** The words that a print carries besides the writer's own. Exports only. */
export { fill } from './fill.ts';
export { languageOfWords, PRINTED_LANGUAGES, printedWords } from './languages.ts';
export type { BookWords, GuideWords, LayoutWords, PrintedWords, ShortWords } from './words.ts';
