/** Tells what changes in a library folder on disk, in batches and in order, with the new texts. Says nothing of what it did not read. */
import { readFile, realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import { watch as watchFolder } from 'chokidar';
import type { DiskChange } from '../contract/index.ts';
import { isInside, isOther, isText, LARGEST_TEXT } from '../files/index.ts';
import { hashOf } from '../saving/index.ts';

/** Editors save in several strokes; what comes within this time (ms) is told at once. */
const SETTLE = 80;
/**
 * Of changes that follow each other within a few milliseconds the watcher reports only the first; if that one was just being read, the last
 * would be missed. So what was told is looked at once more (ms).
 */
const AGAIN = 150;

const stateOf = (one: DiskChange): string => `${one.path}\0${'hash' in one ? one.hash : 'gone' in one}`;

/** What was read before watching began, so that nothing is missed in between. */
export interface Since {
  /** When reading began; milliseconds since 1970. */
  readonly time: number;
  /** What there was then. */
  readonly paths: readonly string[];
}

/** Clocks of disks are coarse; a file told twice does no harm. Milliseconds. */
const COARSE = 2_000;

export interface Watching {
  /** Watching has begun: changes from now on are told. */
  readonly ready: Promise<void>;
  /** Nothing is told after this is called. */
  readonly stop: () => Promise<void>;
}

export function watchLibrary(root: string, told: (changes: readonly DiskChange[]) => void, since?: Since): Watching {
  const pending = new Map<string, 'there' | 'gone'>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let again: ReturnType<typeof setTimeout> | undefined;
  let stopped = false;
  // A slow read of an older state must not be told after a newer one.
  let telling = Promise.resolve();
  type Noted = readonly (readonly [string, 'there' | 'gone'])[];
  const look = async (now: Noted): Promise<readonly DiskChange[]> => {
    const changes = await Promise.all(now.map(([own, what]) => changeOf(root, own, what)));
    return changes.filter((one): one is DiskChange => one !== undefined);
  };
  const tell = async (now: Noted): Promise<void> => {
    const known = await look(now);
    if (stopped || known.length === 0) return;
    told(known);
    again = setTimeout(() => {
      telling = telling.then(() => lookAgain(now, known));
    }, AGAIN);
  };
  const lookAgain = async (now: Noted, before: readonly DiskChange[]): Promise<void> => {
    const old = new Set(before.map(stateOf));
    const changed = (await look(now)).filter((one) => !old.has(stateOf(one)));
    if (!stopped && changed.length > 0) told(changed);
  };
  const own = (file: string): string => path.relative(root, file).split(path.sep).join('/');
  const note = (file: string, what: 'there' | 'gone'): void => {
    const way = own(file);
    if (stopped || (!isText(way) && !isOther(way))) return;
    pending.set(way, what);
    timer ??= setTimeout(() => {
      timer = undefined;
      const now = [...pending].sort(([a], [b]) => (a < b ? -1 : 1));
      pending.clear();
      telling = telling.then(() => tell(now));
    }, SETTLE);
  };
  const unseen = new Set(since?.paths);
  let begun = false;
  const watcher = watchFolder(root, {
    ignoreInitial: since === undefined,
    alwaysStat: since !== undefined,
    followSymlinks: false,
    ignored: (file) => /(^|[/\\])(\.[^/\\]+|out|node_modules)([/\\]|$)/.test(path.relative(root, file)),
  });
  watcher.on('add', (file, stats) => {
    const known = unseen.delete(own(file));
    const untouched = stats !== undefined && since !== undefined && Math.max(stats.mtimeMs, stats.ctimeMs) < since.time - COARSE;
    if (begun || !known || !untouched) note(file, 'there');
  });
  watcher.on('change', (file) => note(file, 'there'));
  watcher.on('unlink', (file) => note(file, 'gone'));
  const ready = new Promise<void>((resolve) => {
    watcher.on('ready', () => {
      begun = true;
      for (const way of unseen) note(path.join(root, ...way.split('/')), 'gone');
      resolve();
    });
    // A folder that cannot be watched is still a library; saving compares with the disk all the same.
    watcher.on('error', () => resolve());
  });
  return {
    ready,
    async stop() {
      stopped = true;
      clearTimeout(timer);
      clearTimeout(again);
      await watcher.close();
    },
  };
}

/** Undefined: something is there that cannot be read now, too large, or outside by a link; the window keeps what it has. */
async function changeOf(root: string, own: string, what: 'there' | 'gone'): Promise<DiskChange | undefined> {
  const file = path.join(root, ...own.split('/'));
  try {
    const real = await realpath(file);
    if (!isInside(root, real)) return undefined;
    if (!isText(own)) return { path: own, present: true };
    if ((await stat(real)).size > LARGEST_TEXT) return undefined;
    const bytes = await readFile(real);
    return { path: own, text: new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes), hash: hashOf(bytes) };
  } catch (error) {
    const absent = ['ENOENT', 'ENOTDIR'].includes(String((error as { code?: unknown }).code));
    return absent || what === 'gone' ? { path: own, gone: true } : undefined;
  }
}
