/** Takes away what a crash in the middle of a save left beside the files of a library. Touches nothing else. */
import { readdir, stat, unlink } from 'node:fs/promises';
import path from 'node:path';
import { BESIDE } from './write-whole.ts';

/** Another window may be in the middle of a save; what is older than this is nobody's. */
const OLD = 10 * 60_000;

/** `folders`: relative to the root. Fails never: what cannot be removed stays. */
export async function removeLeftovers(root: string, folders: Iterable<string>, now: number, old: number = OLD): Promise<void> {
  for (const folder of new Set(folders)) {
    const place = path.join(root, ...folder.split('/'));
    for (const name of await readdir(place).catch((): string[] => [])) {
      if (!BESIDE.test(name)) continue;
      const file = path.join(place, name);
      const age = await stat(file).then(
        ({ mtimeMs }) => now - mtimeMs,
        () => 0,
      );
      if (age > old) await unlink(file).catch(() => undefined);
    }
  }
}
