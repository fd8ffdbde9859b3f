/** What writing asks of a disk, so that tests can stand in one that fails between any two of these. */
import { mkdir, open, readFile, rename, unlink } from 'node:fs/promises';

export interface WriteDisk {
  /** Undefined: there is no such file. */
  readonly read: (file: string) => Promise<Uint8Array | undefined>;
  /** Writes a new file and has it flushed to the disk itself. */
  readonly writeFlushed: (file: string, bytes: Uint8Array) => Promise<void>;
  readonly rename: (from: string, to: string) => Promise<void>;
  readonly remove: (file: string) => Promise<void>;
  readonly makeFolder: (folder: string) => Promise<void>;
  /** So that a rename survives a power cut. Systems that know no such thing do nothing. */
  readonly flushFolder: (folder: string) => Promise<void>;
}

const code = (error: unknown): string => String((error as { code?: unknown }).code);

export const nodeWriteDisk: WriteDisk = {
  async read(file) {
    try {
      return await readFile(file);
    } catch (error) {
      if (code(error) === 'ENOENT') return undefined;
      throw error;
    }
  },
  async writeFlushed(file, bytes) {
    const handle = await open(file, 'wx', 0o644);
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
  },
  rename,
  async remove(file) {
    await unlink(file).catch((error) => {
      if (code(error) !== 'ENOENT') throw error;
    });
  },
  async makeFolder(folder) {
    await mkdir(folder, { recursive: true });
  },
  async flushFolder(folder) {
    try {
      const handle = await open(folder, 'r');
      await handle.sync().finally(() => handle.close());
    } catch {
      // Windows opens no folders.
    }
  },
};
