/** What stands at a place, where it is written down, and where else it is used. */
import type { LibraryFacts } from '../checks/index.ts';
import { aliasesOf } from './aliases.ts';
import type { Named, Place, Use } from './model.ts';
import { allFiles, asUse, type FilePlaces, filesWith, nameWords, placeAt, placesIn, sameNamed, wordsOf } from './places.ts';

export function namedAt(path: string, offset: number, library: LibraryFacts): Named | undefined {
  return placeAt(path, offset, library)?.named;
}

/** Registers first, then procedures, then guides; each in the order of its text. */
export function usesOf(named: Named, library: LibraryFacts): readonly Use[] {
  // A file that says it by another of its names need not hold the words of the first.
  const names = [wordsOf(named), ...aliasesOf(named, library).map(nameWords)];
  const files = new Map<string, FilePlaces>();
  for (const words of names) for (const file of filesWith(words, library)) files.set(file.file, file);
  const inOrder = names.length === 1 ? [...files.values()] : allFiles(library).flatMap((path) => files.get(path) ?? []);
  const out: Use[] = [];
  for (const file of inOrder) for (const place of file.places) if (sameNamed(place.named, named)) out.push(asUse(file, place));
  return out;
}

/** Where to go from a place: to what it names. Undefined where nothing with a name stands. */
export function definitionOf(path: string, offset: number, library: LibraryFacts): Place | undefined {
  const named = namedAt(path, offset, library);
  return named && definitionOfNamed(named, library);
}

export function definitionOfNamed(named: Named, library: LibraryFacts): Place | undefined {
  const uses = homesOf(named, library).flatMap((path) => {
    const file = placesIn(path, library);
    return file ? file.places.filter((place) => sameNamed(place.named, named)).map((place) => asUse(file, place)) : [];
  });
  // A point need not be listed of its own: then it is written down where a source names it.
  const found =
    uses.find(({ role }) => role === 'definition') ?? uses.find(({ file, role }) => role === 'field' && /^registers\//.test(file));
  return found && { file: found.file, span: found.span, line: found.line };
}

/** Files in which such a name is written down. */
function homesOf(named: Named, library: LibraryFacts): readonly string[] {
  if ('file' in named) return [named.file];
  if (named.kind === 'document')
    return [...library.procedures, ...library.guides].filter(({ head }) => head.id === named.number).map(({ file }) => file);
  return library.registerFiles.map(({ file }) => file.source.path);
}
