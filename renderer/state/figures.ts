/**
 * Figures that this window added, and takes away again. One that no text of it shows any more stays in the library until somebody says otherwise; it is
 * told, and offered to be removed. What is on disk is read by other-files.ts.
 */
import { figureFacts, figureFile } from '../../procedures-schema/figures/index.ts';
import { base64Of, call } from '../host.ts';
import { HostRefusal } from '../refused.ts';
import { words } from '../words/words.ts';
import { nameOf } from './names.ts';
import { figureBytes, figurePaths, forget, give } from './other-files.ts';
import { noPicture } from './picture.ts';
import { type Offer, say, wrong } from './shown.ts';
import { documents, here, journalNow } from './workspace.ts';

/** Paths that this window added. */
const added = new Set<string>();
/** Of these, what was taken away again, to come back with a text that shows it. */
const taken = new Map<string, Uint8Array>();

/** Another picture of the library has its name: it may have this one, which is free. */
export class NameTaken extends Error {
  readonly picture: File;
  readonly free: string;

  constructor(message: string, picture: File, free: string) {
    super(message);
    [this.picture, this.free] = [picture, free];
  }
}

/** The name with the first number behind it that none of these paths has, in whatever letters. */
export function freeName(name: string, paths: readonly string[]): string {
  const taken = new Set(paths.map((path) => fileName(path).toLowerCase()));
  const dot = name.lastIndexOf('.');
  for (let count = 2; ; count += 1) {
    const own = `${name.slice(0, dot)}-${count}${name.slice(dot)}`;
    if (!taken.has(own.toLowerCase())) return own;
  }
}

/**
 * Copies a picture into the library, under another name where one is given; its path there. What is no picture, or none that can be shown, is refused
 * before anything is written.
 */
export async function addFigure(picture: File, as?: string): Promise<string> {
  const bytes = new Uint8Array(await picture.arrayBuffer());
  const not = noPicture(picture.name, bytes);
  if (not !== undefined) throw new Error(not === 'other' ? words.noPicture(picture.name) : words.falsePicture(picture.name, not));
  const file = figureFile(picture.name, bytes);
  if (file && figureFacts(file).fault) throw new Error(words.brokenPicture(picture.name));
  if (file?.kind !== 'svg')
    await createImageBitmap(new Blob([bytes])).catch(() => {
      throw new Error(words.brokenPicture(picture.name));
    });
  const name = as ?? picture.name.replace(/[^\w.-]+/g, '-');
  return write(name, bytes).catch((error: Error) => {
    if (error instanceof HostRefusal && error.names.includes('otherFigure'))
      throw new NameTaken(error.message, picture, freeName(name, figurePaths()));
    throw error;
  });
}

async function write(name: string, bytes: Uint8Array): Promise<string> {
  const { path, added: fresh } = await call('figure.write', { library: here.library, name, base64: base64Of(bytes) });
  give(path, bytes);
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
  say(`${first === '' ? '' : `${first} `}${words.pictureStays(names, paths.length)}`, false, removing(paths));
}

const removing = (paths: readonly string[]): Offer => ({ label: words.removePicture(paths.length), run: () => void removeFigures(paths) });

async function removeFigures(paths: readonly string[]): Promise<void> {
  try {
    // What this window has not saved is looked at too.
    await journalNow();
    for (const path of paths) {
      const bytes = figureBytes().get(path);
      const { removed, usedIn } = await call('figure.remove', { library: here.library, path });
      if (!removed) return say(words.pictureUsed(fileName(path), usedIn.map(nameOf).join(', ')), true, removing(paths));
      added.delete(path);
      if (bytes) taken.set(path, bytes);
      forget(path);
    }
    say(words.pictureRemoved(paths.map(fileName).join(', '), paths.length));
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
