/** Help for a writer, on the facts that the engine keeps: margin, completion, hover, renaming, insertions. Exports only. */
export { aliasAt } from './aliases.ts';
export { complete } from './complete.ts';
export { nextGuideNumber, nextNumber } from './document-numbers.ts';
export { type FindOptions, type FoundText, type FoundTexts, findText, replaceText } from './find-text.ts';
export {
  type FieldKind,
  type FieldValue,
  type FormField,
  type FrontMatterForm,
  formEdits,
  frontMatterForm,
  type ListLine,
  type MeasurementLine,
} from './front-matter-form.ts';
export { hover } from './hover.ts';
export {
  type Branch,
  branchesOn,
  type FigureInput,
  insertBranches,
  insertBranching,
  insertFigure,
  insertFigures,
  insertNotice,
  insertStep,
  type NoticeInput,
} from './insert-blocks.ts';
export { insertMeasurement, type LimitRow, type MeasurementInput } from './insert-measurement.ts';
export { insertMakeSafe, insertRestore } from './insert-sections.ts';
export type { Insertion } from './insertion.ts';
export { limitsEdits, limitsForm } from './limits-form.ts';
export type { LimitsColumn, LimitsForm, LimitsRow, TypedCell } from './limits-form-model.ts';
export { marginOf } from './margin.ts';
export type * from './model.ts';
export { namesToSettle } from './names-to-settle.ts';
export { type NewGuide, type NewGuideInput, newGuide } from './new-guide.ts';
export { type NewProcedure, type NewProcedureInput, newProcedure } from './new-procedure.ts';
export { acceptReading, type OverrideSaid, overridesIn, overridesOf, readingChoices } from './overrides.ts';
export { type Applied, applyFileEdits, editsOf, proposalOf, textsOf } from './proposals.ts';
export { quickFixesAt } from './quick-fixes.ts';
export { registerName } from './register-name.ts';
export { rename, renameAlias } from './rename.ts';
export { type SpellableWord, spellable, spellingWords } from './spelling.ts';
export { textKey } from './text-key.ts';
export { definitionOf, definitionOfNamed, namedAt, usesOf } from './uses.ts';
export { type Where, whereIs } from './where.ts';
