/** Everything the page may ask of the host: one table of names, each with the shapes of request and answer. The types follow from it. No Node here. */
import { CONFLICT, HOST_FILE, JOURNAL_ENTRY, PAGE_MENU, SETTINGS_KEPT } from './records.ts';
import type { Of, Shape } from './shape.ts';

interface Method {
  readonly ask: Shape;
  readonly answer: Shape;
  /** Whether it changes anything on disk. */
  readonly writes: boolean;
}

const NOTHING = {} as const;
const LIBRARY = { library: 'text' } as const;
const FILE = { library: 'text', path: 'text' } as const;

export const METHODS = {
  /**
   * `open`: the library that this window was opened for, `show`: the file of it that was asked for. `chooser`: whether `folder.choose`
   * shows the system's own dialog, or the page offers what `folder.list` gives.
   */
  'libraries.recent': {
    ask: NOTHING,
    answer: {
      recent: [{ folder: 'text', name: 'text', there: 'flag' }],
      sample: 'text',
      open: 'text?',
      show: 'text?',
      chooser: ['words', 'system', 'page'],
    },
    writes: false,
  },
  'libraries.forget': { ask: { folder: 'text' }, answer: NOTHING, writes: true },
  'library.open': { ask: { folder: 'text' }, answer: { library: 'text', folder: 'text', name: 'text' }, writes: false },
  /** A new folder with a `library.yaml` and the registers, in a folder that was chosen or listed. The answer is for `library.open`. */
  'library.create': { ask: { folder: 'text', name: 'text', publisher: 'text' }, answer: { folder: 'text' }, writes: true },
  'library.read': {
    ask: LIBRARY,
    answer: { files: [HOST_FILE], paths: ['text'], refusals: [{ path: 'text', said: ['text'] }] },
    writes: false,
  },
  /** Names the state of all files that are no texts, by size and time, without reading them. */
  'library.stamp': { ask: LIBRARY, answer: { stamp: 'text' }, writes: false },
  /** The system's own dialog; no folder: the user thought better of it. */
  'folder.choose': { ask: { title: 'text' }, answer: { folder: 'text?' }, writes: false },
  /** Folders below the user's own; without a folder, where to begin. No `parent`: one cannot go further up. */
  'folder.list': {
    ask: { folder: 'text?' },
    answer: { folder: 'text?', parent: 'text?', folders: [{ folder: 'text', name: 'text', library: 'flag' }] },
    writes: false,
  },
  /** A file whose bytes on disk are no longer those of `base` is left alone and given back as a conflict. `window`: whose journal has them. */
  'file.save': {
    ask: { library: 'text', window: 'text?', files: [JOURNAL_ENTRY] },
    answer: { saved: [{ path: 'text', hash: 'text' }], conflicts: [CONFLICT] },
    writes: true,
  },
  /** One text, also of those that `library.read` leaves out (narration); null: there is none. */
  'file.read': { ask: FILE, answer: { file: ['or null', HOST_FILE] }, writes: false },
  /** Never over another file. A conflict: the disk no longer holds `base`, and nothing was done. */
  'file.rename': {
    ask: { library: 'text', from: 'text', to: 'text', base: 'text' },
    answer: { conflict: ['or null', CONFLICT] },
    writes: true,
  },
  'file.remove': { ask: { ...FILE, base: 'text' }, answer: { conflict: ['or null', CONFLICT] }, writes: true },
  'figure.read': { ask: FILE, answer: { base64: 'text' }, writes: false },
  /** Adds a figure. One of that name with other content is refused, the same content is fine. `added`: it was not there before. */
  'figure.write': { ask: { library: 'text', name: 'text', base64: 'text' }, answer: { path: 'text', added: 'flag' }, writes: true },
  /**
   * Only a figure that this window added since the host began, that is as it was added, and that nothing refers to. `usedIn`: what refers to
   * it, saved or not; then it stays.
   */
  'figure.remove': { ask: FILE, answer: { removed: 'flag', usedIn: ['text'] }, writes: true },
  'journal.put': { ask: { library: 'text', window: 'text', entries: [JOURNAL_ENTRY] }, answer: NOTHING, writes: true },
  /** What windows that are gone had not saved, oldest first. A `base` that the disk does not hold: it was written by somebody else since. */
  'journal.list': { ask: LIBRARY, answer: { entries: [{ ...JOURNAL_ENTRY, window: 'text' }] }, writes: true },
  /** Without a window: of all that are gone, and of this one. */
  'journal.drop': { ask: { library: 'text', window: 'text?' }, answer: NOTHING, writes: true },
  'output.write': { ask: { library: 'text', name: 'text', base64: 'text' }, answer: { path: 'text' }, writes: true },
  /** Shows a file that was written: to read it, to print it, or its place. `address`: the page is to open it itself. */
  'output.show': {
    ask: { library: 'text', name: 'text', how: ['words', 'read', 'print', 'folder'] },
    answer: { address: 'text?' },
    writes: false,
  },
  /** Base64 by face. */
  'fonts.read': { ask: NOTHING, answer: { faces: ['by name', 'text'] }, writes: false },
  /** Of a document and of all that it is read with, newest first: a register may change what it says. */
  'history.around': {
    ask: FILE,
    answer: { revisions: [{ id: 'text', date: 'text', author: 'text', subject: 'text' }] },
    writes: false,
  },
  /** All texts of that revision that documents are read with, and documents, by path. */
  'history.library': { ask: { library: 'text', revision: 'text' }, answer: { texts: ['by name', 'text'] }, writes: false },
  /** Base64 of every figure of that revision, by path; null: as the disk holds it now. */
  'history.figures': { ask: { library: 'text', revision: 'text' }, answer: { figures: ['by name', 'text or null'] }, writes: false },
  'settings.read': { ask: NOTHING, answer: { settings: SETTINGS_KEPT }, writes: false },
  'settings.write': { ask: { name: 'text', value: 'text' }, answer: { settings: SETTINGS_KEPT }, writes: true },
  /** Opaque to the host, and gone without notice; null: work it out. The name tells the kind and the version of what is kept. */
  'cache.read': { ask: { library: 'text', name: 'text' }, answer: { text: 'text or null' }, writes: false },
  'cache.write': { ask: { library: 'text', name: 'text', text: 'text' }, answer: { kept: 'flag' }, writes: true },
  /** The page's menus, in its language, for a shell that has a menu of its own. Elsewhere nothing happens. */
  'menu.set': { ask: { menus: [PAGE_MENU] }, answer: NOTHING, writes: false },
} as const satisfies Readonly<Record<string, Method>>;

export type MethodName = keyof typeof METHODS;

export type Methods = {
  readonly [M in MethodName]: {
    readonly ask: Of<(typeof METHODS)[M]['ask']>;
    readonly answer: Of<(typeof METHODS)[M]['answer']>;
  };
};
