/**
 * What the host is asked before the code that shows the answers is there: which library this window shows, and its texts. Shows nothing, decides
 * nothing but which library.
 */
import type { Methods } from '../../electron/host/contract/index.ts';
import { call, type DiskChange, watchDisk } from '../host.ts';

/** Which library this window shows, over a reload of the page. */
export const OPENED = 'library opened';

/** Name under which the host keeps where the library was left. */
export const LEFT_OFF = 'left-off';

type Answer<M extends keyof Methods> = Methods[M]['answer'];

export interface OnDisk {
  readonly opened: Answer<'library.open'>;
  readonly read: Answer<'library.read'>;
  /** As it was kept; null: nothing was. */
  readonly leftOff: string | null;
}

export interface Ahead {
  readonly recent: Answer<'libraries.recent'>;
  readonly first: OnDisk;
  /** Why the library that was wanted is not the one that was opened. */
  readonly instead: unknown;
}

export async function openOnDisk(folder: string): Promise<OnDisk> {
  const opened = await call('library.open', { folder });
  const { library } = opened;
  const kept = call('cache.read', { library, name: LEFT_OFF }).then(
    ({ text }) => text,
    () => null,
  );
  return { opened, read: await call('library.read', { library }), leftOff: await kept };
}

let asked: Promise<Ahead> | undefined;

/** Asks; `ahead` has the answer. */
export function askAhead(): void {
  asked = askedNow();
  // Whoever takes the answer hears of the failure.
  asked.catch(() => undefined);
}

export const ahead = (): Promise<Ahead> => asked ?? askedNow();

async function askedNow(): Promise<Ahead> {
  const recent = await call('libraries.recent', {});
  const wanted = sessionStorage.getItem(OPENED) ?? recent.open ?? recent.sample;
  try {
    return { recent, first: await openOnDisk(wanted), instead: undefined };
  } catch (error) {
    if (wanted === recent.sample) throw error;
    sessionStorage.removeItem(OPENED);
    return { recent, first: await openOnDisk(recent.sample), instead: error };
  }
}

type Hear = (library: string, changes: readonly DiskChange[]) => void;

/** What changed on disk before anybody could take it. */
const early: (readonly [string, readonly DiskChange[]])[] = [];
let hear: Hear = (...change) => void early.push(change);
watchDisk((...change) => hear(...change));

/** From now on, and what came before. */
export function hearDisk(own: Hear): void {
  hear = own;
  for (const change of early.splice(0)) own(...change);
}
