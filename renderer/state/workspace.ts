/**
 * One window's work on one library: keeps host, documents and worker in step, and tells the views what to show. Every change of a text
 * goes through `change`, so that nothing reaches disk, worker or editor by another way.
 */
import type { FileEdits } from '../../procedures-schema/assist/index.ts';
import type { Finding } from '../../procedures-schema/index.ts';
import { base64Of, bytesOf, call, type DiskChange, type JournalEntry, watchDisk } from '../host.ts';
import { CoreClient } from '../worker/client.ts';
import type { Overview } from '../worker/queries/queries.ts';
import { type Applied, Documents } from './documents.ts';
import { newStore } from './store.ts';

export type View = 'write' | 'review' | 'print';

/** The file changed on disk while this window has unsaved text in it: the writer chooses. */
export interface Clash {
  readonly path: string;
  /** On disk now; null: deleted. */
  readonly theirs: string | null;
  readonly hash: string | null;
}

export interface Shown {
  readonly view: View;
  readonly folder: string | undefined;
  readonly name: string;
  readonly overview: Overview | undefined;
  readonly findings: ReadonlyMap<string, readonly Finding[]>;
  readonly between: readonly Finding[];
  /** Counts what was checked; margin, pages and tables are asked for again when it grows. */
  readonly revision: number;
  readonly checking: boolean;
  /** Procedures that wait to be read, of a library too long to be read at once. */
  readonly waiting: number;
  readonly file: string | undefined;
  /** Where to put the caret when the file is shown; counted so that the same place can be asked for twice. */
  readonly goTo: { readonly offset: number; readonly end: number; readonly count: number } | undefined;
  readonly caret: number;
  readonly variant: string | undefined;
  /** Paths with text that is not on disk. */
  readonly unsaved: ReadonlySet<string>;
  readonly clashes: readonly Clash[];
  readonly recovered: readonly JournalEntry[];
  /** One line at the foot of the page: what was done, or what went wrong. */
  readonly message: { readonly text: string; readonly wrong: boolean } | undefined;
}

export const shown = newStore<Shown>({
  view: 'write',
  folder: undefined,
  name: '',
  overview: undefined,
  findings: new Map(),
  between: [],
  revision: 0,
  checking: false,
  waiting: 0,
  file: undefined,
  goTo: undefined,
  caret: 0,
  variant: undefined,
  unsaved: new Set(),
  clashes: [],
  recovered: [],
  message: undefined,
});

export const documents = new Documents();
const window = crypto.randomUUID();
let library = '';
let count = 0;

/** Told of edits that did not come from the editor. */
type Listener = (applied: readonly Applied[]) => void;
const editors = new Set<Listener>();
export function onOutsideEdit(listener: Listener): () => void {
  editors.add(listener);
  return () => editors.delete(listener);
}

export const say = (text: string, wrong = false): void => shown.set({ message: { text, wrong } });
const wrong = (error: unknown): void => say((error as Error).message, true);

export const core = new CoreClient(
  ({ findings, between, waiting }, settled) => {
    const all = new Map(shown.get().findings);
    for (const [file, own] of findings) all.set(file, own);
    const { revision } = shown.get();
    shown.set({ findings: all, between, waiting, revision: revision + 1, checking: !settled });
    askOverview();
  },
  (message) => {
    shown.set({ checking: false });
    say(`Checking failed: ${message} This is a fault of the program, not of your text. Your text is kept.`, true);
  },
  ({ findings, between, waiting }) => {
    for (const [file, own] of findings) arrived.set(file, own);
    // Told in bits, shown twice a second: nobody reads faster, and typing must not wait for lists.
    if (waiting > 0 && performance.now() - shownAt < 500) return;
    shownAt = performance.now();
    const all = new Map(shown.get().findings);
    for (const [file, own] of arrived) all.set(file, own);
    arrived.clear();
    const { revision } = shown.get();
    shown.set({ findings: all, waiting, ...(waiting === 0 ? { between, revision: revision + 1 } : {}) });
    if (waiting === 0 || performance.now() - listedAt > 3000) {
      listedAt = performance.now();
      askOverview();
    }
  },
);

const arrived = new Map<string, readonly Finding[]>();
let shownAt = 0;
let listedAt = 0;

/** The list is only taken over where it changed. */
function askOverview(): void {
  void core.ask('overview', {}).then((overview) => {
    if (overview) shown.set({ overview });
  });
}

/** From this many procedures on a library is read bit by bit, what is shown first. */
const LONG = 40;

// ---------------------------------------------------------------- opening

/** Which library this window shows, over a reload of the page. */
const OPENED = 'library opened';

/** Another library begins with an empty page: nothing of this one can stay behind in it. */
export function switchLibrary(folder: string): void {
  sessionStorage.setItem(OPENED, folder);
  location.reload();
}

