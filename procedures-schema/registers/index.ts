/** Registers, front matter, names and variants. Exports only. */
export { readGuideHead, readHead, readRegisters, type SchemaProblem } from './doors.ts';
export type * from './model.ts';
export { namesFor } from './names.ts';
export { nearestNames } from './nearest.ts';
export { familiesOf, machineOf, variantsFor } from './variants.ts';
export { foldWords } from './words.ts';
