/**
 * Unsaved text, kept outside the library until it is saved: one file a library and window, replaced whole each time. What cannot be read
 * back (a torn or foreign file) is left where it is and not offered. Which windows of this run are still there is for the caller to know.
 */
import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { JOURNAL_ENTRY, type JournalEntry, misfit, Refused, type Shape } from '../contract/index.ts';
import { Turns, type WriteDisk, writeWhole } from '../saving/index.ts';
import type { Alive } from './alive.ts';

interface Kept {
  readonly version: 1;
  readonly root: string;
  readonly window: string;
  /** Which run of the program wrote it, where that can be told. */
  readonly host?: string;
  readonly entries: readonly JournalEntry[];
}

export type Offered = JournalEntry & { readonly window: string };

const SAFE = /^[\w-]{1,64}$/;
const ENDING = '.journal';
const hash = (text: string): string => createHash('sha256').update(text).digest('hex');
const KEPT: Shape = { root: 'text', window: 'text', host: 'text?', entries: [JOURNAL_ENTRY] };

export class Journal {
  private readonly folder: string;
  private readonly disk: WriteDisk;
  /** What was typed last must be what is kept last, however long one write takes. */
  private readonly turns = new Turns();
  private readonly alive: Pick<Alive, 'name' | 'isThere'>;

  constructor(folder: string, disk: WriteDisk, alive: Pick<Alive, 'name' | 'isThere'> = { name: undefined, isThere: async () => false }) {
    this.folder = folder;
    this.disk = disk;
    this.alive = alive;
  }

  async put(root: string, window: string, entries: readonly JournalEntry[]): Promise<void> {
    if (entries.length === 0) return this.drop(root, window);
    const file = this.file(root, window);
    const { name } = this.alive;
    const body = JSON.stringify({ version: 1, root, window, ...(name === undefined ? {} : { host: name }), entries } satisfies Kept);
    await this.turns.run(file, () => writeWhole(file, new TextEncoder().encode(`${hash(body)}\n${body}`), this.disk));
  }

  /** Sorted by window, each window's entries in their own order. `hidden`: windows whose text is not lost, since they are open. */
  async list(root: string, hidden: (window: string) => boolean = () => false): Promise<readonly Offered[]> {
    const lost = await this.lost(root, hidden);
    return lost.flatMap(({ window, entries }) => entries.map((entry) => ({ ...entry, window })));
  }

  async drop(root: string, window: string): Promise<void> {
    const file = this.file(root, window);
    await this.turns.run(file, () => this.disk.remove(file));
  }

  /** All that is listed. */
  async dropAll(root: string, hidden: (window: string) => boolean = () => false): Promise<void> {
    for (const { window } of await this.lost(root, hidden)) await this.drop(root, window);
  }

  /** When what was to be kept so far is kept. */
  settled(): Promise<void> {
    return this.turns.all();
  }

  /** Of windows that are gone: neither hidden, nor of another run of the program that is still there. */
  private async lost(root: string, hidden: (window: string) => boolean): Promise<readonly Kept[]> {
    const out: Kept[] = [];
    for (const window of await this.windows(root)) {
      if (hidden(window)) continue;
      const kept = parse(await readFile(this.file(root, window), 'utf8').catch(() => ''));
      if (kept?.root !== root || kept.window !== window) continue;
      const elsewhere = kept.host !== undefined && kept.host !== this.alive.name && (await this.alive.isThere(kept.host));
      if (!elsewhere) out.push(kept);
    }
    return out;
  }

  private async windows(root: string): Promise<readonly string[]> {
    const names = await readdir(this.folderOf(root)).catch((): string[] => []);
    return names
      .filter((name) => name.endsWith(ENDING))
      .map((name) => name.slice(0, -ENDING.length))
      .filter((window) => SAFE.test(window))
      .sort();
  }

  private folderOf(root: string): string {
    return path.join(this.folder, hash(root).slice(0, 24));
  }

  private file(root: string, window: string): string {
    if (!SAFE.test(window)) throw new Refused('This is no name of a window.');
    return path.join(this.folderOf(root), `${window}${ENDING}`);
  }
}

/** Undefined: torn, of another version, or not ours. */
function parse(text: string): Kept | undefined {
  const at = text.indexOf('\n');
  const body = text.slice(at + 1);
  if (at !== 64 || hash(body) !== text.slice(0, at)) return undefined;
  try {
    const { version, ...rest } = JSON.parse(body) as Kept;
    return version === 1 && misfit(rest, KEPT) === undefined ? { version, ...rest } : undefined;
  } catch {
    return undefined;
  }
}
