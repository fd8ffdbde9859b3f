/** Closing a window with text that is not saved, and pages that stop or hang: asks the user, and loses nothing either way. */
import { app, type BrowserWindow, dialog } from 'electron';
import { CHANNELS } from './channels.ts';
import { type HostEvent, UNSAVED_MARK } from './host/contract/index.ts';
import type { ShellWords } from './words.ts';

/** Saving a large library to a slow disk; milliseconds. */
const PATIENCE = 20_000;

let quitting = false;

/** So that a program that was told to quit goes on quitting when its text is saved. */
export function noteQuitting(): void {
  app.on('before-quit', () => {
    quitting = true;
  });
}

export function askBeforeClosing(window: BrowserWindow, words: () => ShellWords): void {
  const { webContents } = window;
  webContents.on('will-prevent-unload', (event) => {
    const { unsaved, unsavedWhy, saveAll, without, stay } = words();
    const buttons = [saveAll, without, stay];
    const answer = dialog.showMessageBoxSync(window, {
      type: 'question',
      message: unsaved,
      detail: unsavedWhy,
      buttons,
      defaultId: 0,
      cancelId: 2,
      noLink: true,
    });
    // Here "prevent" means: do not let the page hold the window.
    if (answer === 1) return event.preventDefault();
    const leave = quitting ? () => app.quit() : () => window.close();
    quitting = false;
    if (answer === 0) void saveThen(window, words, leave);
  });

  webContents.on('render-process-gone', async (_, { reason }) => {
    if (reason === 'clean-exit' || window.isDestroyed()) return;
    const { stopped, stoppedWhy, openAnew, closeWindow } = words();
    const { response } = await dialog.showMessageBox(window, {
      type: 'error',
      message: stopped,
      detail: stoppedWhy,
      buttons: [openAnew, closeWindow],
    });
    if (window.isDestroyed()) return;
    if (response === 0) webContents.reload();
    else window.destroy();
  });

  window.on('unresponsive', async () => {
    const { hangs, hangsWhy, wait, openAnew } = words();
    const { response } = await dialog.showMessageBox(window, {
      type: 'warning',
      message: hangs,
      detail: hangsWhy,
      buttons: [wait, openAnew],
    });
    if (response === 1 && !window.isDestroyed()) webContents.forcefullyCrashRenderer();
  });
}

/** The page saves; its title tells when it is done. */
async function saveThen(window: BrowserWindow, words: () => ShellWords, leave: () => void): Promise<void> {
  const saved = new Promise<boolean>((resolve) => {
    const timer = setTimeout(() => resolve(false), PATIENCE);
    const hear = (_: unknown, title: string): void => {
      if (title.startsWith(UNSAVED_MARK)) return;
      clearTimeout(timer);
      resolve(true);
    };
    window.webContents.on('page-title-updated', hear);
    window.once('closed', () => clearTimeout(timer));
  });
  window.webContents.send(CHANNELS.event, { event: 'action', name: 'save' } satisfies HostEvent);
  const done = await saved;
  if (window.isDestroyed()) return;
  if (done) leave();
  else await dialog.showMessageBox(window, { type: 'warning', message: words().notSaved });
}
