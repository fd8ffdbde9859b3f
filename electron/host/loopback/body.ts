/** The body of a request as JSON, up to a bound. */
import type { IncomingMessage } from 'node:http';
import type { Said } from '../contract/index.ts';

/** A library's whole text may be saved in one go. */
const LARGEST = 256_000_000;

export type Body = { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly said: Said };

export async function bodyOf(request: IncomingMessage, largest = LARGEST): Promise<Body> {
  const parts: Buffer[] = [];
  let size = 0;
  for await (const part of request) {
    size += (part as Buffer).length;
    if (size > largest) return { ok: false, said: ['tooMuch', String(Math.round(largest / 1_000_000))] };
    parts.push(part as Buffer);
  }
  try {
    return { ok: true, value: JSON.parse(Buffer.concat(parts).toString('utf8')) };
  } catch {
    return { ok: false, said: ['odd', 'This is no JSON.'] };
  }
}
