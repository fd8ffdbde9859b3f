/** A film's record held against the procedure it shows: what of the film must be made again. Words it for nobody; the check `film-fits` does. */
import type { FilmFacts, LibraryFacts } from '../checks/index.ts';
import { readYaml } from '../format/index.ts';
import { readRecord } from './recording-record.ts';
import { type Redo, redoPlan } from './redo.ts';
import { scriptOf } from './script.ts';

/** A record of a film in the library, by its path. */
export const isFilmRecord = (path: string): boolean => /^narration\/.+\.ya?ml$/i.test(path);

const NOTHING: Pick<FilmFacts, 'again' | 'gone' | 'moved'> = { again: { film: [], voice: [], caption: [] }, gone: 0, moved: 0 };

/** `library`: without its films, which are being made. */
export function filmFactsOf(path: string, text: string, library: Omit<LibraryFacts, 'films'>): FilmFacts {
  const { tree: file, problems } = readYaml(path, text);
  const { record, problems: unread } = readRecord(file);
  const bare = { file, problems, ...NOTHING, wrong: unread };
  if (!record) return { ...bare, number: '', procedure: '', standing: 'unread' };
  const { number, procedure, model, captions } = record;
  const lost = captions === undefined || library.paths.has(captions) ? [] : [`The captions "${captions}" are not in the library.`];
  const optional = { ...(model === undefined ? {} : { model }), ...(captions === undefined ? {} : { captions }) };
  const known = { ...bare, number, procedure, ...optional, wrong: [...unread, ...lost] };
  const facts = library.procedures.find(({ head }) => head.id === procedure);
  if (!facts) return { ...known, standing: 'no procedure' };
  if (model !== undefined && !facts.machines.some(({ variant }) => variant.model === model)) return { ...known, standing: 'no model' };
  const script = scriptOf(facts, { ...library, films: [] }, model === undefined ? {} : { model });
  if (script.textHash === record.textHash) return { ...known, standing: 'fits' };
  const { passages, gone, chapters } = redoPlan(script, record);
  const titles = (redo: Redo): string[] => chapters.flatMap((chapter) => (chapter.redo === redo ? [chapter.title] : []));
  const again = { film: titles('film'), voice: titles('voice'), caption: titles('caption') };
  const moved = passages.filter((one) => one.moved).length;
  const changed = gone.length + moved + again.film.length + again.voice.length + again.caption.length > 0;
  return { ...known, again, gone: gone.length, moved, standing: changed ? 'changed' : 'fits' };
}
