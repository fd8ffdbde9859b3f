/** What the window shows: one store, and the ways to say something and to go somewhere. Knows no text and no host. */
import type { Finding } from '../../procedures-schema/index.ts';
import type { JournalEntry } from '../host.ts';
import type { Overview } from '../worker/queries/queries.ts';
import { newStore } from './store.ts';

export type View = 'write' | 'review' | 'print';

/** The file changed on disk while this window has unsaved text in it: the writer chooses. */
export interface Clash {
  readonly path: string;
  /** On disk now; null: deleted. */
  readonly theirs: string | null;
  readonly hash: string | null;
}

export interface Shown {
  readonly view: View;
  readonly folder: string | undefined;
  readonly name: string;
  readonly overview: Overview | undefined;
  readonly findings: ReadonlyMap<string, readonly Finding[]>;
  readonly between: readonly Finding[];
  /** `between` is of the text before the last key; the new ones come when the hands rest a moment. */
  readonly due: boolean;
  /** Counts what was checked; margin, pages and tables are asked for again when it grows. */
  readonly revision: number;
  readonly checking: boolean;
  /** Name of the engine that checks: another one may find something else in the same texts. */
  readonly engine: string;
  /** Procedures that wait to be read, of a library too long to be read at once. */
  readonly waiting: number;
  readonly file: string | undefined;
  /** Where to put the caret when the file is shown; counted so that the same place can be asked for twice. */
  readonly goTo: { readonly offset: number; readonly end: number; readonly count: number; readonly stay?: boolean } | undefined;
  readonly caret: number;
  readonly variant: string | undefined;
  /** Paths with text that is not on disk. */
  readonly unsaved: ReadonlySet<string>;
  readonly clashes: readonly Clash[];
  readonly recovered: readonly (JournalEntry & { readonly window: string })[];
  /** One line at the foot of the page: what was done, or what went wrong. */
  readonly message: { readonly text: string; readonly wrong: boolean } | undefined;
}

export const shown = newStore<Shown>({
  view: 'write',
  folder: undefined,
  name: '',
  overview: undefined,
  findings: new Map(),
  between: [],
  due: false,
  revision: 0,
  checking: false,
  engine: '',
  waiting: 0,
  file: undefined,
  goTo: undefined,
  caret: 0,
  variant: undefined,
  unsaved: new Set(),
  clashes: [],
  recovered: [],
  message: undefined,
});

export const say = (text: string, wrong = false): void => shown.set({ message: { text, wrong } });
/** For whatever was refused or failed. */
export const wrong = (error: unknown): void => say((error as Error).message, true);

let count = 0;

export function goTo(file: string, offset: number, end = offset, view: View = 'write'): void {
  count += 1;
  const variants = file === shown.get().file ? {} : { variant: undefined };
  shown.set({ view, file, goTo: { offset, end, count }, ...variants });
}

/** Shows a text where it was left. */
export function showAsLeft(file: string): void {
  const variants = file === shown.get().file ? {} : { variant: undefined };
  shown.set({ view: 'write', file, ...variants });
}

/** Shows a place of the text that is open without taking the caret from where somebody types. */
export function lookAt(file: string, offset: number, end: number): void {
  count += 1;
  shown.set({ view: 'write', file, goTo: { offset, end, count, stay: true } });
}