export async function begin(): Promise<void> {
  try {
    const { sample, open } = await call('libraries.recent', {});
    watchDisk((from, changes) => {
      if (from === library) onDisk(changes);
    });
    const wanted = sessionStorage.getItem(OPENED) ?? open ?? sample;
    try {
      await openLibrary(wanted);
    } catch (error) {
      if (wanted === sample) throw error;
      sessionStorage.removeItem(OPENED);
      wrong(error);
      await openLibrary(sample);
    }
    void giveFonts();
  } catch (error) {
    wrong(error);
  }
}

export async function openLibrary(folder: string): Promise<void> {
  const opened = await call('library.open', { folder });
  library = opened.library;
  const read = await call('library.read', { library });
  for (const { path, text, hash } of read.files) documents.fromDisk(path, text, hash);
  const texts = documents.list().map(({ path, text }) => ({ path, text }));
  others = read.paths.filter((path) => documents.get(path) === undefined);
  const first = read.files.map(({ path }) => path).find((path) => path.startsWith('procedures/'));
  shown.set({ folder: opened.folder, name: opened.name, checking: true });
  if (first !== undefined) show(first);
  const long = texts.filter(({ path }) => path.startsWith('procedures/')).length > LONG;
  core.edit([
    ...texts.map((file) => (long && file.path.startsWith('procedures/') && file.path !== first ? { ...file, later: true } : file)),
    ...others.map((path) => ({ path, present: true as const })),
  ]);
  for (const refusal of read.refusals) say(`${refusal.path}: ${refusal.message}`, true);
  const { entries } = await call('journal.list', { library });
  // What the disk holds already needs no rescue.
  shown.set({
    recovered: entries.filter(
      ({ path, text }) => (documents.get(path)?.bom ? `\uFEFF${documents.get(path)?.text}` : documents.get(path)?.text) !== text,
    ),
  });
  for (const path of read.paths) if (/^figures\/.*\.(svg|png|jpe?g)$/i.test(path)) void giveFigure(path);
}

async function giveFigure(path: string): Promise<void> {
  const { base64 } = await call('figure.read', { library, path });
  const bytes = bytesOf(base64);
  figures.set(path, bytes);
  core.figure(path, bytes);
}

const figures = new Map<string, Uint8Array>();
let fonts: Readonly<Record<string, Uint8Array>> = {};
let others: readonly string[] = [];
/** For a second worker, which is fed with all that the first one has. */
export const figureBytes = (): ReadonlyMap<string, Uint8Array> => figures;
export const fontBytes = (): Readonly<Record<string, Uint8Array>> => fonts;
/** Sorted; figures only. */
export const figurePaths = (): readonly string[] => [...figures.keys()].sort();

/** Copies a picture into the library; its path there. */
export async function addFigure(picture: File): Promise<string> {
  const bytes = new Uint8Array(await picture.arrayBuffer());
  const { path } = await call('figure.write', { library, name: picture.name.replace(/[^\w.-]+/g, '-'), base64: base64Of(bytes) });
  figures.set(path, bytes);
  core.figure(path, bytes);
  core.edit([{ path, present: true }]);
  return path;
}
export const otherPaths = (): readonly string[] => others;

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

// ---------------------------------------------------------------- changing

/** The one way of changing texts. `fromEditor`: the editor has it already. */
export function change(title: string, files: readonly Applied[], fromEditor = false): void {
  documents.edit(title, files, performance.now(), fromEditor);
  spread(files, fromEditor);
}

/** Edits that were proposed for texts that may have changed since: refused as a whole when one did. */
export function applyProposed(title: string, files: readonly FileEdits[]): void {
  change(
    title,
    files.map(({ file, edits }) => ({ path: file, edits })),
  );
  say(`${title}: done in ${files.length === 1 ? 'one file' : `${files.length} files`}. Undo takes it back.`);
}

export function undo(): void {
  const applied = documents.undo();
  if (applied) spread(applied, false);
}

export function redo(): void {
  const applied = documents.redo();
  if (applied) spread(applied, false);
}

function spread(files: readonly Applied[], fromEditor: boolean): void {
  if (!fromEditor) for (const listener of editors) listener(files);
  core.edit(files.map(({ path }) => ({ path, text: documents.get(path)?.text ?? '' })));
  shown.set({ checking: true, unsaved: new Set(documents.unsaved().map(({ path }) => path)) });
  journalSoon();
}

const raw = (path: string): string => {
  const document = documents.get(path);
  return `${document?.bom ? '\uFEFF' : ''}${document?.text ?? ''}`;
};

