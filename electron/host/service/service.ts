/** The host's side of the contract: one function a method. Knows no transport; which windows hear an event is the transport's affair. */
import path from 'node:path';
import { type HostEvent, METHODS, type MethodName, type Methods, misfit } from '../contract/index.ts';
import { readFigure, readFonts, readLibrary } from '../files/index.ts';
import { revisionsOf, textAt } from '../history/index.ts';
import { Journal } from '../journal/index.ts';
import { hashOf, insideLibrary, nodeWriteDisk, saveFiles, type WriteDisk, writeWhole } from '../saving/index.ts';
import { watchLibrary } from '../watch/index.ts';

export interface ServiceOptions {
  /** Folder of the user's own data: journal and the like. */
  readonly data: string;
  readonly sample: string;
  readonly open?: string;
  readonly tell: (event: HostEvent) => void;
  readonly disk?: WriteDisk;
}

/** A refusal in words for people. Every other error is a fault of the program. */
export class Refused extends Error {}

type Handlers = { readonly [M in MethodName]: (ask: Methods[M]['ask']) => Promise<Methods[M]['answer']> };

const LIBRARY = /^.+$/s;
const OUTPUT = /^[\w][\w.-]{0,120}\.(pdf|json|svg|vtt|md|txt)$/;

export class Service {
  private readonly roots = new Map<string, string>();
  private readonly watching = new Map<string, () => Promise<void>>();
  private readonly options: ServiceOptions;
  private readonly disk: WriteDisk;
  private readonly journal: Journal;

  constructor(options: ServiceOptions) {
    this.options = options;
    this.disk = options.disk ?? nodeWriteDisk;
    this.journal = new Journal(path.join(options.data, 'unsaved'), this.disk);
  }

  /** What is no method, or does not fit its shape, is refused before anything is done. */
  async call(method: string, ask: unknown): Promise<unknown> {
    if (!Object.hasOwn(METHODS, method)) throw new Refused(`There is nothing called "${method}" to ask for.`);
    const name = method as MethodName;
    const wrong = misfit(ask, METHODS[name].ask);
    if (wrong !== undefined) throw new Refused(`${name}: ${wrong}.`);
    return (this.handlers[name] as (ask: unknown) => Promise<unknown>)(ask);
  }

  async close(): Promise<void> {
    for (const stop of this.watching.values()) await stop();
    this.watching.clear();
  }

  private rootOf(library: string): string {
    const root = this.roots.get(library);
    if (root === undefined) throw new Refused('That library is not open.');
    return root;
  }

  private readonly handlers: Handlers = {
    'libraries.recent': async () => ({
      recent: [],
      sample: this.options.sample,
      ...(this.options.open === undefined ? {} : { open: this.options.open }),
    }),

    'library.open': async ({ folder }) => {
      if (!LIBRARY.test(folder) || !path.isAbsolute(folder)) throw new Refused('A library is named by its whole path.');
      const found = await readLibrary(folder).catch(() => undefined);
      if (!found?.paths.includes('library.yaml'))
        throw new Refused(
          `"${folder}" is not a library: it has no library.yaml. Choose the folder that holds library.yaml, registers and procedures.`,
        );
      const library = hashOf(new TextEncoder().encode(found.root)).slice(0, 16);
      this.roots.set(library, found.root);
      if (!this.watching.has(library))
        this.watching.set(
          library,
          watchLibrary(found.root, (changes) => this.options.tell({ event: 'changed', library, changes })),
        );
      return { library, folder: found.root, name: path.basename(found.root) };
    },

    'library.read': async ({ library }) => {
      const { texts, paths, refusals } = await readLibrary(this.rootOf(library));
      const encoder = new TextEncoder();
      const files = texts.map(({ path: own, text }) => ({ path: own, text, hash: hashOf(encoder.encode(text)) }));
      return { files, paths, refusals: refusals.map(({ path: own, message }) => ({ path: own, message })) };
    },

    'figure.read': async ({ library, path: own }) => {
      const bytes = await readFigure(this.rootOf(library), own);
      if (bytes === undefined) throw new Refused(`${own} is not there, is too large, or lies outside the library.`);
      return { base64: Buffer.from(bytes).toString('base64') };
    },

    'file.save': async ({ library, files }) => {
      const root = this.rootOf(library);
      return saveFiles(root, files, this.disk).catch(
        fault('Nothing else was written. Your text is kept in this window and in the journal.'),
      );
    },

    'journal.put': async ({ library, window, entries }) => {
      await this.journal.put(this.rootOf(library), window, entries).catch(fault('Unsaved text could not be put by; save soon.'));
      return {};
    },
    'journal.list': async ({ library }) => ({ entries: await this.journal.list(this.rootOf(library)) }),
    'journal.drop': async ({ library, window }) => {
      await this.journal.drop(this.rootOf(library), window);
      return {};
    },

    'output.write': async ({ library, name, base64 }) => {
      if (!OUTPUT.test(name)) throw new Refused(`"${name}" is no name for a file to write.`);
      const file = await insideLibrary(this.rootOf(library), `out/${name}`, /^out\/[^/]+$/);
      await writeWhole(file, Buffer.from(base64, 'base64'), this.disk).catch(fault('The file was not written.'));
      return { path: file };
    },

    'fonts.read': async () => ({
      faces: Object.fromEntries(Object.entries(await readFonts()).map(([face, bytes]) => [face, Buffer.from(bytes).toString('base64')])),
    }),

    'history.list': async ({ library, path: own }) => {
      const root = this.rootOf(library);
      await insideLibrary(root, own, LIBRARY);
      return { revisions: await revisionsOf(root, own) };
    },
    'history.read': async ({ library, path: own, revision }) => {
      const root = this.rootOf(library);
      await insideLibrary(root, own, LIBRARY);
      return { text: await textAt(root, own, revision) };
    },
  };
}

const REASONS: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EACCES: 'permission is denied',
  EPERM: 'permission is denied',
  EROFS: 'the disk can only be read',
  EIO: 'the disk reports a fault',
  EDQUOT: 'your share of the disk is used up',
};

/** A disk's error in words, with what was kept. */
const fault =
  (kept: string) =>
  (error: unknown): never => {
    const reason = REASONS[String((error as { code?: unknown }).code)];
    throw new Refused(`${reason === undefined ? (error as Error).message : `It could not be written: ${reason}.`} ${kept}`);
  };
