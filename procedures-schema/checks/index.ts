/** The checks: the list, the runs, and what a check is made of. Exports only. */

export { bareReferences } from './bare-reference.ts';
export type { Check, CheckCase, FilmFacts, LibraryCheck, LibraryFacts, ProcedureCheck, ProcedureFacts } from './check.ts';
export { checkWording } from './flow-check.ts';
export { documentsCalled } from './guide-lists.ts';
export { checkBetweenFiles, checkProcedure, checks, type RunOptions, runChecks } from './list.ts';
export { measuredOf } from './measured.ts';
export { noticeText } from './notice-text.ts';
export {
  type ActionPlace,
  eachAction,
  eachBlock,
  eachNotice,
  eachProse,
  eachReading,
  eachSentence,
  endingIn,
  type ReadPlace,
} from './visit.ts';
