/** Watching a library. Exports only. */
export { type Since, type Watching, watchLibrary } from './watch.ts';
