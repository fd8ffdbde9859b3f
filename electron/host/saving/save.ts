/** Saves texts of a library. What changed on disk meanwhile is never overwritten but given back; a path never leaves the library. */
import { createHash } from 'node:crypto';
import { realpath } from 'node:fs/promises';
import path from 'node:path';
import type { Methods } from '../contract/index.ts';
import type { WriteDisk } from './write-disk.ts';
import { writeWhole } from './write-whole.ts';

type Save = Methods['file.save'];

/** What may be written: the texts of a library and the remarks on them, no dot files, no climbing. */
const WRITABLE = /^(library\.yaml|registers\/[^/]+\.ya?ml|(procedures|guides|remarks)\/.+\.md|narration\/.+\.(md|yaml|vtt|srt))$/i;

/** What no system, or not every one, allows in a name; a colon opens a hidden stream on Windows. */
const FORBIDDEN = '\\:<>"|?*';

export const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

export async function saveFiles(root: string, files: Save['ask']['files'], disk: WriteDisk): Promise<Save['answer']> {
  const saved: { path: string; hash: string }[] = [];
  const conflicts: { path: string; text: string | null; hash: string | null }[] = [];
  for (const { path: own, base, text } of files) {
    const file = await insideLibrary(root, own, WRITABLE);
    const bytes = new TextEncoder().encode(text);
    const there = await disk.read(file);
    const hash = there === undefined ? null : hashOf(there);
    const wanted = hashOf(bytes);
    if (hash === wanted) saved.push({ path: own, hash: wanted });
    else if (hash !== base)
      conflicts.push({ path: own, text: there === undefined ? null : new TextDecoder('utf-8', { ignoreBOM: true }).decode(there), hash });
    else {
      await writeWhole(file, bytes, disk);
      saved.push({ path: own, hash: wanted });
    }
  }
  return { saved, conflicts };
}

/** The file's place on disk. Throws, in words, for every path that is not plainly inside, also by way of links. */
export async function insideLibrary(root: string, own: string, allowed: RegExp): Promise<string> {
  const parts = own.split('/');
  const bad =
    [...own].some((letter) => letter < ' ' || FORBIDDEN.includes(letter)) ||
    parts.some((part) => part === '' || part.startsWith('.') || /[. ]$/.test(part));
  if (bad || own.length > 1_000 || !allowed.test(own)) throw new Error(`"${own}" is no place in a library where this may be written.`);
  const file = path.join(root, ...parts);
  // The nearest folder that exists must really lie inside: a link may point elsewhere.
  for (let folder = path.dirname(file); ; folder = path.dirname(folder)) {
    const real = await realpath(folder).catch(() => undefined);
    if (real === undefined) continue;
    if (real !== root && !real.startsWith(root + path.sep)) throw new Error(`"${own}" leads out of the library by a link.`);
    break;
  }
  const real = await realpath(file).catch(() => undefined);
  if (real !== undefined && !real.startsWith(root + path.sep)) throw new Error(`"${own}" is a link out of the library.`);
  return file;
}
