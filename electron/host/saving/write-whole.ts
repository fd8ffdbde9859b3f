/** Writes a file whole or not at all: beside it first, flushed, then put in its place in one go. A crash leaves the old file or the new one. */
import { randomUUID } from 'node:crypto';
import path from 'node:path';
import type { WriteDisk } from './write-disk.ts';

export async function writeWhole(file: string, bytes: Uint8Array, disk: WriteDisk): Promise<void> {
  const folder = path.dirname(file);
  await disk.makeFolder(folder);
  const beside = path.join(folder, `.${path.basename(file)}.${randomUUID()}.part`);
  try {
    await disk.writeFlushed(beside, bytes);
    await disk.rename(beside, file);
  } catch (error) {
    await disk.remove(beside).catch(() => undefined);
    throw error;
  }
  await disk.flushFolder(folder);
}
