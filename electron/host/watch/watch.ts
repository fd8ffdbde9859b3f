/** Tells what changes in a library folder on disk, in batches, with the new texts. Says nothing of what it did not read. */
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { watch as watchFolder } from 'chokidar';
import type { DiskChange } from '../contract/index.ts';
import { hashOf } from '../saving/index.ts';

const TEXT = /^(library\.yaml|registers\/[^/]+\.ya?ml|(procedures|guides)\/.+\.md)$/i;
const OTHER = /^(figures|narration|remarks)\/.+/i;
/** Editors save in several strokes; what comes within this time is told at once. */
const SETTLE = 80;

/** Until the returned function is called. */
export function watchLibrary(root: string, told: (changes: readonly DiskChange[]) => void): () => Promise<void> {
  const pending = new Map<string, 'there' | 'gone'>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const note = (file: string, what: 'there' | 'gone'): void => {
    const own = path.relative(root, file).split(path.sep).join('/');
    if (!TEXT.test(own) && !OTHER.test(own)) return;
    pending.set(own, what);
    timer ??= setTimeout(() => {
      timer = undefined;
      const now = [...pending].sort(([a], [b]) => (a < b ? -1 : 1));
      pending.clear();
      void Promise.all(now.map(([own, what]) => changeOf(root, own, what))).then(told);
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
  // A folder that cannot be watched is still a library; saving compares with the disk all the same.
  watcher.on('error', () => undefined);
  return async () => {
    if (timer) clearTimeout(timer);
    await watcher.close();
  };
}

async function changeOf(root: string, own: string, what: 'there' | 'gone'): Promise<DiskChange> {
  if (what === 'gone') return { path: own, gone: true };
  if (!TEXT.test(own)) return { path: own, present: true };
  const bytes = await readFile(path.join(root, ...own.split('/'))).catch(() => undefined);
  if (bytes === undefined) return { path: own, gone: true };
  return { path: own, text: new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes), hash: hashOf(bytes) };
}
