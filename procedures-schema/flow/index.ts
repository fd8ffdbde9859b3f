/** The proof: every way a procedure can be walked, on every variant. Exports only. */
export { holdsFor } from './decide.ts';
export type * from './model.ts';
export { proofVersion, prove } from './prove.ts';
export { proveVisit, type VisitInput, type VisitResult } from './visit.ts';
