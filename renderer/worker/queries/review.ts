/** What a reviewer asks: one walk with answers, the graph of all walks, what the library covers, and what changed since an earlier text. */
import { checkLibrary, type LabelledStep, type ProcedureFacts } from '../../../procedures-schema/index.ts';
import {
  type Changed,
  type CoverageTable,
  compareGuides,
  compareTexts,
  coverageOf,
  graphOf,
  type StepGraph,
  type Texts,
  textsFor,
  type WalkSoFar,
  walkFrames,
} from '../../../procedures-schema/review/index.ts';
import { inlineOf, plainOf, scopeOf } from '../../../publishing/index.ts';
import type { LibraryModel } from '../library-model.ts';

/** A step's words as they are printed. */
function printedIn(model: LibraryModel): (own: ProcedureFacts, at: LabelledStep) => string {
  const input = { library: model.facts, figures: model.figures, draft: false };
  return (own, at) => plainOf(inlineOf(at.step.lead, scopeOf(own, input, new Set()), at));
}

export function walk(
  model: LibraryModel,
  ask: { readonly file: string; readonly variant: string; readonly answers: readonly boolean[] },
): WalkSoFar | undefined {
  const facts = model.procedure(ask.file);
  return facts && walkFrames(facts, model.facts, ask.variant, ask.answers, printedIn(model));
}

export function graph(model: LibraryModel, ask: { readonly file: string }): StepGraph | undefined {
  const facts = model.procedure(ask.file);
  const printed = printedIn(model);
  return facts && graphOf(facts, model.facts, (at) => printed(facts, at));
}

export function coverage(model: LibraryModel, _: Record<string, never>): readonly CoverageTable[] {
  return coverageOf(model.facts);
}

/** `texts`: as they were then, by path. `whole`: these were all there were; else the others are taken as they are now. */
export interface Earlier {
  readonly texts: Texts;
  readonly whole: boolean;
}

/** Each state is read with its own registers. Null: the document was not there then. */
export function compare(
  model: LibraryModel,
  ask: { readonly file: string; readonly earlier: Earlier },
): readonly Changed[] | null | undefined {
  const { facts: library } = model;
  const own = library.procedures.find(({ file }) => file === ask.file);
  const guide = library.guides.find(({ file }) => file === ask.file);
  const number = (own ?? guide)?.head.id;
  // A guide says what its procedures say, and they must have been read.
  if (number === undefined || (guide && model.waiting > 0)) return undefined;
  const { texts, whole } = ask.earlier;
  // A text that is new has nothing that it was.
  const now = whole ? [] : [...model.texts].filter(([path]) => texts[path] !== '');
  const then = textsFor(
    { ...Object.fromEntries(now), ...Object.fromEntries(Object.entries(texts).filter(([, text]) => text !== '')) },
    ask.file,
    number,
  );
  if (!then) return null;
  const before = checkLibrary(
    Object.entries(then.texts).map(([path, text]) => ({ path, text })),
    [...library.paths],
  ).facts;
  const was = before.procedures.find(({ file }) => file === then.path);
  if (own && was) return compareTexts({ facts: was, library: before }, { facts: own, library });
  const guideWas = before.guides.find(({ file }) => file === then.path);
  return guide && guideWas ? compareGuides({ guide: guideWas, library: before }, { guide, library }) : null;
}
