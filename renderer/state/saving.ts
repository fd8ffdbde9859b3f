/** Between window and disk: saving, what changed there meanwhile, unsaved text found again, files written out, earlier texts. Overwrites nothing unseen. */
import { base64Of, call, type DiskChange } from '../host.ts';
import { words } from '../words/words.ts';
import { nameOf } from './names.ts';
import { type Clash, say, shown, wrong } from './shown.ts';
import { change, core, documents, here, journalNow, journalSettled, raw, spread, takeOver, unsavedNow } from './workspace.ts';

let last: Promise<void> = Promise.resolve();

/**
 * Between window and disk one thing after another. A second save before the first is answered would write over bytes that this window does not know
 * yet, and be refused; and what the disk tells of while a save is under way may be that very save.
 */
export function inTurn(job: () => Promise<void>): Promise<void> {
  last = last.then(job).catch(wrong);
  return last;
}

export const save = (): Promise<void> => inTurn(saveNow);

async function saveNow(): Promise<void> {
  await journalSettled();
  const files = documents.unsaved().map(({ path, base }) => ({ path, base, text: raw(path) }));
  if (files.length === 0) return say(words.savedAll);
  try {
    const { saved, conflicts } = await call('file.save', { ...here, files });
    for (const { path, hash } of saved) {
      const own = files.find((file) => file.path === path)?.text ?? '';
      documents.saved(path, own.replace(/^\uFEFF/, ''), hash);
      ours.add(hash);
    }
    shown.set({
      unsaved: unsavedNow(),
      clashes: conflicts.map(({ path, text, hash }) => ({ path, theirs: text, hash })),
    });
    if (conflicts.length === 0) say(words.savedTexts(saved.length));
    else say(words.savedNot, true);
  } catch (error) {
    wrong(error);
  }
  // Saved or not: what was typed meanwhile is put by.
  void journalNow();
}

export const onDisk = (changes: readonly DiskChange[]): Promise<void> => inTurn(() => takeChanges(changes));

/** Names of bytes that this window wrote. */
const ours = new Set<string>();

/**
 * The news of an earlier save of this window may come after a later one; and a writer is asked about what is there, not about what was. So such
 * news is looked up again.
 */
async function asItIs(one: DiskChange): Promise<DiskChange> {
  const document = documents.get(one.path);
  if (!('text' in one) || document?.base === one.hash) return one;
  if (!ours.has(one.hash) && document?.text === document?.saved) return one;
  const { file } = await call('file.read', { library: here.library, path: one.path });
  return file ?? { path: one.path, gone: true };
}

async function takeChanges(news: readonly DiskChange[]): Promise<void> {
  const clashes: Clash[] = [];
  const changes = await Promise.all(news.map((one) => asItIs(one).catch(() => one)));
  for (const one of changes) {
    const document = documents.get(one.path);
    const dirty = document !== undefined && document.text !== document.saved;
    if ('text' in one) {
      if (document?.base === one.hash) continue;
      if (dirty) clashes.push({ path: one.path, theirs: one.text, hash: one.hash });
      else takeTheirs({ path: one.path, theirs: one.text, hash: one.hash });
    } else if ('gone' in one) {
      if (dirty) clashes.push({ path: one.path, theirs: null, hash: null });
      else if (document) {
        if (one.path === shown.get().file) say(words.goneFromDisk(nameOf(one.path)), true);
        documents.gone(one.path);
        spread([{ path: one.path, edits: [] }], false);
      }
    }
  }
  if (clashes.length > 0)
    shown.set({ clashes: [...shown.get().clashes.filter(({ path }) => !clashes.some((one) => one.path === path)), ...clashes] });
}

/** This window's text gives way to the disk's; undo still has it. */
export function takeTheirs(clash: Clash): void {
  const { path, theirs, hash } = clash;
  if (theirs === null || hash === null) {
    documents.remove(words.takeTheirs, path);
    spread([{ path, edits: [] }], false);
  } else {
    const before = documents.get(path);
    const text = theirs.replace(/^\uFEFF/, '');
    if (before) change(words.takeTheirs, [{ path, edits: [{ start: 0, end: before.text.length, text }] }]);
    else {
      documents.fromDisk(path, theirs, hash);
      core.edit([{ path, text }]);
    }
    documents.saved(path, text, hash);
  }
  settle(path);
}

