/** Files of the library that are no texts: figures with their bytes, and captions. Given to the worker as they come, change and go on disk. */
import { kindOfFigure, UNREAD } from '../../procedures-schema/figures/index.ts';
import type { Change } from '../../procedures-schema/index.ts';
import { isFilmText } from '../../procedures-schema/narration/index.ts';
import { bytesOf, call, type DiskChange } from '../host.ts';
import { shown, wrong } from './shown.ts';
import { core, documents, here } from './workspace.ts';

const paths = new Set<string>();
const figures = new Map<string, Uint8Array>();
const filmTexts = new Map<string, string>();

/** For a second worker, which is fed with all that the first one has. */
export const otherPaths = (): readonly string[] => [...paths].sort();
export const figureBytes = (): ReadonlyMap<string, Uint8Array> => figures;
export const filmTextsRead = (): ReadonlyMap<string, string> => filmTexts;
/** Sorted; figures only. */
export const figurePaths = (): readonly string[] => [...figures.keys()].sort();

const isFigure = (path: string): boolean => path.startsWith('figures/') && kindOfFigure(path) !== undefined;

let allRead: () => void = () => undefined;
/** Done when every figure of the library as it was opened is with the worker, or could not be read. */
export const figuresRead = new Promise<void>((resolve) => {
  allRead = resolve;
});

/** All there is besides the texts, by name. */
export function namesOfOthers(found: readonly string[]): readonly string[] {
  for (const path of found) if (documents.get(path) === undefined) paths.add(path);
  return otherPaths();
}

/** Read from disk so many at a time; what shows them is checked again once for each handful. */
const HANDFUL = 32;

export async function readOthers(): Promise<void> {
  for (const path of paths) if (isFilmText(path)) void giveFilmText(path).catch(wrong);
  const wanted = otherPaths().filter(isFigure);
  for (let from = 0; from < wanted.length; from += HANDFUL)
    edit((await Promise.all(wanted.slice(from, from + HANDFUL).map(readFigure))).filter((one) => one !== undefined));
  allRead();
}

/** Films are no texts to be written here, but prints lead into them. */
async function giveFilmText(path: string): Promise<void> {
  const { file } = await call('file.read', { library: here.library, path });
  if (!file) return;
  filmTexts.set(path, file.text);
  core.edit([{ path, text: file.text }]);
}

/** What is to be told of it; undefined: it is as it was, or gone again. */
async function readFigure(path: string): Promise<Change | undefined> {
  const bytes = await call('figure.read', { library: here.library, path }).then(
    ({ base64 }) => bytesOf(base64),
    () => undefined,
  );
  const kind = kindOfFigure(path);
  if (!paths.has(path) || kind === undefined) return undefined;
  if (bytes === undefined) return { path, present: true, figure: { kind, fault: UNREAD } };
  const before = figures.get(path);
  if (before?.length === bytes.length && before.every((byte, at) => byte === bytes[at])) return undefined;
  put(path, bytes);
  return { path, present: true };
}

/** A figure that this window has from elsewhere than the disk. */
export function give(path: string, bytes: Uint8Array): void {
  put(path, bytes);
  edit([{ path, present: true }]);
}

/** It is on disk no more. */
export function forget(path: string): void {
  if (!paths.delete(path)) return;
  figures.delete(path);
  filmTexts.delete(path);
  edit([{ path, gone: true }]);
}

function put(path: string, bytes: Uint8Array): void {
  paths.add(path);
  figures.set(path, bytes);
  core.figure(path, bytes);
}

/** What was found is of an earlier state until the worker answers. */
function edit(changes: readonly Change[]): void {
  if (changes.length === 0) return;
  shown.set({ checking: true });
  core.edit(changes);
}

let last: Promise<void> = Promise.resolve();

/** Pages that show it are drawn anew, and what shows it is checked again. One after the other, so that an older state never comes last. */
export function othersOnDisk(changes: readonly DiskChange[]): Promise<void> {
  last = last.then(() => takeChanges(changes)).catch(wrong);
  return last;
}

async function takeChanges(changes: readonly DiskChange[]): Promise<void> {
  for (const one of changes) {
    const { path } = one;
    if ('gone' in one) forget(path);
    else if ('present' in one) {
      const isNew = !paths.has(path);
      paths.add(path);
      if (isFilmText(path)) await giveFilmText(path);
      const read = isFigure(path) ? await readFigure(path) : undefined;
      if (read || isNew) edit([read ?? { path, present: true }]);
    }
  }
}
