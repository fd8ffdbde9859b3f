/** The earlier state that a document is compared with: as it was saved, as a revision holds it, or a file or folder that was chosen. Fetches; compares nothing. */
import { textsFor } from '../../procedures-schema/review/index.ts';
import { historyLibrary } from '../state/saving.ts';
import { documents } from '../state/workspace.ts';
import type { Earlier } from '../worker/queries/queries.ts';

const bare = (text: string): string => text.replace(/^\uFEFF/, '');

/** What was changed here is taken as it was before; the rest is as it is. */
export const asSaved = (): Earlier => ({
  texts: Object.fromEntries(documents.unsaved().flatMap(({ path }) => savedOf(path))),
  whole: false,
});

function savedOf(path: string): readonly (readonly [string, string])[] {
  const saved = documents.get(path)?.saved;
  return saved === undefined ? [] : [[path, saved]];
}

/** Undefined: the document was not there then. */
export async function atRevision(revision: string, file: string, number: string): Promise<Earlier | undefined> {
  const { texts } = await historyLibrary(revision);
  return wholeLibrary(texts, file, number);
}

/** One text beside the library of today. */
export const besideText = async (chosen: File, file: string): Promise<Earlier> => ({
  texts: { [file]: bare(await chosen.text()) },
  whole: false,
});

/** A whole library as it was issued. Undefined: it is none, or does not hold the document. */
export async function besideFolder(chosen: readonly File[], file: string, number: string): Promise<Earlier | undefined> {
  const inside = chosen.map((one) => ({ one, path: one.webkitRelativePath.split('/').slice(1).join('/') }));
  if (!inside.some(({ path }) => path === 'library.yaml')) return undefined;
  const wanted = inside.filter(({ path }) => /^(library\.yaml|registers\/[^/]+\.ya?ml|(procedures|guides)\/.+\.md)$/i.test(path));
  const texts = await Promise.all(wanted.map(async ({ one, path }) => [path, await one.text()] as const));
  return wholeLibrary(Object.fromEntries(texts), file, number);
}

/** Only what the comparison needs is kept and sent to the worker: a long library is mostly about other machines. */
function wholeLibrary(all: Readonly<Record<string, string>>, file: string, number: string): Earlier | undefined {
  const own = textsFor(Object.fromEntries(Object.entries(all).map(([path, text]) => [path, bare(text)])), file, number);
  return own && { texts: own.texts, whole: true };
}
