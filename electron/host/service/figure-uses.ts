/**
 * What refers to a figure: texts of the library on disk, text that any window has not saved, and drawings that show another picture. It is
 * looked for by its name alone, however it is written: too much is found rather than too little.
 */
import { Refused } from '../contract/index.ts';
import { isText, isWritable, readFigure, readLibrary } from '../files/index.ts';
import { insideLibrary, stateOf } from '../saving/index.ts';
import type { Inner } from './inner.ts';

/** Paths, sorted. Refused where something could not be read: then it is not known that nothing refers to it. */
export async function usesOfFigure(host: Inner, root: string, figure: string): Promise<readonly string[]> {
  const name = plain(figure.slice(figure.lastIndexOf('/') + 1));
  const { texts, paths, refusals } = await readLibrary(root);
  if (refusals.length > 0) throw new Refused(['usesUnread', refusals[0]?.path ?? '', figure]);
  const uses = new Set<string>();
  const look = (path: string, text: string): void => {
    if (plain(text).includes(name)) uses.add(path);
  };
  for (const { path, text } of texts) look(path, text);
  for (const { path, text } of await host.journal.every(root)) look(path, text);
  for (const path of paths) {
    if (path === figure || isText(path)) continue;
    if (isWritable(path)) look(path, (await stateOf(await insideLibrary(root, path, isWritable), host.disk)).text ?? '');
    else if (/\.svg$/i.test(path)) look(path, new TextDecoder().decode((await readFigure(root, path)) ?? new Uint8Array()));
  }
  return [...uses].sort();
}

/** As every system and every way of writing an address has it. */
function plain(text: string): string {
  const read = text.replace(/(?:%[0-9a-f]{2})+/gi, (typed) => {
    try {
      return decodeURIComponent(typed);
    } catch {
      return typed;
    }
  });
  return read.normalize('NFC').toLowerCase();
}
