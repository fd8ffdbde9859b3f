/** Everything the page may ask of the host: one table of names with the shape of each request, and the types of both ways. No Node here. */
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

export type DiskChange =
  | { readonly path: string; readonly text: string; readonly hash: string }
  | { readonly path: string; readonly present: true }
  | { readonly path: string; readonly gone: true };

export interface HostEvent {
  readonly event: 'changed';
  readonly library: string;
  readonly changes: readonly DiskChange[];
}

type Nothing = Record<string, never>;

export interface Methods {
  /** `open`: the folder that the program was started with. */
  'libraries.recent': {
    ask: Nothing;
    answer: {
      readonly recent: readonly { readonly folder: string; readonly name: string; readonly there: boolean }[];
      readonly sample: string;
      readonly open?: string;
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
      readonly conflicts: readonly { readonly path: string; readonly text: string | null; readonly hash: string | null }[];
    };
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
}

export type MethodName = keyof Methods;

const entry: Shape = { path: 'text', base: 'text or null', text: 'text' };

export const METHODS: Readonly<Record<MethodName, { readonly ask: Shape; readonly writes: boolean }>> = {
  'libraries.recent': { ask: {}, writes: false },
  'library.open': { ask: { folder: 'text' }, writes: false },
  'library.read': { ask: { library: 'text' }, writes: false },
  'figure.read': { ask: { library: 'text', path: 'text' }, writes: false },
  'file.save': { ask: { library: 'text', files: [entry] }, writes: true },
  'journal.put': { ask: { library: 'text', window: 'text', entries: [entry] }, writes: true },
  'journal.list': { ask: { library: 'text' }, writes: false },
  'journal.drop': { ask: { library: 'text', window: 'text?' }, writes: true },
  'output.write': { ask: { library: 'text', name: 'text', base64: 'text' }, writes: true },
  'fonts.read': { ask: {}, writes: false },
  'history.list': { ask: { library: 'text', path: 'text' }, writes: false },
  'history.read': { ask: { library: 'text', path: 'text', revision: 'text' }, writes: false },
};
