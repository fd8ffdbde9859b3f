/** Forms of Write: front matter, a new procedure, a measurement, a reading said outright, a name for a register. Nothing is changed here. */
import {
  acceptReading,
  type FieldValue,
  type FrontMatterForm,
  formEdits as formEditsIn,
  frontMatterForm,
  type Insertion,
  insertMeasurement as insertMeasurementIn,
  type KindGuess,
  type LimitsForm,
  limitsEdits as limitsEditsIn,
  limitsForm as limitsFormIn,
  type MeasurementInput,
  type NewGuide,
  type NewGuideInput,
  type NewProcedure,
  type NewProcedureInput,
  newGuide as newGuideIn,
  newProcedure as newProcedureIn,
  nextNumber,
  type Proposal,
  readingChoices as readingChoicesIn,
  registerName as registerNameIn,
  type TypedCell,
} from '../../../procedures-schema/assist/index.ts';
import type { Finding, TextEdit } from '../../../procedures-schema/index.ts';
import type { LibraryModel } from '../library-model.ts';

export const NOT_HERE = { ok: false, reason: 'This is done in a procedure; open one first.' } as const;

export function form(
  model: LibraryModel,
  ask: { readonly file: string; readonly findings: readonly Finding[] },
): FrontMatterForm | undefined {
  const facts = model.procedure(ask.file);
  return facts && frontMatterForm(facts, model.facts, ask.findings);
}

export function formEdits(
  model: LibraryModel,
  ask: { readonly file: string; readonly key: string; readonly value: FieldValue },
): readonly TextEdit[] {
  const facts = model.procedure(ask.file);
  return facts ? formEditsIn(facts, ask.key, ask.value) : [];
}

export function newProcedure(model: LibraryModel, ask: NewProcedureInput): NewProcedure {
  return newProcedureIn(ask, model.facts);
}

/** What the chosen procedures send their reader to must have been read. */
export function newGuide(model: LibraryModel, ask: NewGuideInput): NewGuide {
  if (model.waiting > 0) return { ok: false, reason: `${model.waiting} procedures have not been read yet; try again when they are.` };
  return newGuideIn(ask, model.facts);
}

/** The next free number for a text that is to stand beside another of the same number, and the edits that give it. */
export function ownNumber(
  model: LibraryModel,
  ask: { readonly file: string },
): { readonly number: string; readonly edits: readonly TextEdit[] } | undefined {
  const facts = model.procedure(ask.file);
  const number =
    facts &&
    nextNumber(
      model.facts,
      facts.head.models.map(({ name }) => name),
    );
  return number === undefined ? undefined : { number, edits: formEditsIn(facts as NonNullable<typeof facts>, 'id', number) };
}

export function insertMeasurement(
  model: LibraryModel,
  ask: { readonly file: string; readonly offset: number; readonly input: MeasurementInput },
): Insertion {
  const facts = model.procedure(ask.file);
  return facts ? insertMeasurementIn(facts, model.facts, ask.offset, ask.input) : NOT_HERE;
}

export function limitsForm(
  model: LibraryModel,
  ask: { readonly file: string; readonly offset: number },
): LimitsForm | { readonly ok: false; readonly reason: string } {
  const facts = model.procedure(ask.file);
  return facts ? limitsFormIn(facts, model.facts, ask.offset) : NOT_HERE;
}

export function limitsEdits(
  model: LibraryModel,
  ask: { readonly file: string; readonly at: number; readonly typed: readonly TypedCell[] },
): Insertion {
  const facts = model.procedure(ask.file);
  return facts ? limitsEditsIn(facts, model.facts, ask.at, ask.typed) : NOT_HERE;
}

export function readingChoices(model: LibraryModel, ask: { readonly file: string; readonly line: number }): readonly string[] {
  const facts = model.procedure(ask.file);
  return facts ? readingChoicesIn(facts, ask.line) : [];
}

export function sayOutright(
  model: LibraryModel,
  ask: {
    readonly file: string;
    readonly line: number;
    readonly said: { readonly reads: string; readonly because: string; readonly by: string };
  },
): Proposal {
  const facts = model.procedure(ask.file);
  return facts ? acceptReading(facts, model.facts, ask.line, ask.said) : NOT_HERE;
}

export function registerName(model: LibraryModel, ask: { readonly name: string; readonly guess: KindGuess }): Proposal {
  return registerNameIn(ask.name, ask.guess, model.facts);
}
