/** The demo library as a folder that the user may write in: packed with the program it lies where nothing may be changed. */
import { cp, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { libraryAt } from './host/files/index.ts';

/** `packed`: where it came with the program. The copy is made once, and is whole or not there. */
export async function writableSample(packed: string, data: string): Promise<string> {
  const own = path.join(data, 'sample-procedures');
  if ((await libraryAt(own)) !== undefined) return own;
  const beside = path.join(data, `.sample-${process.pid}`);
  try {
    await rm(beside, { recursive: true, force: true });
    await cp(packed, beside, { recursive: true });
    await rename(beside, own);
    return own;
  } catch {
    await rm(beside, { recursive: true, force: true }).catch(() => undefined);
    return packed;
  }
}
