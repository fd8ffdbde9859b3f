/** JSON with its keys in order and nothing between, and the hash of it: the same content gives the same hash wherever it is written. */
import { sha256 } from '@noble/hashes/sha2.js';

export function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
  if (value !== null && typeof value === 'object') {
    const entries = Object.entries(value)
      .filter(([, one]) => one !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
    return `{${entries.map(([key, one]) => `${JSON.stringify(key)}:${canonical(one)}`).join(',')}}`;
  }
  return JSON.stringify(value);
}

/** SHA-256 of the canonical form, in hexadecimal. */
export const contentHash = (value: unknown): string =>
  Array.from(sha256(new TextEncoder().encode(canonical(value))), (byte) => byte.toString(16).padStart(2, '0')).join('');
