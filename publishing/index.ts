/** The door into publishing: facts to paper and data, pure bytes out. Exports only. */
export { attachmentsOf } from './attachments.ts';
export type { Book, Image } from './book.ts';
export { type Checklist, checklistOf, contentHash, writeChecklist } from './checklist/index.ts';
export {
  type ComposeInput,
  guideBook,
  heldBy,
  inlineOf,
  isFor,
  leftOut,
  noEdition,
  type PrintChoice,
  plainOf,
  procedureBook,
  scopeOf,
  UNITS_EDITIONS,
  type UnitsEdition,
} from './compose/index.ts';
export { drawPages, newPages } from './draw-pages.ts';
export { graphSvg } from './exports/index.ts';
export { impose, type SheetSide, sheets } from './imposition/index.ts';
export { type DrawnBook, type DrawnPage, type FontFiles, faces, type LayoutNote, type Op, printedNumber } from './layout/index.ts';
export { foldedChoice, type PressChoice, type Printed, printBook, printSheets } from './print.ts';
export { keptRevisions, type PrintNote, printNotes } from './print-notes.ts';
export { PRINTED_LANGUAGES } from './printed-words/index.ts';
export { newProof, type ProofState } from './proof.ts';
export { shortGuide, shortProcedure } from './short-form/index.ts';