let journalDue = false;
/** Unsaved text is safe within half a second, whatever happens to this window or the host. */
function journalSoon(): void {
  if (journalDue) return;
  journalDue = true;
  setTimeout(() => {
    journalDue = false;
    const entries = documents.unsaved().map(({ path, base }) => ({ path, base, text: raw(path) }));
    call('journal.put', { library, window, entries }).catch(wrong);
  }, 400);
}

// ---------------------------------------------------------------- saving

export async function save(): Promise<void> {
  const files = documents.unsaved().map(({ path, base }) => ({ path, base, text: raw(path) }));
  if (files.length === 0) return say('Everything is saved.');
  try {
    const { saved, conflicts } = await call('file.save', { library, files });
    for (const { path, hash } of saved) {
      const own = files.find((file) => file.path === path)?.text ?? '';
      documents.saved(path, own.replace(/^\uFEFF/, ''), hash);
    }
    shown.set({
      unsaved: new Set(documents.unsaved().map(({ path }) => path)),
      clashes: conflicts.map(({ path, text, hash }) => ({ path, theirs: text, hash })),
    });
    if (documents.unsaved().length === 0) await call('journal.drop', { library, window });
    else journalSoon();
    if (conflicts.length === 0) say(saved.length === 1 ? `Saved ${saved[0]?.path}.` : `Saved ${saved.length} files.`);
    else say('Some files changed on disk meanwhile. Nothing was overwritten; choose below.', true);
  } catch (error) {
    wrong(error);
  }
}

function onDisk(changes: readonly DiskChange[]): void {
  const clashes: Clash[] = [];
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
        documents.gone(one.path);
        core.edit([{ path: one.path, gone: true }]);
      }
    } else core.edit([{ path: one.path, present: true }]);
  }
  if (clashes.length > 0)
    shown.set({ clashes: [...shown.get().clashes.filter(({ path }) => !clashes.some((one) => one.path === path)), ...clashes] });
}

/** This window's text gives way to the disk's; undo still has it. */
export function takeTheirs(clash: Clash): void {
  const { path, theirs, hash } = clash;
  if (theirs === null || hash === null) {
    documents.gone(path);
    core.edit([{ path, gone: true }]);
  } else {
    const before = documents.get(path);
    const text = theirs.replace(/^\uFEFF/, '');
    if (before) change('Take the text on disk', [{ path, edits: [{ start: 0, end: before.text.length, text }] }]);
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
  if (document) documents.saved(clash.path, clash.theirs?.replace(/^\uFEFF/, '') ?? '', clash.hash ?? '');
  settle(clash.path);
  await save();
}

/** Both are kept: the disk's in its place, this window's beside it. */
export function keepBoth(clash: Clash): void {
  const mine = documents.get(clash.path)?.text ?? '';
  const beside = clash.path.replace(/(\.[^.]*)?$/, (end) => `-mine${end}`);
  takeTheirs(clash);
  change('Keep both', [{ path: beside, edits: [{ start: 0, end: 0, text: mine }] }]);
}

function settle(path: string): void {
  shown.set({
    clashes: shown.get().clashes.filter((one) => one.path !== path),
    unsaved: new Set(documents.unsaved().map((one) => one.path)),
  });
}

// ---------------------------------------------------------------- rescue

export function takeRecovered(): void {
  const files = shown.get().recovered.map(({ path, text }) => ({
    path,
    edits: [{ start: 0, end: documents.get(path)?.text.length ?? 0, text: text.replace(/^\uFEFF/, '') }],
  }));
  shown.set({ recovered: [] });
  change('Take back unsaved text', files);
}

export async function dropRecovered(): Promise<void> {
  shown.set({ recovered: [] });
  await call('journal.drop', { library }).catch(wrong);
}

// ---------------------------------------------------------------- going, writing out

/** Shows a file where its work begins: a writer seldom comes for the front matter. */
export function show(file: string): void {
  const text = documents.get(file)?.text ?? '';
  const body = /^## .+\r?\n(?:\s*\r?\n)*\s*1[.)] /m.exec(text);
  goTo(file, body?.index ?? 0);
}

export function goTo(file: string, offset: number, end = offset, view: View = 'write'): void {
  count += 1;
  const variants = file === shown.get().file ? {} : { variant: undefined };
  shown.set({ view, file, goTo: { offset, end, count }, ...variants });
}

/** The path it was written to; undefined: it could not be, and that was said. */
export async function writeOut(name: string, bytes: Uint8Array): Promise<string | undefined> {
  try {
    const { path } = await call('output.write', { library, name, base64: base64Of(bytes) });
    say(`Written: ${path}`);
    return path;
  } catch (error) {
    wrong(error);
    return undefined;
  }
}

export const history = (path: string) => call('history.list', { library, path });
export const historyText = (path: string, revision: string) => call('history.read', { library, path, revision });
