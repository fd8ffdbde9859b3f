/** What the window shows: one store, and the ways to say something and to go somewhere. Knows no text and no host. */
import type { Finding } from '../../procedures-schema/index.ts';
import type { JournalEntry } from '../host.ts';
import type { Overview } from '../worker/queries/queries.ts';
import { isRead } from './read-by-now.ts';
import { newStore } from './store.ts';

export type View = 'write' | 'review' | 'print';

/** The file changed on disk while this window has unsaved text in it: the writer chooses. */
export interface Clash {
  readonly path: string;
  /** On disk now; null: deleted. */
  readonly theirs: string | null;
  readonly hash: string | null;
}

/** Where to put the caret when the file is shown; counted so that the same place can be asked for twice. Gone when the text has it. */
export interface Jump {
  readonly offset: number;
  readonly end: number;
  readonly count: number;
  /** The caret of whoever types elsewhere stays with them. */
  readonly stay?: boolean;
  /** Only into a text that nobody was in yet; else it is shown as it was left. */
  readonly first?: boolean;
}

/** What can be done about what is said, as a button behind it. */
export interface Offer {
  readonly label: string;
  readonly run: () => void;
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
  readonly goTo: Jump | undefined;
  readonly caret: number;
  readonly variant: string | undefined;
  /** Paths with text that is not on disk. */
  readonly unsaved: ReadonlySet<string>;
  readonly clashes: readonly Clash[];
  /** What of the library could not be read, and why. */
  readonly refusals: readonly { readonly path: string; readonly message: string }[];
  readonly recovered: readonly (JournalEntry & { readonly window: string })[];
  /** One line at the foot of the page: what was done, or what went wrong. Counted, because said twice it is heard twice. */
  readonly message:
    | {
        readonly text: string;
        readonly wrong: boolean;
        readonly count: number;
        readonly offer?: Offer | undefined;
        readonly stays?: boolean;
      }
    | undefined;
  /** For whoever listens to the page: what others see where it stands, beside the text or over it. */
  readonly told: { readonly text: string; readonly count: number } | undefined;
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
  refusals: [],
  recovered: [],
  message: undefined,
  told: undefined,
});

let said = 0;

let saidAt = 0;

export function say(text: string, wrong = false, offer?: Offer): void {
  said += 1;
  saidAt = performance.now();
  shown.set({ message: { text, wrong, count: said, offer } });
}

/** What is left to do in the text that was made: it stands while that is done. */
export function sayToDo(text: string): void {
  say(text);
  const { message } = shown.get();
  if (message) shown.set({ message: { ...message, stays: true } });
}

/** Whoever types on has read what was done: "Saved." would stand beside text that is not. */
export function readByNow(): void {
  const { message } = shown.get();
  if (message && isRead(message, performance.now() - saidAt)) shown.set({ message: undefined });
}

/** Milliseconds in which a caret that was sent somewhere is there. */
const ARRIVED = 400;

/** Of the place where the caret stands: no longer said when it stands elsewhere. */
export function sayHere(text: string): void {
  say(text);
  const count = said;
  setTimeout(() => {
    const stop = shown.listen(
      () => {
        stop();
        if (shown.get().message?.count === count) shown.set({ message: undefined });
      },
      'caret',
      'file',
    );
  }, ARRIVED);
}

export function tell(text: string): void {
  said += 1;
  shown.set({ told: { text, count: said } });
}

/** For whatever was refused or failed. */
export const wrong = (error: unknown): void => say((error as Error).message, true);

let count = 0;

function jump(view: View, file: string, to: Omit<Jump, 'count'>): void {
  count += 1;
  const variants = file === shown.get().file ? {} : { variant: undefined };
  shown.set({ view, file, goTo: { ...to, count }, ...variants });
}

export const goTo = (file: string, offset: number, end = offset, view: View = 'write'): void => jump(view, file, { offset, end });

/** Shows a file as it was left; one that nobody was in yet, where its work begins. */
export const goBackTo = (file: string, begin: number): void => jump('write', file, { offset: begin, end: begin, first: true });

/** Shows a place of the text that is open without taking the caret from where somebody types. */
export const lookAt = (file: string, offset: number, end: number): void => jump('write', file, { offset, end, stay: true });
