/** Unsaved text of windows: kept, offered to the next when its window is gone, dropped. */
import { isWritable } from '../files/index.ts';
import { insideLibrary, stateOf } from '../saving/index.ts';
import type { Handlers, Inner } from './inner.ts';
import { fault } from './inner.ts';

type Work = Pick<Handlers, 'journal.put' | 'journal.list' | 'journal.drop'>;

export const unsaved = (host: Inner): Work => ({
  'journal.put': async ({ library, window, entries }, caller) => {
    const root = host.rootOf(library);
    host.keeps(caller, root, window);
    await host.journal.put(root, window, entries).catch(fault(['journalLost']));
    return {};
  },

  // Text of a window that is open beside this one is not lost, so it is neither offered nor dropped.
  'journal.list': async ({ library }, caller) => {
    const root = host.rootOf(library);
    // A path that is none of this library's is not on its disk either; the other texts are still offered.
    const stateNow = async (path: string) => stateOf(await insideLibrary(root, path, isWritable), host.disk);
    const onDisk = (path: string): Promise<string | null> =>
      stateNow(path).then(
        ({ hash }) => hash,
        () => null,
      );
    return { entries: await host.journal.unsaved(root, onDisk, (window) => host.elsewhere(caller, root, window)) };
  },

  'journal.drop': async ({ library, window }, caller) => {
    const root = host.rootOf(library);
    if (window === undefined) await host.journal.dropAll(root, (one) => host.elsewhere(caller, root, one));
    else if (!host.elsewhere(caller, root, window)) await host.journal.drop(root, window);
    return {};
  },
});
