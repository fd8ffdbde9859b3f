/**
 * The texts of one library in one window, in step with the worker that checks them. Every change of a text goes through `change`, so that nothing
 * reaches journal, worker or editor by another way.
 */
import type { FileEdits } from '../../procedures-schema/assist/index.ts';
import type { Finding } from '../../procedures-schema/index.ts';
import { call } from '../host.ts';
import { words } from '../words/words.ts';
import { CoreClient } from '../worker/client.ts';
import { Arriving } from './arriving.ts';
import { type Applied, Documents } from './documents.ts';
import { Listing } from './listing.ts';
import { goBackTo, readByNow, type Shown, say, shown, wrong } from './shown.ts';

/** The host's name of the library that is open, and this window's own name. */
export const here = { library: '', window: crypto.randomUUID() as string };
export const documents = new Documents();

/** Told of edits that did not come from the editor. */
type Listener = (applied: readonly Applied[]) => void;
const editors = new Set<Listener>();
export function onOutsideEdit(listener: Listener): () => void {
  editors.add(listener);
  return () => editors.delete(listener);
}

export const core = new CoreClient(
  ({ findings, between, waiting, engine }, settled) => {
    const { revision } = shown.get();
    arriving.overtakenBy(findings);
    shown.set({
      findings: merged(findings),
      ...(between === undefined ? {} : { between: sameAs(between) }),
      due: between === undefined,
      waiting,
      engine,
      revision: revision + 1,
      checking: !settled,
    });
    // While a long library is read its list changes all the time, and is drawn now and then.
    if (waiting === 0 || performance.now() - listedAt > 1000) {
      listedAt = performance.now();
      askOverview();
    }
  },
  (message) => {
    shown.set({ checking: false });
    say(words.checkFailed(message), true);
  },
  ({ findings, between, waiting }) => {
    arriving.hold(findings);
    // Told in bits, shown once a second: nobody reads faster, and typing must not wait for lists.
    if (waiting > 0 && performance.now() - shownAt < 1000) return;
    shownAt = performance.now();
    const all = merged(arriving.take());
    const { revision } = shown.get();
    shown.set({ findings: all, waiting, ...(waiting === 0 ? { between, due: false, revision: revision + 1 } : {}) });
    if (waiting === 0 || performance.now() - listedAt > 10_000) {
      listedAt = performance.now();
      askOverview();
    }
  },
  (between) => shown.set({ between: sameAs(between), due: false }),
  () => askOverview(),
);

/** What says the same as before is the same, so that lists are not drawn again at every key. */
function sameAs(between: readonly Finding[]): readonly Finding[] {
  const { between: before } = shown.get();
  return JSON.stringify(before) === JSON.stringify(between) ? before : between;
}

/** The findings there are with those of some files anew; the same map where that changes nothing. */
function merged(news: readonly (readonly [string, readonly Finding[]])[]): ReadonlyMap<string, readonly Finding[]> {
  const { findings } = shown.get();
  const changed = news.filter(([file, own]) => !findings.has(file) || JSON.stringify(findings.get(file)) !== JSON.stringify(own));
  return changed.length === 0 ? findings : new Map([...findings, ...changed]);
}

const arriving = new Arriving<Finding>();
let shownAt = 0;
let listedAt = 0;

export const listing = new Listing();

/** The list is only taken over where it changed. */
function askOverview(): void {
  void core.ask('overview', {}).then((news) => {
    if (news) shown.set({ overview: listing.take(news) });
  });
}

/** The one way of changing texts. `fromEditor`: the editor has it already. */
export function change(title: string, files: readonly Applied[], fromEditor = false): void {
  documents.edit(title, files, performance.now(), fromEditor);
  spread(files, fromEditor);
  if (fromEditor) readByNow();
}

/** Edits that were proposed for texts that may have changed since: refused as a whole when one did. */
export function applyProposed(title: string, files: readonly FileEdits[]): void {
  change(
    title,
    files.map(({ file, edits }) => ({ path: file, edits })),
  );
  say(words.done(title, files.length));
}

/** Tells editor, worker and journal of texts that `documents` has already; of those that are gone from it, that they are. */
export function spread(files: readonly Applied[], fromEditor: boolean): void {
  if (!fromEditor) for (const listener of editors) listener(files);
  core.edit(
    files.map(({ path }) => {
      const document = documents.get(path);
      return document ? { path, text: document.text } : { path, gone: true as const };
    }),
  );
  shown.set({ checking: true, unsaved: unsavedNow(), ...leftIfGone() });
  journalSoon();
}

/** A text that is not there any more is not shown: what was typed into it would have no place. */
export function leftIfGone(): Partial<Shown> {
  const { file } = shown.get();
  return file === undefined || documents.get(file) ? {} : { file: undefined, variant: undefined, goTo: undefined };
}

/** Paths with text that is not on disk; the same set while they are the same. */
export function unsavedNow(): ReadonlySet<string> {
  const { unsaved } = shown.get();
  const now = documents.unsaved().map(({ path }) => path);
  return now.length === unsaved.size && now.every((path) => unsaved.has(path)) ? unsaved : new Set(now);
}

/** With the byte-order mark it came with. */
export const raw = (path: string): string => {
  const document = documents.get(path);
  return `${document?.bom ? '\uFEFF' : ''}${document?.text ?? ''}`;
};

const journal = { due: false, stale: false, writing: undefined as Promise<void> | undefined, put: undefined as Promise<void> | undefined };
/** Unsaved text is safe within half a second, whatever happens to this window or the host. */
export function journalSoon(): void {
  if (journal.writing) journal.stale = true;
  else if (!journal.due) {
    journal.due = true;
    setTimeout(() => void journalNow(), 400);
  }
}

/**
 * Done when what is unsaved now is put by, or that it could not be was said. One write at a time, so that an older one never comes last and
 * writes to a slow disk do not queue up: what is typed while one is under way goes into the next, which follows at once.
 */
export function journalNow(): Promise<void> {
  if (journal.writing) journal.stale = true;
  else journal.writing = writeJournal();
  return journal.writing;
}

/** When the write that is under way is done, not those that follow it: a save must not be overtaken by what was typed before it. */
export const journalSettled = async (): Promise<void> => journal.put;

async function writeJournal(): Promise<void> {
  journal.due = false;
  do {
    journal.stale = false;
    journal.put = putJournal().catch((error) => {
      // What went wrong before, a save perhaps, is the graver news.
      if (!shown.get().message?.wrong) wrong(error);
    });
    await journal.put;
  } while (journal.stale);
  journal.writing = undefined;
}

/** Journals that were taken over into this window's own; they go when that one is written. */
const takenOver = new Set<string>();
export function takeOver(windows: readonly string[]): void {
  for (const window of windows) takenOver.add(window);
}

async function putJournal(): Promise<void> {
  const entries = documents.unsaved().map(({ path, base }) => ({ path, base, text: raw(path) }));
  await call('journal.put', { ...here, entries });
  for (const window of [...takenOver]) {
    takenOver.delete(window);
    await call('journal.drop', { library: here.library, window });
  }
}

/** Shows a file as it was left, or where its work begins: a writer seldom comes for the front matter. */
export function show(file: string): void {
  const text = documents.get(file)?.text ?? '';
  // One that still waits is read now.
  if (shown.get().waiting > 0) core.edit([{ path: file, text }]);
  const body = /^## .+\r?\n(?:\s*\r?\n)*\s*1[.)] /m.exec(text);
  goBackTo(file, body?.index ?? 0);
}
