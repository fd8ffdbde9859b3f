/** Libraries that were open last, the newest first. Keeps names only; whether they are still there is looked up when asked. */
import path from 'node:path';
import { libraryAt } from '../files/index.ts';
import type { WriteDisk } from '../saving/index.ts';
import { Kept } from './kept.ts';

export interface RecentLibrary {
  readonly folder: string;
  readonly name: string;
}

const MOST = 12;

export class RecentLibraries {
  private readonly kept: Kept<readonly RecentLibrary[]>;

  constructor(data: string, disk: WriteDisk) {
    this.kept = new Kept(path.join(data, 'recent.json'), disk, sound);
  }

  async list(): Promise<readonly (RecentLibrary & { readonly there: boolean })[]> {
    const all = await this.kept.read();
    return Promise.all(all.map(async (one) => ({ ...one, there: (await libraryAt(one.folder)) !== undefined })));
  }

  async opened(folder: string, name: string): Promise<void> {
    await this.kept.change((before) => [{ folder, name }, ...before.filter((one) => one.folder !== folder)].slice(0, MOST));
  }

  async forget(folder: string): Promise<void> {
    await this.kept.change((before) => before.filter((one) => one.folder !== folder));
  }
}

function sound(value: unknown): readonly RecentLibrary[] {
  if (!Array.isArray(value)) return [];
  return value
    .filter((one) => typeof one?.folder === 'string' && path.isAbsolute(one.folder) && typeof one.name === 'string')
    .map(({ folder, name }) => ({ folder, name }))
    .slice(0, MOST);
}
