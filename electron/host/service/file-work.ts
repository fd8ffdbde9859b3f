/** Saving, renaming and removing texts, and figures. The writing itself is in `saving/`; here it gets its turn and its words. */
import { Refused } from '../contract/index.ts';
import { isOther, isWritable, readFigure } from '../files/index.ts';
import { insideLibrary, removeFile, renameFile, saveFiles, stateOf, twinOf, unfitPath, writeWhole } from '../saving/index.ts';
import type { Handlers, Inner } from './inner.ts';
import { fault } from './inner.ts';

type Work = Pick<Handlers, 'file.save' | 'file.read' | 'file.rename' | 'file.remove' | 'figure.read' | 'figure.write'>;

const isNewFigure = (own: string): boolean => /^figures\/[^/]+\.(svg|png|jpe?g)$/i.test(own);
const KEPT = 'Nothing else was written. Your text is kept in this window. Mend what is in the way and save again.';

export const fileWork = (host: Inner): Work => ({
  'file.save': async ({ library, window, files }, caller) => {
    const root = host.rootOf(library);
    if (window !== undefined && !host.elsewhere(caller, root, window)) {
      host.keeps(caller, root, window);
      // A journal that cannot be written must not keep the text from being saved.
      await host.journal.sending(root, window, files).catch(() => undefined);
    }
    return host.turns.run(root, () => saveFiles(root, files, host.disk)).catch(fault(KEPT));
  },

  'file.read': async ({ library, path }) => {
    const { text, hash } = await stateOf(await insideLibrary(host.rootOf(library), path, isWritable), host.disk);
    return { file: text === null || hash === null ? null : { path, text, hash } };
  },

  'file.rename': async ({ library, ...ask }) => {
    const root = host.rootOf(library);
    const conflict = await host.turns.run(root, () => renameFile(root, ask, host.disk)).catch(fault('The file has its old name.'));
    return { conflict };
  },

  'file.remove': async ({ library, path, base }) => {
    const root = host.rootOf(library);
    const conflict = await host.turns.run(root, () => removeFile(root, path, base, host.disk)).catch(fault('The file is still there.'));
    return { conflict };
  },

  'figure.read': async ({ library, path }) => {
    const root = host.rootOf(library);
    const bytes = isOther(path) && unfitPath(path) === undefined ? await readFigure(root, path) : undefined;
    if (bytes === undefined) throw new Refused(`${path} is not there, is too large, or lies outside the library.`);
    return { base64: Buffer.from(bytes).toString('base64') };
  },

  'figure.write': async ({ library, name, base64 }) => {
    const root = host.rootOf(library);
    const path = `figures/${name}`;
    const bytes = Buffer.from(base64, 'base64');
    const file = await insideLibrary(root, path, isNewFigure);
    await host.turns
      .run(root, async () => {
        const there = await host.disk.read(file);
        if (there !== undefined && Buffer.from(there).equals(bytes)) return;
        const twin = await twinOf(root, path);
        if (twin !== undefined) throw new Refused(`${twin} is another figure of that name. Give this one another name.`);
        await writeWhole(file, bytes, host.disk);
      })
      .catch(fault('The figure was not added.'));
    return { path };
  },
});
