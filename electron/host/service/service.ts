/** The host's side of the contract: holds a request against its shape and hands it to its handler. Knows no transport. */
import { mkdir, readdir } from 'node:fs/promises';
import path from 'node:path';
import { Cache } from '../cache/index.ts';
import { type DiskChange, METHODS, type MethodName, misfit, Refused, type Settings, soundSettings } from '../contract/index.ts';
import { Alive, Journal } from '../journal/index.ts';
import { Kept, RecentLibraries } from '../kept/index.ts';
import { hashOf, nodeWriteDisk, removeLeftovers, Turns } from '../saving/index.ts';
import { type Since, type Watching, watchLibrary } from '../watch/index.ts';
import { earlier } from './earlier.ts';
import { figureWork } from './figure-work.ts';
import { fileWork } from './file-work.ts';
import type { Caller, Handlers, Inner, ServiceOptions } from './inner.ts';
import { libraryWork } from './library-work.ts';
import { output, outputPlace } from './output.ts';
import { personal } from './personal.ts';
import { unsaved } from './unsaved.ts';

export class Service {
  private readonly roots = new Map<string, string>();
  private readonly watching = new Map<string, Watching>();
  /** Windows that are there, each with the journals that it keeps, as root and window. */
  private readonly windows = new Map<Caller, Set<string>>();
  private readonly inner: Inner;
  private readonly handlers: Handlers;
  private readonly ready: Promise<unknown>;
  private readonly alive: Alive;
  private closed = false;

  constructor(options: ServiceOptions) {
    const disk = options.disk ?? nodeWriteDisk;
    this.alive = new Alive(options.data);
    // Unsaved text is nobody else's business.
    this.ready = mkdir(options.data, { recursive: true, mode: 0o700 }).then(
      () => this.alive.begin(),
      () => undefined,
    );
    void this.ready.then(() => sweepData(options.data));
    this.inner = {
      options,
      disk,
      journal: new Journal(path.join(options.data, 'unsaved'), disk, this.alive),
      cache: new Cache(path.join(options.data, 'cache'), disk),
      recent: new RecentLibraries(options.data, disk),
      settings: new Kept(path.join(options.data, 'settings.json'), disk, soundSettings),
      turns: new Turns(),
      chosen: new Set(),
      rootOf: (library) => {
        const root = this.roots.get(library);
        if (root === undefined) throw new Refused(['notOpen']);
        return root;
      },
      opened: (root) => this.opened(root),
      watch: (root, since) => this.watch(root, since),
      elsewhere: (caller, root, window) =>
        [...this.windows].some(([one, journals]) => one !== caller && journals.has(journalName(root, window))),
      keeps: (caller, root, window) => void this.windows.get(caller)?.add(journalName(root, window)),
    };
    this.handlers = {
      ...libraryWork(this.inner),
      ...fileWork(this.inner),
      ...figureWork(this.inner),
      ...unsaved(this.inner),
      ...output(this.inner),
      ...earlier(this.inner),
      ...personal(this.inner),
    };
  }

  /** What is no method, or does not fit its shape, is refused before anything is done. */
  async call(method: string, ask: unknown, caller: Caller): Promise<unknown> {
    if (!Object.hasOwn(METHODS, method)) throw new Refused(['odd', `There is nothing called "${method}" to ask for.`]);
    const name = method as MethodName;
    const wrong = misfit(ask, METHODS[name].ask);
    if (wrong !== undefined) throw new Refused(['odd', `${name}: ${wrong}.`]);
    await this.ready;
    return (this.handlers[name] as (ask: unknown, caller: Caller) => Promise<unknown>)(ask, caller);
  }

  /** A window is there: the journal that it writes is not offered to others. */
  arrived(caller: Caller): void {
    if (!this.windows.has(caller)) this.windows.set(caller, new Set());
  }

  /** It is gone, or lost: what it had not saved is offered to the next. */
  left(caller: Caller): void {
    this.windows.delete(caller);
  }

  get recent(): RecentLibraries {
    return this.inner.recent;
  }

  settings(): Promise<Settings> {
    return this.inner.settings.read();
  }

  /** The place of a written file, for a transport that serves it. */
  async outputFile(library: string, name: string): Promise<string> {
    return outputPlace(this.inner.rootOf(library), name);
  }

  /** When what was asked to be written is written. */
  async close(): Promise<void> {
    this.closed = true;
    await this.inner.turns.all();
    await this.inner.journal.settled();
    await this.ready;
    await this.alive.end();
    await this.inner.cache.settled();
    for (const { stop } of this.watching.values()) await stop();
    this.watching.clear();
  }

  private opened(root: string): string {
    const library = libraryOf(root);
    this.roots.set(library, root);
    return library;
  }

  /** Begins when the window has its texts: both at once would take twice as long. Nothing is missed, since it is told what was read. */
  private watch(root: string, since: Since): void {
    const library = libraryOf(root);
    if (this.watching.has(library) || this.closed) return;
    const told = (changes: readonly DiskChange[]): void => this.inner.options.tell({ event: 'changed', library, changes });
    this.watching.set(library, watchLibrary(root, told, since));
  }
}

const libraryOf = (root: string): string => hashOf(new TextEncoder().encode(root)).slice(0, 16);
const journalName = (root: string, window: string): string => `${root}\0${window}`;

/** What a crash left beside the user's own records. */
async function sweepData(data: string): Promise<void> {
  const libraries = await readdir(path.join(data, 'unsaved')).catch((): string[] => []);
  await removeLeftovers(data, ['.', 'cache', ...libraries.map((name) => `unsaved/${name}`)], Date.now());
}
