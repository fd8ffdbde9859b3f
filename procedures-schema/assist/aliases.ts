/** The other names of a thing ("also" in its register), and which of them stands at a place. */
import type { LibraryFacts } from '../checks/index.ts';
import type { Alias, Named } from './model.ts';
import { placeAt, placesIn, sameNamed } from './places.ts';
import { nameOf } from './rename.ts';
import { inFormOf } from './written-form.ts';

export function aliasesOf(named: Named, library: LibraryFacts): readonly string[] {
  if (named.kind !== 'thing' && named.kind !== 'symptom') return [];
  return library.registerFiles.flatMap(({ file }) =>
    (placesIn(file.source.path, library)?.places ?? []).flatMap((place) =>
      place.alias !== undefined && sameNamed(place.named, named) ? [place.alias] : [],
    ),
  );
}

/** Set where what stands at the place is written by another than its first name. */
export function aliasAt(path: string, offset: number, library: LibraryFacts): Alias | undefined {
  const place = placeAt(path, offset, library);
  const text = placesIn(path, library)?.source.text;
  if (place === undefined || text === undefined) return undefined;
  if (place.alias !== undefined) return { of: place.named, alias: place.alias };
  const written = text.slice(place.span.start, place.span.end);
  if (inFormOf(written, nameOf(place.named), '') !== undefined) return undefined;
  const alias = aliasesOf(place.named, library).find((one) => inFormOf(written, one, '') !== undefined);
  return alias === undefined ? undefined : { of: place.named, alias };
}
