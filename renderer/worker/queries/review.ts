/** What a reviewer asks: one walk with answers, and what the library covers. */
import { type CoverageTable, coverageOf, type WalkSoFar, walkFrames } from '../../../procedures-schema/review/index.ts';
import { inlineOf, plainOf, scopeOf } from '../../../publishing/index.ts';
import type { LibraryModel } from '../library-model.ts';

export function walk(
  model: LibraryModel,
  ask: { readonly file: string; readonly variant: string; readonly answers: readonly boolean[] },
): WalkSoFar | undefined {
  const facts = model.procedure(ask.file);
  const input = { library: model.facts, figures: model.figures, draft: false };
  const printed: Parameters<typeof walkFrames>[4] = (own, step) => plainOf(inlineOf(step.step.lead, scopeOf(own, input, new Set()), step));
  return facts && walkFrames(facts, model.facts, ask.variant, ask.answers, printed);
}

export function coverage(model: LibraryModel, _: Record<string, never>): readonly CoverageTable[] {
  return coverageOf(model.facts);
}
