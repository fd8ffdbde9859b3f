/** Saving, renaming and removing texts. The writing itself is in `saving/`; here it gets its turn and its words. */
import { isWritable } from '../files/index.ts';
import { insideLibrary, removeFile, renameFile, saveFiles, stateOf } from '../saving/index.ts';
import type { Handlers, Inner } from './inner.ts';
import { fault } from './inner.ts';

type Work = Pick<Handlers, 'file.save' | 'file.read' | 'file.rename' | 'file.remove'>;

export const fileWork = (host: Inner): Work => ({
  'file.save': async ({ library, window, files }, caller) => {
    const root = host.rootOf(library);
    if (window !== undefined && !host.elsewhere(caller, root, window)) {
      host.keeps(caller, root, window);
      // A journal that cannot be written must not keep the text from being saved.
      await host.journal.sending(root, window, files).catch(() => undefined);
    }
    return host.turns.run(root, () => saveFiles(root, files, host.disk)).catch(fault(['textKept']));
  },

  'file.read': async ({ library, path }) => {
    const { text, hash } = await stateOf(await insideLibrary(host.rootOf(library), path, isWritable), host.disk);
    return { file: text === null || hash === null ? null : { path, text, hash } };
  },

  'file.rename': async ({ library, ...ask }) => {
    const root = host.rootOf(library);
    const conflict = await host.turns.run(root, () => renameFile(root, ask, host.disk)).catch(fault(['oldName']));
    return { conflict };
  },

  'file.remove': async ({ library, path, base }) => {
    const root = host.rootOf(library);
    const conflict = await host.turns.run(root, () => removeFile(root, path, base, host.disk)).catch(fault(['stillThere']));
    return { conflict };
  },
});
