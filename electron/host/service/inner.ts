/** What the handlers of the contract share: the open libraries, the disk, the user's data. Handles nothing itself. */

import type { Cache } from '../cache/index.ts';
import type { Settings } from '../contract/index.ts';
import { type HostEvent, isFault, type MethodName, type Methods, type PageMenu, Refused, type Said } from '../contract/index.ts';
import type { Journal } from '../journal/index.ts';
import type { Kept, RecentLibraries } from '../kept/index.ts';
import type { Turns, WriteDisk } from '../saving/index.ts';
import type { Since } from '../watch/index.ts';

/** Names one window for as long as it is there; given by the transport, never by the page's own word alone. */
export type Caller = string;

/** The library that a window is opened for, and a file of it. */
export interface Opening {
  readonly folder: string;
  readonly show?: string;
}

/** What a desktop shell can do and a browser cannot. */
export interface Shell {
  /** The system's own dialog for a folder. */
  readonly choose: (caller: Caller, title: string) => Promise<string | undefined>;
  readonly show: (caller: Caller, file: string, how: How) => Promise<void>;
  readonly menu: (caller: Caller, menus: readonly PageMenu[]) => void;
}

export type How = Methods['output.show']['ask']['how'];

export interface ServiceOptions {
  /** Folder of the user's own data: journal and the like. */
  readonly data: string;
  readonly sample: string;
  /** Where a user of a browser may begin to look for folders, besides the places of the libraries used last. */
  readonly home?: string;
  readonly openFor?: (caller: Caller) => Opening | undefined;
  readonly tell: (event: HostEvent) => void;
  readonly disk?: WriteDisk;
  readonly shell?: Shell;
}

export interface Inner {
  readonly options: ServiceOptions;
  readonly disk: WriteDisk;
  readonly journal: Journal;
  readonly cache: Cache;
  readonly recent: RecentLibraries;
  readonly settings: Kept<Settings>;
  /** One write at a time in one library, so that two windows cannot both save over the same base. */
  readonly turns: Turns;
  /** Folders that the user picked in the system's dialog since the start. */
  readonly chosen: Set<string>;
  /** The root of an open library, or a refusal. */
  readonly rootOf: (library: string) => string;
  readonly opened: (root: string) => string;
  /** Changes of the library on disk are told from now on, and those since it was read. */
  readonly watch: (root: string, since: Since) => void;
  /** Whether a window other than this one is there and keeps this journal. */
  readonly elsewhere: (caller: Caller, root: string, window: string) => boolean;
  readonly keeps: (caller: Caller, root: string, window: string) => void;
}

export type Handlers = { readonly [M in MethodName]: (ask: Methods[M]['ask'], caller: Caller) => Promise<Methods[M]['answer']> };

/** A disk's error by its code, with what was kept. A refusal keeps its own words. */
export const fault =
  (kept: Said) =>
  (error: unknown): never => {
    const code = String((error as { code?: unknown }).code);
    if (isFault(code)) throw new Refused(['unwritten', code], kept);
    if (error instanceof Refused) throw new Refused(...error.said, kept);
    throw error;
  };
