/** The few things asked of a disk, so that tests can stand in one that fails, is slow or writes paths the other way. Decides nothing. */
import { readdir, readFile, realpath, stat } from 'node:fs/promises';
import path from 'node:path';

export interface Entry {
  readonly name: string;
  readonly kind: 'file' | 'folder' | 'link' | 'other';
}

export interface Disk {
  /** The path style of this disk. */
  readonly path: Pick<typeof path, 'sep' | 'join' | 'relative' | 'isAbsolute'>;
  readonly list: (folder: string) => Promise<readonly Entry[]>;
  /** Follows links. Size in bytes; when it was last written, in milliseconds, where the disk says. */
  readonly stat: (file: string) => Promise<{ readonly kind: Entry['kind']; readonly size: number; readonly written?: number }>;
  readonly real: (file: string) => Promise<string>;
  readonly read: (file: string) => Promise<Uint8Array>;
}

interface Kinds {
  isFile(): boolean;
  isDirectory(): boolean;
  isSymbolicLink(): boolean;
}

function kindOf(entry: Kinds): Entry['kind'] {
  if (entry.isSymbolicLink()) return 'link';
  if (entry.isDirectory()) return 'folder';
  return entry.isFile() ? 'file' : 'other';
}

export const nodeDisk: Disk = {
  path,
  list: async (folder) => (await readdir(folder, { withFileTypes: true })).map((entry) => ({ name: entry.name, kind: kindOf(entry) })),
  stat: async (file) => {
    const found = await stat(file);
    return { kind: kindOf(found), size: found.size, written: found.mtimeMs };
  },
  real: (file) => realpath(file),
  read: (file) => readFile(file),
};
