/**
 * Who may ask: a browser of this user that was handed the address by this program, and nobody else: no web page, no other user of the
 * machine, no other name that leads to this port. Pure: given a request's head, says yes or why not.
 */
import type { TurnedAway } from './door-words.ts';

export interface Head {
  readonly method: string;
  readonly host: string | undefined;
  readonly origin: string | undefined;
  /** Sec-Fetch-Site; absent from browsers that do not send it. */
  readonly site: string | undefined;
  readonly cookie: string | undefined;
}

export interface Door {
  readonly port: number;
  readonly token: string;
}

/** Cookies do not tell ports apart, so the name does: else two libraries in two windows would overwrite each other's. */
export const cookieName = (port: number): string => `handsclear-${port}`;

/** Undefined: come in. `asks`: it is a request to do or tell something, which only the page itself makes. */
export function turnedAway(head: Head, door: Door, asks: boolean): TurnedAway | undefined {
  const own = `127.0.0.1:${door.port}`;
  if (head.host !== own) return 'otherName';
  if (head.origin !== undefined && head.origin !== `http://${own}`) return 'otherPage';
  // Every browser names the page when it posts.
  if (head.method === 'POST' && head.origin === undefined) return 'otherPage';
  // "none": the user typed the address or used a bookmark. A link on another site does not open the page either.
  if (head.site !== undefined && head.site !== 'same-origin' && (asks || head.site !== 'none')) return 'otherPage';
  if (!holdsToken(head, door)) return 'stranger';
  return undefined;
}

export function holdsToken({ cookie }: Pick<Head, 'cookie'>, { port, token }: Door): boolean {
  return (cookie ?? '').split(/;\s*/).some((one) => equal(one, `${cookieName(port)}=${token}`));
}

/** Takes as long for a near miss as for a far one. */
export function equal(a: string, b: string): boolean {
  let differs = a.length ^ b.length;
  for (let index = 0; index < b.length; index += 1) differs |= (a.charCodeAt(index) || 0) ^ b.charCodeAt(index);
  return differs === 0;
}
