/** Watching a library. Exports only. */
export { watchLibrary } from './watch.ts';
