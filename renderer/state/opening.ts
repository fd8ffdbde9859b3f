/** Opening a library: its texts and fonts from the host to the worker, what is shown first, and what was not saved last time. */
import { bytesOf, call, onShow } from '../host.ts';
import { refusedInWords } from '../refused.ts';
import { ahead, hearDisk, type OnDisk, OPENED } from './ahead.ts';
import { keepFindings } from './kept-findings.ts';
import { keepLeftOff, leftOff } from './left-off.ts';
import { namesOfOthers, othersOnDisk, readOthers } from './other-files.ts';
import { onDisk } from './saving.ts';
import { putSetting } from './settings.ts';
import { goBackTo, shown, wrong } from './shown.ts';
import { core, documents, here, journalNow, show } from './workspace.ts';

/** Another library begins with an empty page: nothing of this one can stay behind in it. */
export async function switchLibrary(folder: string): Promise<void> {
  await journalNow();
  sessionStorage.setItem(OPENED, folder);
  location.reload();
}

/** Takes effect at once by opening the page anew. */
export async function setLanguage(code: string): Promise<void> {
  await journalNow();
  await putSetting('language', code);
  location.reload();
}

export async function begin(): Promise<void> {
  keepFindings();
  try {
    onShow((path) => show(path));
    const { recent, first, instead } = await ahead();
    const rest = takeLibrary(first);
    hearDisk((from, changes) => {
      if (from !== here.library) return;
      void onDisk(changes);
      void othersOnDisk(changes);
    });
    if (instead !== undefined) wrong(instead);
    if (recent.show !== undefined && documents.get(recent.show)) show(recent.show);
    await rest;
    void giveFonts();
  } catch (error) {
    wrong(error);
  }
}

/** Shows the first text at once; done when all that belongs to it has been asked for. */
async function takeLibrary({ opened, read, leftOff: kept }: OnDisk): Promise<void> {
  here.library = opened.library;
  const { library } = here;
  for (const { path, text, hash } of read.files) documents.fromDisk(path, text, hash);
  const texts = documents.list().map(({ path, text }) => ({ path, text }));
  const left = leftOff(kept);
  const there = left === undefined ? undefined : documents.get(left.file);
  const isProcedure = (path: string): boolean => path.startsWith('procedures/');
  const first = there && isProcedure(there.path) ? there.path : read.files.map(({ path }) => path).find(isProcedure);
  shown.set({ folder: opened.folder, name: opened.name, checking: true });
  // Where it was left; what somebody wrote since may have made it shorter.
  if (left && there) goBackTo(there.path, Math.min(left.caret, there.text.length));
  else if (first !== undefined) show(first);
  keepLeftOff();
  core.hold(painted());
  // What is shown is read first, the others bit by bit after it.
  core.edit([
    ...texts.map((file) => (isProcedure(file.path) && file.path !== first ? { ...file, later: true } : file)),
    ...namesOfOthers(read.paths).map((path) => ({ path, present: true as const })),
  ]);
  shown.set({ refusals: read.refusals.map(({ path, said }) => ({ path, message: refusedInWords(said) })) });
  const { entries } = await call('journal.list', { library });
  shown.set({ recovered: entries });
  await checkedOnce();
  void readOthers().catch(wrong);
}

/** When the first findings are there: pictures and fonts are for the pages, which are made after them. */
const checkedOnce = (): Promise<void> =>
  new Promise((resolve) => {
    const stop = shown.listen(() => {
      if (shown.get().revision === 0) return;
      stop();
      resolve();
    }, 'revision');
  });

/** When the text that was just shown is on the screen, or would be if the window were to be seen: nothing that can wait may delay it. */
const painted = (): Promise<void> =>
  new Promise((resolve) => {
    setTimeout(resolve, UNSEEN);
    requestAnimationFrame(() => setTimeout(resolve, 0));
  });
/** Milliseconds: a window that is not to be seen draws nothing. */
const UNSEEN = 500;

let fonts: Readonly<Record<string, Uint8Array>> = {};
/** For a second worker. */
export const fontBytes = (): Readonly<Record<string, Uint8Array>> => fonts;

/** The page shows print in the very letters of the print. */
async function giveFonts(): Promise<void> {
  const { faces } = await call('fonts.read', {});
  const bytes = Object.fromEntries(Object.entries(faces).map(([face, base64]) => [face, bytesOf(base64)]));
  core.fonts(bytes);
  fonts = bytes;
  for (const [face, own] of Object.entries(bytes)) {
    const font = new FontFace(`print-${face}`, own, { featureSettings: '"tnum" 1, "liga" 0, "clig" 0' });
    document.fonts.add(await font.load());
  }
  shown.set({ revision: shown.get().revision + 1 });
}
