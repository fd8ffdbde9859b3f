/**
 * Unsaved text, kept outside the library until it is saved: one file a library and window, replaced whole each time. What cannot be read
 * back (a torn or foreign file) is left where it is and not offered.
 */
import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { type JournalEntry, METHODS, misfit } from '../contract/index.ts';
import { type WriteDisk, writeWhole } from '../saving/index.ts';

interface Kept {
  readonly version: 1;
  readonly root: string;
  readonly window: string;
  readonly entries: readonly JournalEntry[];
}

const SAFE = /^[\w-]{1,64}$/;
const hash = (text: string): string => createHash('sha256').update(text).digest('hex');
const shape = METHODS['journal.put'].ask as { readonly entries: Parameters<typeof misfit>[1] };

export class Journal {
  private readonly folder: string;
  private readonly disk: WriteDisk;

  constructor(folder: string, disk: WriteDisk) {
    this.folder = folder;
    this.disk = disk;
  }

  async put(root: string, window: string, entries: readonly JournalEntry[]): Promise<void> {
    if (entries.length === 0) return this.drop(root, window);
    const body = JSON.stringify({ version: 1, root, window, entries } satisfies Kept);
    await writeWhole(this.file(root, window), new TextEncoder().encode(`${hash(body)}\n${body}`), this.disk);
  }

  async list(root: string): Promise<readonly (JournalEntry & { readonly window: string })[]> {
    const names = (await readdir(this.folderOf(root)).catch(() => [])).filter((name) => name.endsWith('.journal')).sort();
    const out: (JournalEntry & { readonly window: string })[] = [];
    for (const name of names) {
      const kept = parse(await readFile(path.join(this.folderOf(root), name), 'utf8').catch(() => ''));
      if (kept?.root === root) out.push(...kept.entries.map((entry) => ({ ...entry, window: kept.window })));
    }
    return out;
  }

  /** Without a window: those of all. */
  async drop(root: string, window?: string): Promise<void> {
    if (window !== undefined) return this.disk.remove(this.file(root, window));
    for (const name of await readdir(this.folderOf(root)).catch(() => [])) await this.disk.remove(path.join(this.folderOf(root), name));
  }

  private folderOf(root: string): string {
    return path.join(this.folder, hash(root).slice(0, 24));
  }

  private file(root: string, window: string): string {
    if (!SAFE.test(window)) throw new Error('This is no name of a window.');
    return path.join(this.folderOf(root), `${window}.journal`);
  }
}

function parse(text: string): Kept | undefined {
  const at = text.indexOf('\n');
  const body = text.slice(at + 1);
  if (at !== 64 || hash(body) !== text.slice(0, at)) return undefined;
  const kept = JSON.parse(body) as Kept;
  return kept.version === 1 && misfit(kept.entries, shape.entries) === undefined ? kept : undefined;
}
