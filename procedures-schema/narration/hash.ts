/** SHA-256 of a text, in hexadecimal: what a recording remembers of the words it was made from. */
import { sha256 } from '@noble/hashes/sha2.js';

/** 64 digits. */
export const textHash = (text: string): string =>
  Array.from(sha256(new TextEncoder().encode(text)), (byte) => byte.toString(16).padStart(2, '0')).join('');

/** 12 digits: enough to tell the passages of one procedure apart (48 bits). */
export const shortHash = (text: string): string => textHash(text).slice(0, 12);
