/** Everything the page may ask of the host: one table of names with the shape of each request, and the types of both ways. No Node here. */
import type { SettingName, Settings } from './settings.ts';
import type { Shape } from './shape.ts';

/** A text of the library as the disk holds it; `hash` is SHA-256 of its bytes, in hex. */
export interface HostFile {
  readonly path: string;
  readonly text: string;
  readonly hash: string;
}

/** Unsaved text of one file; `base` names the bytes that it was written over, null for a new file. Text keeps its byte-order mark. */
export interface JournalEntry {
  readonly path: string;
  readonly base: string | null;
  readonly text: string;
}

/** What the disk holds instead of what the writer saw; both null: the file is gone. */
export interface Conflict {
  readonly path: string;
  readonly text: string | null;
  readonly hash: string | null;
}

export type DiskChange =
  | { readonly path: string; readonly text: string; readonly hash: string }
  | { readonly path: string; readonly present: true }
  | { readonly path: string; readonly gone: true };

/**
 * `action`: an item of the shell's menu was chosen; `show`: a file of the open library was asked for from outside. Both go to the one
 * window that they are about.
 */
export type HostEvent =
  | { readonly event: 'changed'; readonly library: string; readonly changes: readonly DiskChange[] }
  | { readonly event: 'action'; readonly name: string }
  | { readonly event: 'show'; readonly path: string };

export interface PageMenu {
  /** "file", "edit", "insert", "views": the shell puts its own items into those that it knows. */
  readonly name: string;
  readonly label: string;
  /** `name` comes back when the item is chosen; `keys` as in "Mod+Shift+S", for showing. */
  readonly actions: readonly { readonly name: string; readonly label: string; readonly keys?: string }[];
}

type Nothing = Record<string, never>;

export interface Methods {
  /**
   * `open`: the library that this window was opened for, `show`: the file of it that was asked for. `chooser`: whether `folder.choose`
   * shows the system's own dialog, or the page offers what `folder.list` gives.
   */
  'libraries.recent': {
    ask: Nothing;
    answer: {
      readonly recent: readonly { readonly folder: string; readonly name: string; readonly there: boolean }[];
      readonly sample: string;
      readonly open?: string;
      readonly show?: string;
      readonly chooser: 'system' | 'page';
    };
  };
  'libraries.forget': { ask: { readonly folder: string }; answer: Nothing };
  /** A new folder with a `library.yaml` and the registers, in a folder that was chosen or listed. The answer is for `library.open`. */
  'library.create': {
    ask: { readonly folder: string; readonly name: string; readonly publisher: string };
    answer: { readonly folder: string };
  };
  /** The system's own dialog; no folder: the user thought better of it. */
  'folder.choose': { ask: { readonly title: string }; answer: { readonly folder?: string } };
  /** Folders below the user's own; without a folder, where to begin. No `parent`: one cannot go further up. */
  'folder.list': {
    ask: { readonly folder?: string };
    answer: {
      readonly folder?: string;
      readonly parent?: string;
      readonly folders: readonly { readonly folder: string; readonly name: string; readonly library: boolean }[];
    };
  };
  'library.open': {
    ask: { readonly folder: string };
    answer: { readonly library: string; readonly folder: string; readonly name: string };
  };
  'library.read': {
    ask: { readonly library: string };
    answer: {
      readonly files: readonly HostFile[];
      readonly paths: readonly string[];
      readonly refusals: readonly { readonly path: string; readonly message: string }[];
    };
  };
  'figure.read': { ask: { readonly library: string; readonly path: string }; answer: { readonly base64: string } };
  /** A file whose bytes on disk are no longer those of `base` is left alone and given back as a conflict. */
  'file.save': {
    ask: { readonly library: string; readonly files: readonly JournalEntry[] };
    answer: {
      readonly saved: readonly { readonly path: string; readonly hash: string }[];
      readonly conflicts: readonly Conflict[];
    };
  };
  /** One text, also of those that `library.read` leaves out (remarks, narration); null: there is none. */
  'file.read': { ask: { readonly library: string; readonly path: string }; answer: { readonly file: HostFile | null } };
  /** Never over another file. A conflict: the disk no longer holds `base`, and nothing was done. */
  'file.rename': {
    ask: { readonly library: string; readonly from: string; readonly to: string; readonly base: string };
    answer: { readonly conflict: Conflict | null };
  };
  'file.remove': {
    ask: { readonly library: string; readonly path: string; readonly base: string };
    answer: { readonly conflict: Conflict | null };
  };
  /** Adds a figure; the answer is its path. A figure of that name with other content is refused, the same content is fine. */
  'figure.write': {
    ask: { readonly library: string; readonly name: string; readonly base64: string };
    answer: { readonly path: string };
  };
  'journal.put': { ask: { readonly library: string; readonly window: string; readonly entries: readonly JournalEntry[] }; answer: Nothing };
  'journal.list': {
    ask: { readonly library: string };
    answer: { readonly entries: readonly (JournalEntry & { readonly window: string })[] };
  };
  'journal.drop': { ask: { readonly library: string; readonly window?: string }; answer: Nothing };
  'output.write': {
    ask: { readonly library: string; readonly name: string; readonly base64: string };
    answer: { readonly path: string };
  };
  /** Shows a file that was written: to read it, to print it, or its place. `address`: the page is to open it itself. */
  'output.show': {
    ask: { readonly library: string; readonly name: string; readonly how: string };
    answer: { readonly address?: string };
  };
  'fonts.read': { ask: Nothing; answer: { readonly faces: Readonly<Record<string, string>> } };
  'history.list': {
    ask: { readonly library: string; readonly path: string };
    answer: {
      readonly revisions: readonly { readonly id: string; readonly date: string; readonly author: string; readonly subject: string }[];
    };
  };
  'history.read': {
    ask: { readonly library: string; readonly path: string; readonly revision: string };
    answer: { readonly text: string };
  };
  'settings.read': { ask: Nothing; answer: { readonly settings: Settings } };
  'settings.write': { ask: { readonly name: SettingName; readonly value: string }; answer: { readonly settings: Settings } };
  /** Opaque to the host, and gone without notice; null: work it out. The name tells the kind and the version of what is kept. */
  'cache.read': { ask: { readonly library: string; readonly name: string }; answer: { readonly text: string | null } };
  'cache.write': {
    ask: { readonly library: string; readonly name: string; readonly text: string };
    answer: { readonly kept: boolean };
  };
  /** The page's menus, in its language, for a shell that has a menu of its own. Elsewhere nothing happens. */
  'menu.set': { ask: { readonly menus: readonly PageMenu[] }; answer: Nothing };
}

