/** Tells what changes in a library folder on disk, in batches and in order, with the new texts. Says nothing of what it did not read. */
import { readFile, realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import { watch as watchFolder } from 'chokidar';
import type { DiskChange } from '../contract/index.ts';
import { isInside, isOther, isText, LARGEST_TEXT } from '../files/index.ts';
import { hashOf } from '../saving/index.ts';

/** Editors save in several strokes; what comes within this time (ms) is told at once. */
const SETTLE = 80;

export interface Watching {
  /** Watching has begun: changes from now on are told. */
  readonly ready: Promise<void>;
  /** Nothing is told after this is called. */
  readonly stop: () => Promise<void>;
}

export function watchLibrary(root: string, told: (changes: readonly DiskChange[]) => void): Watching {
  const pending = new Map<string, 'there' | 'gone'>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let stopped = false;
  // A slow read of an older state must not be told after a newer one.
  let telling = Promise.resolve();
  const tell = async (now: readonly (readonly [string, 'there' | 'gone'])[]): Promise<void> => {
    const changes = await Promise.all(now.map(([own, what]) => changeOf(root, own, what)));
    const known = changes.filter((one): one is DiskChange => one !== undefined);
    if (!stopped && known.length > 0) told(known);
  };
  const note = (file: string, what: 'there' | 'gone'): void => {
    const own = path.relative(root, file).split(path.sep).join('/');
    if (stopped || (!isText(own) && !isOther(own))) return;
    pending.set(own, what);
    timer ??= setTimeout(() => {
      timer = undefined;
      const now = [...pending].sort(([a], [b]) => (a < b ? -1 : 1));
      pending.clear();
      telling = telling.then(() => tell(now));
    }, SETTLE);
  };
  const watcher = watchFolder(root, {
    ignoreInitial: true,
    followSymlinks: false,
    ignored: (file) => /(^|[/\\])(\.[^/\\]+|out|node_modules)([/\\]|$)/.test(path.relative(root, file)),
  });
  watcher.on('add', (file) => note(file, 'there'));
  watcher.on('change', (file) => note(file, 'there'));
  watcher.on('unlink', (file) => note(file, 'gone'));
  const ready = new Promise<void>((resolve) => {
    watcher.on('ready', resolve);
    // A folder that cannot be watched is still a library; saving compares with the disk all the same.
    watcher.on('error', () => resolve());
  });
  return {
    ready,
    async stop() {
      stopped = true;
      if (timer) clearTimeout(timer);
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
