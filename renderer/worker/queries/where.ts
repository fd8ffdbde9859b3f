/** Where places of the library are, as a person would say it: for lists that lead to the text. */
import { type Where, whereIs } from '../../../procedures-schema/assist/index.ts';
import type { LibraryModel } from '../library-model.ts';

export interface PlaceAsk {
  readonly file: string;
  readonly offset: number;
}

/** In the order asked; undefined for one that was not read yet. */
export function where(model: LibraryModel, { places }: { readonly places: readonly PlaceAsk[] }): readonly (Where | undefined)[] {
  return places.map(({ file, offset }) => whereIs(file, offset, model.facts));
}
