/** Saves texts of a library. What changed on disk meanwhile is never overwritten but given back; a path never leaves the library. */
import { createHash } from 'node:crypto';
import type { Conflict, Methods } from '../contract/index.ts';
import { isWritable } from '../files/index.ts';
import { insideLibrary } from './inside.ts';
import type { WriteDisk } from './write-disk.ts';
import { writeWhole } from './write-whole.ts';

type Save = Methods['file.save'];

export const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** One save at a time in one library: the caller sees to that. */
export async function saveFiles(root: string, files: Save['ask']['files'], disk: WriteDisk): Promise<Save['answer']> {
  const saved: { path: string; hash: string }[] = [];
  const conflicts: Conflict[] = [];
  for (const { path: own, base, text } of files) {
    const file = await insideLibrary(root, own, isWritable);
    const bytes = new TextEncoder().encode(text);
    const wanted = hashOf(bytes);
    let there = await stateOf(file, disk);
    if (there.hash !== wanted && there.hash === base) {
      // Looked at once more when the new text already lies beside the file, so that the moment in which another program's save could be lost is as short as can be.
      const still = async (): Promise<boolean> => {
        there = await stateOf(file, disk);
        return there.hash === base;
      };
      if (await writeWhole(file, bytes, disk, still)) there = { hash: wanted, text };
    }
    if (there.hash === wanted) saved.push({ path: own, hash: wanted });
    else conflicts.push({ path: own, ...there });
  }
  return { saved, conflicts };
}

/** A file as the disk holds it; both null: there is none. */
export async function stateOf(file: string, disk: WriteDisk): Promise<{ readonly text: string | null; readonly hash: string | null }> {
  const bytes = await disk.read(file);
  if (bytes === undefined) return { text: null, hash: null };
  return { text: new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes), hash: hashOf(bytes) };
}
