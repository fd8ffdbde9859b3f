/**
 * Every place of the library where something with a name stands: one list for going there, for uses and for renaming. What stands in one
 * file is told by places-procedure.ts, places-register.ts and places-guide.ts; each is made once a reading of its file.
 */
import type { LibraryFacts } from '../checks/index.ts';
import type { Span } from '../finding.ts';
import { foldText, positionAt, type SourceText } from '../format/index.ts';
import type { Named, Use } from './model.ts';
import { guidePlaces } from './places-guide.ts';
import { procedurePlaces } from './places-procedure.ts';
import { registerPlaces } from './places-register.ts';

/** `how` says how the name is written there, and so how another is put in its place. */
export interface NamedPlace {
  readonly named: Named;
  readonly span: Span;
  readonly role: Use['role'];
  readonly how: 'yaml' | 'flow' | 'prose' | 'id' | 'title' | 'attribute';
  /** The whole bracket: whoever points at its first word means the same. */
  readonly around?: Span;
  /** Where a register gives a thing another name: that name. */
  readonly alias?: string;
}

export interface FilePlaces {
  readonly file: string;
  readonly source: SourceText;
  readonly places: readonly NamedPlace[];
}

/** Places of one file; undefined where the library has no such file. */
export function placesIn(path: string, library: LibraryFacts): FilePlaces | undefined {
  const facts = library.procedures.find(({ file }) => file === path);
  if (facts) return { file: path, source: facts.source, places: procedurePlaces(facts, library) };
  const register = library.registerFiles.find(({ file }) => file.source.path === path);
  if (register) return { file: path, source: register.file.source, places: registerPlaces(register.file, library) };
  const guide = library.guides.find(({ file }) => file === path);
  return guide && { file: path, source: guide.tree.source, places: guidePlaces(guide.tree, library) };
}

const sourcesOf = (library: LibraryFacts): readonly SourceText[] => [
  ...library.registerFiles.map(({ file }) => file.source),
  ...library.procedures.map(({ source }) => source),
  ...library.guides.map(({ tree }) => tree.source),
];

/** Registers first, then procedures, then guides. */
export const allFiles = (library: LibraryFacts): readonly string[] => sourcesOf(library).map(({ path }) => path);

/** Files in which the name may stand, registers first, then procedures, then guides. `words` must all be in the file, as stems. */
export function* filesWith(words: readonly string[], library: LibraryFacts): Iterable<FilePlaces> {
  const sources = sourcesOf(library);
  // Looked for without making a small-letter copy of every text.
  const stems = words.map((word) => new RegExp(stemOf(word).replace(/[.*+?^${}()|[\]\\]/g, '\\$&'), 'i'));
  for (const source of sources) {
    if (!stems.every((stem) => stem.test(source.text))) continue;
    const found = placesIn(source.path, library);
    if (found) yield found;
  }
}

/** What all forms of a word begin with: plurals change no more than its last four letters. */
function stemOf(word: string): string {
  return word.slice(0, Math.max(1, word.length - 4));
}

/** Words of a name that every way of writing it has; an address is found by its id or title. */
export function wordsOf(named: Named): readonly string[] {
  switch (named.kind) {
    case 'document':
      return [named.number];
    case 'step':
    case 'table':
    case 'figure':
      return [named.id];
    case 'section':
      return [];
    default:
      return nameWords(named.name);
  }
}

export const nameWords = (name: string): readonly string[] => name.split(/[^\p{L}\p{N}]+/u).filter((word) => word !== '');

export function sameNamed(a: Named, b: Named): boolean {
  switch (a.kind) {
    case 'thing':
      return b.kind === 'thing' && a.thing === b.thing && a.name === b.name && a.family === b.family;
    case 'measurement':
    case 'role':
      return b.kind === a.kind && a.file === b.file && foldText(a.name) === foldText(b.name);
    case 'step':
    case 'table':
    case 'figure':
      return b.kind === a.kind && a.file === b.file && a.id === b.id;
    case 'section':
      return b.kind === 'section' && a.file === b.file && a.id === b.id;
    case 'document':
      return b.kind === 'document' && a.number === b.number;
    case 'symptom':
      return b.kind === 'symptom' && foldText(a.name) === foldText(b.name);
    case 'attribute':
      return b.kind === 'attribute' && a.family === b.family && foldText(a.name) === foldText(b.name);
  }
}

/** The innermost named place at an offset, else the one whose bracket it stands in; between two the one that starts there. */
export function placeAt(path: string, offset: number, library: LibraryFacts): NamedPlace | undefined {
  const places = placesIn(path, library)?.places ?? [];
  const holds = (span: Span | undefined): boolean => span !== undefined && span.start <= offset && offset <= span.end;
  const size = ({ span }: NamedPlace): number => span.end - span.start;
  const inside = places.filter(({ span }) => holds(span));
  const found = inside.length > 0 ? inside : places.filter(({ around }) => holds(around));
  return [...found].sort((a, b) => size(a) - size(b) || b.span.start - a.span.start)[0];
}

export function asUse({ file, source }: FilePlaces, place: NamedPlace): Use {
  const { line } = positionAt(source, place.span.start);
  const start = source.lineStarts[line - 1] ?? 0;
  const text = source.text.slice(start, source.lineStarts[line] ?? source.text.length).trim();
  return { file, span: place.span, line, text, role: place.role };
}
