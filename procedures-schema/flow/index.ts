/** The proof: every way a procedure can be walked, on every variant. Exports only. */
export type * from './model.ts';
export { proofVersion, prove } from './prove.ts';
