/**
 * Who may ask: a browser of this user that was handed the address by this program, and nobody else: no web page, no other user of the
 * machine, no other name that leads to this port. Pure: given a request's head, says yes or why not.
 */

export interface Head {
  readonly method: string;
  readonly host: string | undefined;
  readonly origin: string | undefined;
  readonly site: string | undefined;
  readonly cookie: string | undefined;
}

export interface Door {
  readonly port: number;
  readonly token: string;
}

/** One name a port: cookies do not tell ports apart, so two windows of two libraries would overwrite each other's. */
export const cookieName = (port: number): string => `handsclear-${port}`;

/** Undefined: come in. `asks`: it is a request to do something, which never comes without a browser's own headers. */
export function turnedAway(head: Head, door: Door, asks: boolean): string | undefined {
  const own = `127.0.0.1:${door.port}`;
  if (head.host !== own) return 'This address goes by another name.';
  if (head.origin !== undefined && head.origin !== `http://${own}`) return 'Another page asks.';
  // A link from anywhere may open the page; only the page itself may ask.
  if (head.site !== undefined && head.site !== 'same-origin' && (asks || head.site !== 'none')) return 'Another site asks.';
  const cookies = (head.cookie ?? '').split(/;\s*/);
  if (!cookies.some((one) => equal(one, `${cookieName(door.port)}=${door.token}`)))
    return 'Start Handsclear again and use the address that it shows.';
  return undefined;
}

/** Takes as long for a near miss as for a far one. */
export function equal(a: string, b: string): boolean {
  let differs = a.length ^ b.length;
  for (let index = 0; index < b.length; index += 1) differs |= (a.charCodeAt(index) || 0) ^ b.charCodeAt(index);
  return differs === 0;
}
