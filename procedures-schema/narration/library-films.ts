/** The films a library holds: records and captions of its `narration` folder, and where they show each step. What is wrong with one is told, and that one left out. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import { readYaml } from '../format/index.ts';
import type { CaptionFile } from './captions-model.ts';
import { readCaptions } from './captions-read.ts';
import { type FilmLink, filmLinks } from './film-links.ts';
import { type FilmRecord, readRecord } from './recording-record.ts';
import { scriptOf } from './script.ts';

export interface LibraryFilm {
  readonly record: FilmRecord;
  readonly captions?: CaptionFile;
}

/** What lies in a library's `narration` folder and is text. */
export const isFilmText = (path: string): boolean => /^narration\/.+\.(ya?ml|vtt|srt)$/i.test(path);

/** `texts`: of all files for which `isFilmText` holds, by path. */
export function filmsIn(texts: ReadonlyMap<string, string>): {
  readonly films: readonly LibraryFilm[];
  readonly problems: readonly string[];
} {
  const films: LibraryFilm[] = [];
  const problems: string[] = [];
  for (const path of [...texts.keys()].filter((one) => /\.ya?ml$/i.test(one)).sort()) {
    const { record, problems: own } = readRecord(readYaml(path, texts.get(path) ?? '').tree);
    problems.push(...own.map((problem) => `${path}: ${problem}`));
    if (!record) continue;
    const captions = record.captions === undefined ? undefined : readCaptions(texts.get(record.captions) ?? '');
    if (record.captions !== undefined && !captions)
      problems.push(`${path}: the captions "${record.captions}" are not there or cannot be read.`);
    films.push({ record, ...(captions ? { captions } : {}) });
  }
  return { films, problems };
}

/** By document number: where the film of a procedure shows each step. A film of another model is not linked. */
export function linksOf(
  films: readonly LibraryFilm[],
  facts: LibraryFacts,
  model: string | undefined,
): ReadonlyMap<string, readonly FilmLink[]> {
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
