/** Renames and removes texts of a library, under the same condition as saving: the disk still holds what the writer saw. */
import { readdir } from 'node:fs/promises';
import path from 'node:path';
import { type Conflict, type Methods, Refused } from '../contract/index.ts';
import { isWritable } from '../files/index.ts';
import { insideLibrary } from './inside.ts';
import { stateOf } from './save.ts';
import type { WriteDisk } from './write-disk.ts';
import { renamePatiently } from './write-whole.ts';

/** Null: done. Else what the disk holds instead; then nothing was done. */
export async function renameFile(
  root: string,
  { from, to, base }: Omit<Methods['file.rename']['ask'], 'library'>,
  disk: WriteDisk,
): Promise<Conflict | null> {
  const [source, target] = [await insideLibrary(root, from, isWritable), await insideLibrary(root, to, isWritable)];
  if (from === to) return null;
  const there = await stateOf(source, disk);
  if (there.hash !== base) return { path: from, ...there };
  const sameButCase = from.toLowerCase() === to.toLowerCase();
  const twin = await twinOf(root, to);
  if (!(sameButCase && twin === from) && (twin !== undefined || (await disk.modeOf(target)) !== undefined))
    throw new Refused(['thereAlready', twin ?? to]);
  await disk.makeFolder(path.dirname(target));
  await renamePatiently(source, target, disk);
  await disk.flushFolder(path.dirname(target));
  if (path.dirname(source) !== path.dirname(target)) await disk.flushFolder(path.dirname(source));
  return null;
}

/** Null: done, or it was gone already. */
export async function removeFile(root: string, own: string, base: string, disk: WriteDisk): Promise<Conflict | null> {
  const file = await insideLibrary(root, own, isWritable);
  if (own.toLowerCase() === 'library.yaml') throw new Refused(['libraryFile']);
  const there = await stateOf(file, disk);
  if (there.hash === null) return null;
  if (there.hash !== base) return { path: own, ...there };
  await disk.remove(file);
  await disk.flushFolder(path.dirname(file));
  return null;
}

/** A file in the same folder whose name differs at most in case: on many systems that is the same file. */
export async function twinOf(root: string, own: string): Promise<string | undefined> {
  const parts = own.split('/');
  const name = parts.pop() ?? '';
  const names = await readdir(path.join(root, ...parts)).catch((): string[] => []);
  const twin = names.includes(name) ? name : names.find((one) => one.toLowerCase() === name.toLowerCase());
  return twin === undefined ? undefined : [...parts, twin].join('/');
}
