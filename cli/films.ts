/** The films a library holds: records and captions read from its `narration` folder. What is wrong with one is told, and that one left out. */
import { type LibraryOnDisk, readFigure } from '../electron/host/files/index.ts';
import { type LibraryFacts, type ProcedureFacts, readYaml } from '../procedures-schema/index.ts';
import {
  type CaptionFile,
  type FilmLink,
  type FilmRecord,
  filmLinks,
  readCaptions,
  readRecord,
  scriptOf,
} from '../procedures-schema/narration/index.ts';
import type { Io } from './io.ts';

export interface Film {
  readonly record: FilmRecord;
  readonly captions?: CaptionFile;
}

export async function filmsOf(disk: LibraryOnDisk, io: Io): Promise<readonly Film[]> {
  const out: Film[] = [];
  const text = async (path: string): Promise<string | undefined> => {
    const bytes = disk.paths.includes(path) ? await readFigure(disk.root, path) : undefined;
    return bytes === undefined ? undefined : new TextDecoder().decode(bytes);
  };
  for (const path of disk.paths.filter((one) => /^narration\/.+\.ya?ml$/i.test(one))) {
    const { record, problems } = readRecord(readYaml(path, (await text(path)) ?? '').tree);
    for (const problem of problems) io.err(`${problem}\n`);
    if (!record) continue;
    const captions = record.captions === undefined ? undefined : readCaptions((await text(record.captions)) ?? '');
    if (record.captions !== undefined && !captions) io.err(`${path}: the captions "${record.captions}" are not there or cannot be read.\n`);
    out.push({ record, ...(captions ? { captions } : {}) });
  }
  return out;
}

/** By document number: where the film of a procedure shows each step. A film of another model is not linked. */
export function linksOf(films: readonly Film[], facts: LibraryFacts, model: string | undefined): ReadonlyMap<string, readonly FilmLink[]> {
  const out = new Map<string, readonly FilmLink[]>();
  for (const { record, captions } of films) {
    const procedure: ProcedureFacts | undefined = facts.procedures.find(({ head }) => head.id === record.procedure);
    if (!procedure || !captions || (record.model !== undefined && record.model !== model)) continue;
    const script = scriptOf(procedure, facts, record.model === undefined ? {} : { model: record.model });
    const links = filmLinks(script, record, captions);
    if (links.length > 0 && !out.has(record.procedure)) out.set(record.procedure, links);
  }
  return out;
}