/** The disk's text is known and will be overwritten by the next save. */
export async function keepMine(clash: Clash): Promise<void> {
  const document = documents.get(clash.path);
  if (document) documents.saved(clash.path, clash.theirs?.replace(/^\uFEFF/, '') ?? '', clash.hash);
  settle(clash.path);
  await save();
}

/** A second text of another kind would be read beside the first and contradict it. */
export const hasNumberOfItsOwn = (path: string): boolean => path.startsWith('procedures/');

/** Both are kept: the disk's in its place, this window's beside it under the next free number, since a number names one procedure. */
export async function keepBoth(clash: Clash): Promise<void> {
  const before = documents.get(clash.path)?.text ?? '';
  const own = await core.ask('ownNumber', { file: clash.path });
  // Chosen already, by a second click or otherwise.
  if (!shown.get().clashes.includes(clash)) return;
  const { text: mine } = documents.get(clash.path) ?? { text: before };
  const beside = freeBeside(clash.path);
  takeTheirs(clash);
  // Typed on meanwhile: then the number is for the writer to give.
  const numbered = own && mine === before ? own : undefined;
  const edits = [...(numbered?.edits ?? [])].sort((a, b) => b.start - a.start);
  const text = edits.reduce((whole, { start, end, text: put }) => whole.slice(0, start) + put + whole.slice(end), mine);
  change(words.keepBoth, [{ path: beside, edits: [{ start: 0, end: 0, text }] }]);
  say(words.keptBoth(beside, numbered?.number));
}

function freeBeside(path: string): string {
  for (let count = 1; ; count += 1) {
    const one = path.replace(/(\.[^./]*)?$/, (end) => `-mine${count === 1 ? '' : `-${count}`}${end}`);
    if (!documents.get(one)) return one;
  }
}

function settle(path: string): void {
  shown.set({
    clashes: shown.get().clashes.filter((one) => one.path !== path),
    unsaved: unsavedNow(),
  });
}

/** Of two windows that had one file the last to write is taken, and the other's text is still offered. */
export function takeRecovered(): void {
  const { recovered, clashes } = shown.get();
  const taken = new Map(recovered.map((one) => [one.path, one]));
  const left = recovered.filter((one) => taken.get(one.path) !== one);
  const over: Clash[] = [];
  for (const { path, base } of taken.values()) {
    const theirs = documents.get(path);
    // Somebody else wrote the file since: this text is not to go over that unasked.
    if ((theirs?.base ?? null) !== base) over.push({ path, theirs: theirs?.saved ?? null, hash: theirs?.base ?? null });
  }
  const kept = clashes.filter(({ path }) => !taken.has(path));
  shown.set({ recovered: left });
  takeOver([...taken.values()].map(({ window }) => window).filter((window) => !left.some((one) => one.window === window)));
  change(
    words.takeBack,
    [...taken.values()].map(({ path, text }) => ({
      path,
      edits: [{ start: 0, end: documents.get(path)?.text.length ?? 0, text: text.replace(/^\uFEFF/, '') }],
    })),
  );
  for (const { path, base } of taken.values()) documents.over(path, base);
  shown.set({ clashes: [...kept, ...over] });
}

export async function dropRecovered(): Promise<void> {
  const windows = new Set(shown.get().recovered.map(({ window }) => window));
  shown.set({ recovered: [] });
  // Only of windows that are gone: others still write.
  for (const window of windows) await call('journal.drop', { library: here.library, window }).catch(wrong);
}

/**
 * A file that was written: to the printer, to be read, or its place in its folder, by the system's own means or, in a browser, in a tab that shows the
 * file. A browser shows no folder.
 */
export async function showOut(name: string, how: 'read' | 'print' | 'folder'): Promise<void> {
  try {
    const { address } = await call('output.show', { library: here.library, name, how });
    if (address !== undefined) globalThis.open(address, '_blank', 'noopener');
  } catch (error) {
    wrong(error);
  }
}

/** The path it was written to; undefined: it could not be, and that was said. */
export async function writeOut(name: string, bytes: Uint8Array): Promise<string | undefined> {
  try {
    const { path } = await call('output.write', { library: here.library, name, base64: base64Of(bytes) });
    say(words.written(path));
    return path;
  } catch (error) {
    wrong(error);
    return undefined;
  }
}

/** Of the document, and of what it is read with. */
export const historyAround = (path: string) => call('history.around', { library: here.library, path });
export const historyLibrary = (revision: string) => call('history.library', { library: here.library, revision });
/** Base64 by path; null: as the disk holds it now. */
export const historyFigures = (revision: string) => call('history.figures', { library: here.library, revision });
