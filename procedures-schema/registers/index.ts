/** Registers, front matter, names and variants. Exports only. */

export { PAPER_NAMES, type Paper, type PaperName, type PaperSize, sizeOfPaper } from '../paper-size.ts';
export { spellingsOf } from './look-up.ts';
export { machineOf } from './machine.ts';
export type * from './model.ts';
export { namesFor } from './names.ts';
export { nearestNames } from './nearest.ts';
export { PAPER_EXAMPLE, readPaper } from './paper.ts';
export type { FieldPath, SchemaProblem } from './problem.ts';
export { readGuideHead, readHead } from './read-heads.ts';
export { readRegisters } from './read-registers.ts';
export { familiesOf, serialWords, variantsFor } from './variants.ts';
export { type FoldedWord, foldWords } from './words.ts';
