/** Folders for a page that has no system dialog: those below the user's home and beside the libraries used last, and no others. */
import { readdir, realpath } from 'node:fs/promises';
import path from 'node:path';
import { type Methods, Refused } from '../contract/index.ts';
import { isInside, libraryAt } from '../files/index.ts';
import type { Inner } from './inner.ts';

const MOST = 1_000;

export async function listFolders(host: Inner, asked: string | undefined): Promise<Methods['folder.list']['answer']> {
  const starts = await startsOf(host);
  if (asked === undefined) return { folders: await Promise.all(starts.map(shown)) };
  const folder = await allowedFolder(host, asked);
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => {
    throw new Refused(['folderUnread', folder]);
  });
  const names = entries
    .filter((entry) => entry.isDirectory() && !entry.name.startsWith('.') && entry.name !== 'node_modules')
    .map(({ name }) => name)
    .sort((a, b) => (a.toLowerCase() < b.toLowerCase() ? -1 : 1))
    .slice(0, MOST);
  const parent = path.dirname(folder);
  const up = starts.includes(folder) ? {} : { parent };
  return { folder, ...up, folders: await Promise.all(names.map((name) => shown(path.join(folder, name)))) };
}

/** Its real path. Refuses a folder that was neither picked in the system's dialog nor lies where listing begins. */
export async function allowedFolder(host: Inner, asked: string): Promise<string> {
  const folder = path.isAbsolute(asked) ? await realpath(asked).catch(() => undefined) : undefined;
  if (folder === undefined) throw new Refused(['noFolder', asked]);
  const picked = await Promise.all([...host.chosen].map((one) => realpath(one).catch(() => undefined)));
  const hidden = (start: string): boolean =>
    path
      .relative(start, folder)
      .split(path.sep)
      .some((part) => part.startsWith('.'));
  const starts = [...(await startsOf(host)), ...picked.filter((one) => one !== undefined)];
  if (!starts.some((start) => start === folder || (isInside(start, folder) && !hidden(start)))) throw new Refused(['folderOutside', asked]);
  return folder;
}

/** Real paths, sorted: home, and the folders that hold libraries which were open here. */
async function startsOf(host: Inner): Promise<readonly string[]> {
  const recent = await host.recent.list();
  const home = host.options.home;
  const all = [...(home === undefined ? [] : [home]), ...recent.filter(({ there }) => there).map(({ folder }) => path.dirname(folder))];
  const real = await Promise.all(all.map((one) => realpath(one).catch(() => undefined)));
  // The root of a disk is no place of anybody's own.
  const own = real.filter((one) => one !== undefined && path.dirname(one) !== one) as string[];
  return [...new Set(own)].sort();
}

async function shown(folder: string): Promise<{ folder: string; name: string; library: boolean }> {
  return { folder, name: path.basename(folder), library: (await libraryAt(folder)) !== undefined };
}
