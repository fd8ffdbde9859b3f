/**
 * Writes what was published, whole or not at all, so that a field office never holds half a file, and never over a file that somebody wrote;
 * reads a file named on the command line.
 */
import { randomUUID } from 'node:crypto';
import { mkdirSync, readFileSync, realpathSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { isOther, isText } from '../electron/host/files/index.ts';
import { CannotRun } from './command.ts';

/** What a file of each kind begins with. Only such a file is replaced by a new one of its kind. */
const BEGINS = { PDF: '%PDF-', JSON: '{', SVG: '<svg' } as const;

export interface Place {
  readonly cwd: string;
  /** The library that was read, by its real path: nothing is written among its own files. */
  readonly library: string;
}

/** `kind` undefined: a file of that name is ours by its name alone. */
export function writeWhole({ cwd, library }: Place, to: string, bytes: Uint8Array | string, kind?: keyof typeof BEGINS): void {
  const file = path.resolve(cwd, to);
  if (/[\\/]$/.test(to)) throw new CannotRun(`"${to}" names a folder. Give the name of the file too. Nothing was written.`);
  const own = ownPath({ cwd, library }, to);
  if (isText(own) || isOther(own) || /^(registers|review|procedures|guides)\//i.test(own))
    throw new CannotRun(`"${to}" stands among the library's own files. Give a place outside of them. Nothing was written.`);
  const there = kind === undefined ? undefined : beginning(file);
  if (kind !== undefined && there !== undefined && there !== '' && !there.startsWith(BEGINS[kind]))
    throw new CannotRun(`"${to}" is there already and is no ${kind} file, so it was left as it is. Give another name.`);
  const fresh = `${file}.${randomUUID()}.part`;
  try {
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(fresh, bytes);
    renameSync(fresh, file);
  } catch (error) {
    try {
      rmSync(fresh, { force: true });
    } catch {
      // Where a part of the path is a file, there is nothing beside it to be taken away.
    }
    throw new CannotRun(`"${to}" cannot be written: ${reason(error)}. A file of that name is as it was.`);
  }
}

/** The bytes of a file that stands outside the library. */
export function readWhole(cwd: string, from: string): Uint8Array {
  try {
    return readFileSync(path.resolve(cwd, from));
  } catch (error) {
    throw new CannotRun(`"${from}" cannot be read: ${reason(error)}.`);
  }
}

/** The text of a file, or undefined where none can be read. */
export function readIfThere(cwd: string, from: string): string | undefined {
  try {
    return readFileSync(path.resolve(cwd, from), 'utf8');
  } catch {
    return undefined;
  }
}

export const samePath = (cwd: string, one: string, other: string): boolean =>
  real(path.resolve(cwd, one)) === real(path.resolve(cwd, other));

/** A path as the library names it; whatever stands outside of it begins with "..". */
export const ownPath = ({ cwd, library }: Place, typed: string): string =>
  path
    .relative(library, real(path.resolve(cwd, typed)))
    .split(path.sep)
    .join('/');

/** Where a path leads when links are followed, also where its end is not there yet. */
function real(file: string): string {
  const folder = path.dirname(file);
  try {
    return path.join(realpathSync.native(folder), path.basename(file));
  } catch {
    return folder === file ? file : path.join(real(folder), path.basename(file));
  }
}

function beginning(file: string): string | undefined {
  try {
    return readFileSync(file).subarray(0, 8).toString('latin1');
  } catch {
    return undefined;
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a part of its path is a file, not a folder',
  EEXIST: 'a part of its path is a file, not a folder',
  EACCES: 'you may not write or read there',
  EPERM: 'you may not write or read there, or it is open in another program',
  EBUSY: 'it is open in another program',
  EROFS: 'nothing can be written on that disk',
  ENOSPC: 'the disk is full',
  ENAMETOOLONG: 'the name is too long',
};

function reason(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code ?? 'unknown reason';
  return REASONS[code] ?? code;
}
