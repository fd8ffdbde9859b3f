/** Changes that are proposed first: renaming, finding and replacing, sections and blocks to insert. Nothing is changed here. */
import {
  type FoundTexts,
  findText,
  type Insertion,
  insertMakeSafe,
  insertRestore,
  insertStep,
  type Named,
  type Proposal,
  renameAlias,
  rename as renameIn,
  replaceText,
} from '../../../procedures-schema/assist/index.ts';
import type { LibraryModel } from '../library-model.ts';

/** What touches every file waits until every file was read. */
const unread = (model: LibraryModel): Proposal | undefined =>
  model.waiting === 0
    ? undefined
    : { ok: false, reason: `${model.waiting} procedures have not been read yet. Nothing was changed; try again when they are.` };

/** `alias`: another name of the thing, which is renamed in its stead. */
export function rename(model: LibraryModel, ask: { readonly named: Named; readonly alias?: string; readonly to: string }): Proposal {
  const wait = unread(model);
  if (wait) return wait;
  const { named, alias, to } = ask;
  return alias === undefined ? renameIn(named, to, model.facts) : renameAlias({ of: named, alias }, to, model.facts);
}

const texts = (model: LibraryModel, file: string | undefined) =>
  [...model.texts]
    .filter(([path]) => file === undefined || path === file)
    .map(([path, text]) => ({ path, text }))
    .sort((a, b) => (a.path < b.path ? -1 : 1));

export interface FindAsk {
  readonly query: string;
  readonly pattern: boolean;
  readonly matchCase: boolean;
  readonly wholeWord: boolean;
  /** In this one only. */
  readonly file?: string;
  readonly most?: number;
}

export function find(model: LibraryModel, { query, file, ...options }: FindAsk): FoundTexts {
  return findText(texts(model, file), query, options);
}

/** `only`: the one hit that begins there. */
export function replace(model: LibraryModel, ask: FindAsk & { readonly by: string; readonly only?: number }): Proposal {
  const { query, by, file, ...options } = ask;
  return replaceText(texts(model, file), query, by, options);
}

export interface InsertAsk {
  readonly file: string;
  readonly offset: number;
  readonly what: 'make safe' | 'restore' | 'step';
}

export function insert(model: LibraryModel, { file, offset, what }: InsertAsk): Insertion {
  const facts = model.procedure(file);
  if (!facts) return { ok: false, reason: 'This is put into a procedure; open one first.' };
  if (what === 'make safe') return insertMakeSafe(facts, model.facts);
  if (what === 'restore') return insertRestore(facts, model.facts);
  return insertStep(facts, model.facts, offset, ['']);
}
