/** Writes a file whole or not at all: beside it first, flushed, then put in its place in one go. A crash leaves the old file or the new one. */
import { randomUUID } from 'node:crypto';
import path from 'node:path';
import type { WriteDisk } from './write-disk.ts';

/** Names of files that a crash may leave behind; `leftovers.ts` takes them away. Short, since a name may be as long as the system allows. */
export const BESIDE = /^\.hc-[0-9a-f-]{36}\.part$/;

/** On Windows a scanner or an indexer may hold the file for a moment. Milliseconds before each further try. */
const WAITS = [10, 30, 90, 270];
const HELD: ReadonlySet<unknown> = new Set(['EPERM', 'EBUSY', 'EACCES']);

/** False: `still` said no at the last moment, and nothing was changed. */
export async function writeWhole(
  file: string,
  bytes: Uint8Array,
  disk: WriteDisk,
  still: () => Promise<boolean> = async () => true,
): Promise<boolean> {
  const folder = path.dirname(file);
  await disk.makeFolder(folder);
  const beside = path.join(folder, `.hc-${randomUUID()}.part`);
  try {
    await disk.writeFlushed(beside, bytes, await disk.modeOf(file));
    if (!(await still())) {
      await disk.remove(beside);
      return false;
    }
    await renamePatiently(beside, file, disk);
  } catch (error) {
    await disk.remove(beside).catch(() => undefined);
    throw error;
  }
  await disk.flushFolder(folder);
  return true;
}

export async function renamePatiently(from: string, to: string, disk: WriteDisk): Promise<void> {
  for (const wait of WAITS) {
    try {
      return await disk.rename(from, to);
    } catch (error) {
      if (!HELD.has((error as { code?: unknown }).code)) throw error;
      await new Promise((resolve) => setTimeout(resolve, wait));
    }
  }
  return disk.rename(from, to);
}