export type MethodName = keyof Methods;

const entry: Shape = { path: 'text', base: 'text or null', text: 'text' };

export const METHODS: Readonly<Record<MethodName, { readonly ask: Shape; readonly writes: boolean }>> = {
  'libraries.recent': { ask: {}, writes: false },
  'libraries.forget': { ask: { folder: 'text' }, writes: true },
  'library.open': { ask: { folder: 'text' }, writes: false },
  'library.create': { ask: { folder: 'text', name: 'text', publisher: 'text' }, writes: true },
  'folder.choose': { ask: { title: 'text' }, writes: false },
  'folder.list': { ask: { folder: 'text?' }, writes: false },
  'library.read': { ask: { library: 'text' }, writes: false },
  'figure.read': { ask: { library: 'text', path: 'text' }, writes: false },
  'figure.write': { ask: { library: 'text', name: 'text', base64: 'text' }, writes: true },
  'file.read': { ask: { library: 'text', path: 'text' }, writes: false },
  'file.rename': { ask: { library: 'text', from: 'text', to: 'text', base: 'text' }, writes: true },
  'file.remove': { ask: { library: 'text', path: 'text', base: 'text' }, writes: true },
  'file.save': { ask: { library: 'text', files: [entry] }, writes: true },
  'journal.put': { ask: { library: 'text', window: 'text', entries: [entry] }, writes: true },
  'journal.list': { ask: { library: 'text' }, writes: false },
  'journal.drop': { ask: { library: 'text', window: 'text?' }, writes: true },
  'output.write': { ask: { library: 'text', name: 'text', base64: 'text' }, writes: true },
  'output.show': { ask: { library: 'text', name: 'text', how: 'text' }, writes: false },
  'fonts.read': { ask: {}, writes: false },
  'history.list': { ask: { library: 'text', path: 'text' }, writes: false },
  'history.read': { ask: { library: 'text', path: 'text', revision: 'text' }, writes: false },
  'settings.read': { ask: {}, writes: false },
  'settings.write': { ask: { name: 'text', value: 'text' }, writes: true },
  'cache.read': { ask: { library: 'text', name: 'text' }, writes: false },
  'cache.write': { ask: { library: 'text', name: 'text', text: 'text' }, writes: true },
  'menu.set': {
    ask: { menus: [{ name: 'text', label: 'text', actions: [{ name: 'text', label: 'text', keys: 'text?' }] }] },
    writes: false,
  },
};
