/** The reader's door. The lexicon and the form of a reading stand; the reader itself is not written: every sentence comes back unread, and unread never counts as safe. Exports only. */
export type * from './action.ts';
export { saysStandClear } from './stand-clear.ts';
export { type ReadingContext, readingVersion, readProse } from './unwritten.ts';
