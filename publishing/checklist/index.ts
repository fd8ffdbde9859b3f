/** Procedures as data to tick off. Exports only. */
export { canonical, contentHash } from './canonical.ts';
export { checklistOf } from './checklist.ts';
export type * from './model.ts';
export { writeChecklist } from './write.ts';
