/** What a reviewer asks: one walk with answers, the graph of all walks, what the library covers, and what changed since an earlier text. */
import { checkLibrary, type LabelledStep, type ProcedureFacts } from '../../../procedures-schema/index.ts';
import {
  type Changed,
  type CoverageTable,
  compareTexts,
  coverageOf,
  graphOf,
  type StepGraph,
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

/** The earlier text is read with the registers, and the procedures it sends its reader to, of today. */
export function compare(model: LibraryModel, ask: { readonly file: string; readonly earlier: string }): readonly Changed[] | undefined {
  const facts = model.procedure(ask.file);
  if (!facts) return undefined;
  const wanted = new Map([[ask.file, ask.earlier]]);
  // Numbers named anywhere in a text that is wanted, and in theirs again.
  const texts = [ask.earlier];
  for (let text = texts.pop(); text !== undefined; text = texts.pop())
    for (const { file, head, source } of model.facts.procedures)
      if (!wanted.has(file) && head.id !== '' && text.includes(head.id)) {
        wanted.set(file, source.text);
        texts.push(source.text);
      }
  const registers = model.facts.registerFiles.map(({ file }) => ({ path: file.source.path, text: file.source.text }));
  const before = checkLibrary([...registers, ...[...wanted].map(([path, text]) => ({ path, text }))], [...model.facts.paths]).facts;
  const earlier = before.procedures.find(({ file }) => file === ask.file);
  return earlier && compareTexts({ facts: earlier, library: before }, { facts, library: model.facts });
}
