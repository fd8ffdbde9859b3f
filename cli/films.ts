/** The films of a library on disk. Reads the texts; what they mean is the core's. */
import { type LibraryOnDisk, readFigure } from '../electron/host/files/index.ts';
import { captionsText, filmsIn, isFilmText, type LibraryFilm } from '../procedures-schema/narration/index.ts';
import type { Io } from './io.ts';

export async function filmsOf(disk: LibraryOnDisk, io: Io): Promise<readonly LibraryFilm[]> {
  const texts = new Map<string, string>();
  for (const path of disk.paths.filter(isFilmText)) {
    const bytes = await readFigure(disk.root, path);
    if (bytes !== undefined) texts.set(path, captionsText(bytes));
  }
  const { films, problems } = filmsIn(texts);
  for (const problem of problems) io.err(`${problem}\n`);
  return films;
}
