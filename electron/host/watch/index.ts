/** Watching a library. Exports only. */
export { type Watching, watchLibrary } from './watch.ts';
