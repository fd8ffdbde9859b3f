/** What stands beside the steps of one procedure, on one variant or the worst of all. */
import { type Margin, marginOf } from '../../../procedures-schema/assist/index.ts';
import type { LibraryModel } from '../library-model.ts';

/** `accepted`: keys of readings that somebody accepted. */
export function margin(
  model: LibraryModel,
  ask: { readonly file: string; readonly variant?: string; readonly accepted?: readonly string[] },
): Margin | undefined {
  const facts = model.procedure(ask.file);
  return facts && marginOf(facts, model.facts, ask.variant, new Set(ask.accepted));
}
