/** Writes what was published, whole or not at all, so that a field office never holds half a file; reads a file named on the command line. */
import { randomUUID } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { CannotRun } from './command.ts';

export function writeWhole(cwd: string, to: string, bytes: Uint8Array | string): void {
  const file = path.resolve(cwd, to);
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
    throw new CannotRun(`"${to}" cannot be written (${(error as NodeJS.ErrnoException).code ?? 'unknown reason'}).`);
  }
}

/** The text of a file that stands outside the library. */
export function readWhole(cwd: string, from: string): string {
  try {
    return readFileSync(path.resolve(cwd, from), 'utf8');
  } catch (error) {
    throw new CannotRun(`"${from}" cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown reason'}).`);
  }
}
