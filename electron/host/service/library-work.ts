/** Opening, reading and making libraries, and finding their folders. What stands in them is for the page. */
import path from 'node:path';
import { Refused } from '../contract/index.ts';
import { libraryAt, readLibrary, stampsOf } from '../files/index.ts';
import { hashOf, removeLeftovers } from '../saving/index.ts';
import { listFolders } from './folders.ts';
import type { Handlers, Inner } from './inner.ts';
import { makeLibrary } from './new-library.ts';

/** First the window gets what it asked for, then what it did not ask for is looked after. Milliseconds. */
const BREATH = 300;

type Work = Pick<
  Handlers,
  | 'libraries.recent'
  | 'libraries.forget'
  | 'library.open'
  | 'library.create'
  | 'library.read'
  | 'library.stamp'
  | 'folder.choose'
  | 'folder.list'
>;

export const libraryWork = (host: Inner): Work => ({
  'libraries.recent': async (_, caller) => {
    const { sample, openFor, shell } = host.options;
    const opening = openFor?.(caller);
    return {
      recent: await host.recent.list(),
      sample,
      ...(opening === undefined ? {} : { open: opening.folder }),
      ...(opening?.show === undefined ? {} : { show: opening.show }),
      chooser: shell === undefined ? 'page' : 'system',
    };
  },

  'libraries.forget': async ({ folder }) => {
    await host.recent.forget(folder);
    return {};
  },

  'library.open': async ({ folder }) => {
    if (!path.isAbsolute(folder)) throw new Refused(['wholePath']);
    const root = await libraryAt(folder);
    if (root === undefined) throw new Refused(['notLibrary', folder]);
    const name = path.basename(root);
    const library = host.opened(root);
    // A list of names that cannot be written is no reason not to open.
    await host.recent.opened(root, name).catch(() => undefined);
    return { library, folder: root, name };
  },

  'library.read': async ({ library }) => {
    const root = host.rootOf(library);
    const time = Date.now();
    const { texts, paths, refusals } = await readLibrary(root);
    setTimeout(() => {
      host.watch(root, { time, paths });
      void removeLeftovers(root, ['.', 'out', ...paths.map((own) => path.posix.dirname(own))], Date.now());
    }, BREATH).unref();
    const encoder = new TextEncoder();
    const files = texts.map(({ path: own, text }) => ({ path: own, text, hash: hashOf(encoder.encode(text)) }));
    return { files, paths, refusals: refusals.map(({ path: own, said }) => ({ path: own, said })) };
  },

  'library.stamp': async ({ library }) => {
    const stamps = await stampsOf(host.rootOf(library));
    return { stamp: hashOf(new TextEncoder().encode(stamps.join('\n'))) };
  },

  'library.create': (ask) => makeLibrary(host, ask),

  'folder.choose': async ({ title }, caller) => {
    const { shell } = host.options;
    if (shell === undefined) throw new Refused(['noDialog']);
    const folder = await shell.choose(caller, title);
    if (folder === undefined) return {};
    host.chosen.add(folder);
    return { folder };
  },

  'folder.list': ({ folder }) => listFolders(host, folder),
});
