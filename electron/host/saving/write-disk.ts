/** What writing asks of a disk, so that tests can stand in one that fails between any two of these. */
import { chmod, mkdir, open, readFile, rename, stat, unlink } from 'node:fs/promises';

export interface WriteDisk {
  /** Undefined: there is no such file. */
  readonly read: (file: string) => Promise<Uint8Array | undefined>;
  /** Who may do what with the file, as the system counts it. Undefined: there is no such file. */
  readonly modeOf: (file: string) => Promise<number | undefined>;
  /** Writes a new file and has it flushed to the disk itself. Without a mode: what is usual. */
  readonly writeFlushed: (file: string, bytes: Uint8Array, mode?: number) => Promise<void>;
  readonly rename: (from: string, to: string) => Promise<void>;
  readonly remove: (file: string) => Promise<void>;
  readonly makeFolder: (folder: string) => Promise<void>;
  /** So that a rename survives a power cut. Systems that know no such thing do nothing. */
  readonly flushFolder: (folder: string) => Promise<void>;
}

const code = (error: unknown): string => String((error as { code?: unknown }).code);

const absent =
  (...codes: readonly string[]) =>
  (error: unknown): undefined => {
    if (!codes.includes(code(error))) throw error;
  };

export const nodeWriteDisk: WriteDisk = {
  read: (file) => readFile(file).catch(absent('ENOENT', 'ENOTDIR')),
  modeOf: async (file) => (await stat(file).catch(absent('ENOENT', 'ENOTDIR')))?.mode,
  async writeFlushed(file, bytes, mode) {
    const handle = await open(file, 'wx', 0o666);
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
    // A file that others may not read stays so; disks that know no such thing keep what is usual.
    if (mode !== undefined) await chmod(file, mode & 0o777).catch(() => undefined);
  },
  rename,
  remove: (file) => unlink(file).catch(absent('ENOENT')),
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
