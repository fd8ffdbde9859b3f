/** Core facts to books, and the words both books and data files carry. Exports only. */
export { bandBeside } from './band-beside.ts';
export { codeLines } from './blocks.ts';
export { footOf, type Guide, guideBook, inputBefore, type PrintChoice, procedureBook } from './book-of.ts';
export { changedSections } from './changes.ts';
export { type Applies, appliesIn, listedFor, machinesOf, modelsOf } from './edition.ts';
export { energyOf } from './energy-lines.ts';
export { measurementsAt, readTwice } from './entries.ts';
export { assertEdition, heldBy, isFor, leftOut, noEdition } from './for-model.ts';
export { detailOf } from './front.ts';
export { inlineOf, plainOf } from './inline.ts';
export { inLanguage } from './language.ts';
export { limitsPrinted } from './limits-text.ts';
export { noticeWords } from './notice-words.ts';
export { type ComposeInput, chapterAnchor, everyBlock, labelled, type Scope, scopeOf, sectionAnchor, stepAnchor } from './scope.ts';
export { markedSince } from './since.ts';
export { tableRows } from './table-rows.ts';
export { typographic } from './typographic.ts';
export { boxUnit, UNITS_EDITIONS, type UnitsEdition } from './units-edition.ts';
