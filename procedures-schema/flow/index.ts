/** The proof's door. The border and the compiler of the graph stand; the search is not written: every verdict is "not proved". Exports only. */
export type * from './model.ts';
export { proofVersion, prove } from './unwritten.ts';
