/** Where places of the library are, as a person would say it: for lists that lead to the text. */

import { type Where, whereIs } from '../../../procedures-schema/assist/index.ts';
import { checks } from '../../../procedures-schema/index.ts';
import type { LibraryModel } from '../library-model.ts';

export interface PlaceAsk {
  readonly file: string;
  readonly offset: number;
}

/** What each check asks, by its name: the name is for tools. */
export const questions = (_: LibraryModel, __: Record<string, never>): Readonly<Record<string, string>> =>
  Object.fromEntries(checks.map(({ id, question }) => [id, question]));

/** In the order asked; undefined for one that was not read yet. */
export function where(model: LibraryModel, { places }: { readonly places: readonly PlaceAsk[] }): readonly (Where | undefined)[] {
  return places.map(({ file, offset }) => whereIs(file, offset, model.facts));
}
