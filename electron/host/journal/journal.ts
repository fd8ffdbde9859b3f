/**
 * Unsaved text, kept outside the library until it is saved: one file a library and window, replaced whole each time. What cannot be read
 * back (a torn or foreign file) is left where it is and not offered. Which windows of this run are still there is for the caller to know.
 *
 * A kill may fall between a save and the word of it, so an entry also keeps which bytes were last being saved out of it: a disk that holds those
 * was written by the very window that wrote the entry, and by nobody else.
 */
import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { JOURNAL_ENTRY, type JournalEntry, misfit, Refused, type Shape } from '../contract/index.ts';
import { Turns, type WriteDisk, writeWhole } from '../saving/index.ts';
import type { Alive } from './alive.ts';

interface KeptEntry extends JournalEntry {
  /** Name of the bytes that were being saved over `base`. */
  readonly sent?: string | undefined;
}

interface Kept {
  readonly version: 1;
  readonly root: string;
  readonly window: string;
  /** When, as ISO 8601: of two windows that had one file, the last to write is known. */
  readonly at?: string;
  /** Which run of the program wrote it, where that can be told. */
  readonly host?: string;
  readonly entries: readonly KeptEntry[];
}

/** `hash` names what the disk holds; null: there is no such file. */
type OnDisk = (path: string) => Promise<string | null>;

export type Offered = JournalEntry & { readonly window: string };

const SAFE = /^[\w-]{1,64}$/;
const ENDING = '.journal';
const hash = (text: string): string => createHash('sha256').update(text).digest('hex');
const KEPT: Shape = { root: 'text', window: 'text', at: 'text?', host: 'text?', entries: [{ ...JOURNAL_ENTRY, sent: 'text?' }] };

export class Journal {
  private readonly folder: string;
  private readonly disk: WriteDisk;
  /** What was typed last must be what is kept last, however long one write takes. */
  private readonly turns = new Turns();
  private readonly alive: Pick<Alive, 'name' | 'isThere'>;
  /** By journal file: what was kept last in this run, and by path what was last being saved over which bytes. */
  private readonly last = new Map<string, readonly KeptEntry[]>();
  private readonly saves = new Map<string, Map<string, { readonly base: string | null; readonly sent: string }>>();

  constructor(folder: string, disk: WriteDisk, alive: Pick<Alive, 'name' | 'isThere'> = { name: undefined, isThere: async () => false }) {
    this.folder = folder;
    this.disk = disk;
    this.alive = alive;
  }

  async put(root: string, window: string, entries: readonly JournalEntry[]): Promise<void> {
    if (entries.length === 0) return this.drop(root, window);
    const saves = this.saves.get(this.file(root, window));
    await this.keep(
      root,
      window,
      entries.map((entry) => {
        const save = saves?.get(entry.path);
        return save?.base === entry.base ? { ...entry, sent: save.sent } : entry;
      }),
    );
  }

  /**
   * Before the window saves these texts. What is kept of them is from now on at least as new as what is saved, so that an older text is never
   * offered over a newer one.
   */
  async sending(root: string, window: string, files: readonly JournalEntry[]): Promise<void> {
    const file = this.file(root, window);
    const saves = this.saves.get(file) ?? new Map();
    this.saves.set(file, saves);
    const sent = new Map(files.map((one) => [one.path, { ...one, sent: hash(one.text) }]));
    for (const [path, one] of sent) saves.set(path, { base: one.base, sent: one.sent });
    const last = this.last.get(file) ?? [];
    if (last.some(({ path }) => sent.has(path))) {
      await this.keep(
        root,
        window,
        last.map((one) => sent.get(one.path) ?? one),
      );
    }
  }

  /** Oldest first, each window's entries in their own order. `hidden`: windows whose text is not lost, since they are open. */
  async list(root: string, hidden: (window: string) => boolean = () => false): Promise<readonly Offered[]> {
    const lost = await this.lost(root, hidden);
    return lost.flatMap(({ window, entries }) => entries.map(({ path, base, text }) => ({ path, base, text, window })));
  }

  /**
   * What is listed and not on disk; a journal that holds nothing else is dropped, or it would come back as news when the disk has moved on. Where
   * the disk holds what the window itself was saving, that is the base.
   */
  async unsaved(root: string, onDisk: OnDisk, hidden: (window: string) => boolean = () => false): Promise<readonly Offered[]> {
    const out: Offered[] = [];
    for (const { window, entries } of await this.lost(root, hidden)) {
      const before = out.length;
      for (const { path, base, text, sent } of entries) {
        const there = await onDisk(path);
        if (there !== hash(text)) out.push({ path, base: there !== null && there === sent ? there : base, text, window });
      }
      if (out.length === before) await this.drop(root, window);
    }
    return out;
  }

  /** Whatever any window keeps, those that are open and those of other runs too. */
  async every(root: string): Promise<readonly JournalEntry[]> {
    await this.turns.all();
    const kept = await Promise.all((await this.windows(root)).map((window) => this.read(root, window)));
    return kept.flatMap((own) => own?.entries ?? []);
  }

  async drop(root: string, window: string): Promise<void> {
    const file = this.file(root, window);
    this.last.delete(file);
    await this.turns.run(file, () => this.disk.remove(file));
  }

  /** All that is listed. */
  async dropAll(root: string, hidden: (window: string) => boolean = () => false): Promise<void> {
    for (const { window } of await this.lost(root, hidden)) await this.drop(root, window);
  }

  private async keep(root: string, window: string, entries: readonly KeptEntry[]): Promise<void> {
    const file = this.file(root, window);
    const { name } = this.alive;
    const at = new Date().toISOString();
    const kept: Kept = { version: 1, root, window, at, ...(name === undefined ? {} : { host: name }), entries };
    const body = JSON.stringify(kept);
    this.last.set(file, entries);
    await this.turns.run(file, () => writeWhole(file, new TextEncoder().encode(`${hash(body)}\n${body}`), this.disk));
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
      const kept = await this.read(root, window);
      if (!kept) continue;
      const elsewhere = kept.host !== undefined && kept.host !== this.alive.name && (await this.alive.isThere(kept.host));
      if (!elsewhere) out.push(kept);
    }
    // Where two cannot be told apart, by name, so that the order is the same every time.
    return out.sort((a, b) => (a.at ?? '').localeCompare(b.at ?? ''));
  }

  private async read(root: string, window: string): Promise<Kept | undefined> {
    const kept = parse(await readFile(this.file(root, window), 'utf8').catch(() => ''));
    return kept?.root === root && kept.window === window ? kept : undefined;
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
    if (!SAFE.test(window)) throw new Refused(['odd', 'This is no name of a window.']);
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
