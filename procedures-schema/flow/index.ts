/** The proof: every way a procedure can be walked, on every variant. Exports only. */

export { bandAt, bandBeside, provedOnAll, type ShownBand } from './band-beside.ts';
export type { Program } from './code.ts';
export { compile, compileVisit } from './compile/compile.ts';
export { holdsFor } from './decide.ts';
export type { Breach } from './effects/doing.ts';
export { tableOf } from './machine.ts';
export type * from './model.ts';
export { type FlowInput, prove } from './prove.ts';
export { ProvedBefore } from './proved-before.ts';
export type { Layout } from './state.ts';
export { type ToldState, tellState } from './tell-state.ts';
export { proveVisit, type VisitInput, type VisitResult } from './visit.ts';
export { type Walker, type WalkPosition, type WalkStop, walkerOf } from './walk.ts';
