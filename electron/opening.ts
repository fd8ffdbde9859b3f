/** What a command line, a file that was double-clicked or a dropped folder asks to open. Looks at the disk; opens nothing. */
import { stat } from 'node:fs/promises';
import path from 'node:path';
import { libraryAt } from './host/files/index.ts';
import type { Opening } from './host/service/index.ts';

/** A library's deepest text lies less deep than this. */
const FURTHEST = 14;

/** The first word that leads to a library; a file in a library leads to the library, and to that file. */
export async function openingOf(words: readonly string[], from: string): Promise<Opening | undefined> {
  for (const word of words) {
    // What begins so is for the shell itself.
    if (word === '' || word.startsWith('-')) continue;
    const opening = await openingAt(path.resolve(from, word));
    if (opening !== undefined) return opening;
  }
  return undefined;
}

export async function openingAt(place: string): Promise<Opening | undefined> {
  const found = await stat(place).catch(() => undefined);
  if (found === undefined) return undefined;
  let folder = found.isDirectory() ? place : path.dirname(place);
  for (let steps = 0; steps < FURTHEST; steps += 1) {
    const root = await libraryAt(folder);
    if (root !== undefined) {
      const show = path.relative(folder, place).split(path.sep).join('/');
      return found.isFile() && show !== 'library.yaml' ? { folder: root, show } : { folder: root };
    }
    const above = path.dirname(folder);
    if (above === folder) return undefined;
    folder = above;
  }
  return undefined;
}

/** The words of a command line that are the user's: without the program, and without its folder where it was not packed. */
export const userWords = (argv: readonly string[], packaged: boolean): readonly string[] => argv.slice(packaged ? 1 : 2);
