/**
 * The figures of the library as this window has them: read, added, and taken away again. A figure that this window added and that no text of it
 * shows any more stays in the library until somebody says otherwise; it is told, and offered to be removed.
 */
import { base64Of, bytesOf, call } from '../host.ts';
import { words } from '../words/words.ts';
import { nameOf } from './names.ts';
import { noPicture } from './picture.ts';
import { type Offer, say, wrong } from './shown.ts';
import { core, documents, here, journalNow } from './workspace.ts';

export const isFigure = (path: string): boolean => /^figures\/.*\.(svg|png|jpe?g)$/i.test(path);

const figures = new Map<string, Uint8Array>();
/** All that is no text. */
let others = new Set<string>();

export function knowOthers(paths: readonly string[]): void {
  others = new Set(paths);
}

/** For a second worker, which is fed with all that the first one has. */
export const figureBytes = (): ReadonlyMap<string, Uint8Array> => figures;
export const otherPaths = (): readonly string[] => [...others];
/** Sorted; figures only. */
export const figurePaths = (): readonly string[] => [...figures.keys()].sort();

/** `again`: pages that show it are drawn anew. */
export async function giveFigure(path: string, again = false): Promise<void> {
  const { base64 } = await call('figure.read', { library: here.library, path });
  const bytes = bytesOf(base64);
  const before = figures.get(path);
  if (before?.length === bytes.length && before.every((byte, at) => byte === bytes[at])) return;
  keep(path, bytes, again);
}

function keep(path: string, bytes: Uint8Array, told = true): void {
  figures.set(path, bytes);
  others.add(path);
  core.figure(path, bytes);
  if (told) core.edit([{ path, present: true }]);
}

/** It is on disk no more. */
export function forgetFigure(path: string): void {
  if (!figures.delete(path)) return;
  others.delete(path);
  core.edit([{ path, gone: true }]);
}

// ---------------------------------------------------------------- added here

/** Paths that this window added. */
const added = new Set<string>();
/** Of these, what was taken away again, to come back with a text that shows it. */
const taken = new Map<string, Uint8Array>();

/** Copies a picture into the library; its path there. What is no picture, or none that can be shown, is refused before anything is written. */
export async function addFigure(picture: File): Promise<string> {
  const bytes = new Uint8Array(await picture.arrayBuffer());
  const not = noPicture(picture.name, bytes);
  if (not !== undefined) throw new Error(not === 'other' ? words.noPicture(picture.name) : words.falsePicture(picture.name, not));
  if (!/\.svg$/i.test(picture.name))
    await createImageBitmap(new Blob([bytes])).catch(() => {
      throw new Error(words.brokenPicture(picture.name));
    });
  return write(picture.name.replace(/[^\w.-]+/g, '-'), bytes);
}

async function write(name: string, bytes: Uint8Array): Promise<string> {
  const { path, added: fresh } = await call('figure.write', { library: here.library, name, base64: base64Of(bytes) });
  keep(path, bytes);
  taken.delete(path);
  if (fresh) added.add(path);
  return path;
}

const fileName = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

/** Whether a text of this window names it; whatever it says of it, the host has the last word. */
const isNamed = (path: string): boolean => documents.list().some(({ text }) => text.includes(fileName(path)));

/** What this window added and no text shows. */
export const unusedFigures = (): readonly string[] => (added.size === 0 ? [] : [...added].filter((path) => !isNamed(path)));

/** `first`: what was done, in words. Says that these stay, and offers to take them away. */
export function tellUnused(paths: readonly string[], first = ''): void {
  if (paths.length === 0) return;
  const names = paths.map(fileName).join(', ');
  say(`${first === '' ? '' : `${first} `}${words.pictureStays(names)}`, false, removing(paths));
}

const removing = (paths: readonly string[]): Offer => ({ label: words.removePicture, run: () => void removeFigures(paths) });

async function removeFigures(paths: readonly string[]): Promise<void> {
  try {
    // What this window has not saved is looked at too.
    await journalNow();
    for (const path of paths) {
      const bytes = figures.get(path);
      const { removed, usedIn } = await call('figure.remove', { library: here.library, path });
      if (!removed) return say(words.pictureUsed(fileName(path), usedIn.map(nameOf).join(', ')), true, removing(paths));
      added.delete(path);
      if (bytes) taken.set(path, bytes);
      forgetFigure(path);
    }
    say(words.pictureRemoved(paths.map(fileName).join(', ')));
  } catch (error) {
    wrong(error);
  }
}

/** A text that came back shows a figure that was taken away: it comes back too. */
export function bringBack(texts: readonly string[]): void {
  for (const [path, bytes] of [...taken])
    if (texts.some((text) => text.includes(fileName(path))))
      void write(fileName(path), bytes).then(() => say(words.pictureBack(fileName(path))), wrong);
}
