/** Figures for tests: real files by other programs, and ways to damage them. Calls nothing of ours. */
import { readFileSync } from 'node:fs';

/** By name, from tests/unit/figures/data; see SOURCE.md there. */
export const pictureFile = (name: string): Uint8Array => new Uint8Array(readFileSync(`tests/unit/figures/data/${name}`));

/** The bytes with one of them changed. */
export function flipped(bytes: Uint8Array, at: number, by = 0x10): Uint8Array {
  const out = bytes.slice();
  out[at] = (out[at] as number) ^ by;
  return out;
}

/** The bytes with others in their place. */
export function withBytes(bytes: Uint8Array, at: number, put: readonly number[]): Uint8Array {
  const out = bytes.slice();
  out.set(put, at);
  return out;
}

/** Where a run of bytes stands. */
export function placeOf(bytes: Uint8Array, run: readonly number[]): number {
  const at = bytes.findIndex((_, index) => run.every((value, offset) => bytes[index + offset] === value));
  if (at === -1) throw new Error('the bytes are not there');
  return at;
}

export const bytesOf = (letters: string): Uint8Array => Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
