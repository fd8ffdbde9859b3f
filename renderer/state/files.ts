/** Files of texts renamed and removed at the user's word, on disk and in this window. What a removal breaks is told by the sheet that asks for it. */
import { call } from '../host.ts';
import { words } from '../words/words.ts';
import { nameOf } from './names.ts';
import { inTurn } from './saving.ts';
import { say, shown } from './shown.ts';
import { core, documents, here, journalSoon, show, spread, unsavedNow } from './workspace.ts';

/** Whether it can be done with such a file: the others have their places and names from the library. */
export const isOwnFile = (path: string | undefined): path is string => path !== undefined && /^(procedures|guides)\//.test(path);

/** Undo brings the text back, unsaved. A file that the disk no longer holds as this window knows it stays. */
export const removeText = (path: string): Promise<void> =>
  inTurn(async () => {
    const document = documents.get(path);
    if (!document) return;
    const name = nameOf(path);
    if (document.base !== null) {
      const { conflict } = await call('file.remove', { library: here.library, path, base: document.base });
      if (conflict !== null && conflict.hash !== null) return say(words.changedMeanwhile(name), true);
    }
    documents.remove(words.removeFile, path);
    spread([{ path, edits: [] }], false);
    say(words.removed(name));
  });

export const renameText = (from: string, to: string): Promise<void> =>
  inTurn(async () => {
    const document = documents.get(from);
    if (!document || from === to) return;
    if (documents.get(to)) return say(words.nameTaken(to), true);
    if (document.base !== null) {
      const { conflict } = await call('file.rename', { library: here.library, from, to, base: document.base });
      if (conflict !== null) return say(words.changedMeanwhile(nameOf(from)), true);
    }
    documents.rename(from, to);
    core.edit([
      { path: from, gone: true },
      { path: to, text: documents.get(to)?.text ?? '' },
    ]);
    shown.set({ checking: true, unsaved: unsavedNow() });
    if (shown.get().file === from) show(to);
    journalSoon();
    say(words.renamed(to));
  });
