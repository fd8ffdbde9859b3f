/**
 * What a page worked out and may work out again: opaque texts by library and name, kept between runs. Never trusted: what is torn, too old
 * or too much is as if it were not there, and failing to keep it is no failure.
 */
import { createHash } from 'node:crypto';
import { readdir, readFile, stat, unlink } from 'node:fs/promises';
import path from 'node:path';
import { Turns, type WriteDisk, writeWhole } from '../saving/index.ts';

const NAME = /^[\w-]{1,64}$/;
/** Letters of one text, and bytes of all on disk. */
const LARGEST = 100_000_000;
const ALL = 400_000_000;

const hash = (text: string): string => createHash('sha256').update(text).digest('hex');

export class Cache {
  private readonly folder: string;
  private readonly disk: WriteDisk;
  private readonly most: number;
  private readonly turns = new Turns();

  /** `most`: bytes of all texts together. */
  constructor(folder: string, disk: WriteDisk, most = ALL) {
    this.folder = folder;
    this.disk = disk;
    this.most = most;
  }

  async read(root: string, name: string): Promise<string | undefined> {
    const kept = await readFile(this.file(root, name), 'utf8').catch(() => '');
    const text = kept.slice(65);
    return kept[64] === '\n' && hash(text) === kept.slice(0, 64) ? text : undefined;
  }

  /** False: it was not kept. */
  async write(root: string, name: string, text: string): Promise<boolean> {
    if (!NAME.test(name) || text.length > LARGEST) return false;
    return this.turns.run(this.folder, async () => {
      try {
        await writeWhole(this.file(root, name), new TextEncoder().encode(`${hash(text)}\n${text}`), this.disk);
        await this.makeRoom();
        return true;
      } catch {
        return false;
      }
    });
  }

  settled(): Promise<void> {
    return this.turns.all();
  }

  /** The oldest go first. */
  private async makeRoom(): Promise<void> {
    const names = await readdir(this.folder);
    const files = await Promise.all(
      names.map(async (name) => {
        const file = path.join(this.folder, name);
        const { size, mtimeMs } = await stat(file);
        return { file, size, mtimeMs };
      }),
    );
    let left = files.reduce((sum, { size }) => sum + size, 0);
    for (const { file, size } of files.sort((a, b) => a.mtimeMs - b.mtimeMs)) {
      if (left <= this.most) return;
      await unlink(file).catch(() => undefined);
      left -= size;
    }
  }

  private file(root: string, name: string): string {
    return path.join(this.folder, `${hash(`${root}\0${name}`).slice(0, 40)}.cache`);
  }
}
