/**
 * The page's own scheme: a secure origin of its own, from which only the files of the built page are served. No file of the disk can be
 * named by it, and nothing of the network.
 */
import { protocol, type Session } from 'electron';
import { PAGE_HEADERS, pageFile } from './host/page/index.ts';

export const SCHEME = 'handsclear';
export const PAGE = `${SCHEME}://page/`;

/** Before the app is ready. */
export function registerScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } },
  ]);
}

/** The page itself, whatever follows the hash; no other host of the scheme, no other scheme. */
export function isOwnPage(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const { protocol: scheme, host, pathname, username, password, search } = new URL(address);
  return scheme === `${SCHEME}:` && host === 'page' && pathname === '/' && username === '' && password === '' && search === '';
}

export function servePage(session: Session, folder: string): void {
  session.protocol.handle(SCHEME, async ({ method, url }) => {
    const { host, pathname } = new URL(url);
    if (host !== 'page' || method !== 'GET') return refusal();
    const file = await pageFile(folder, pathname);
    return file === undefined ? refusal() : new Response(file.bytes, { headers: { ...PAGE_HEADERS, 'content-type': file.type } });
  });
}

export const refusal = (): Response =>
  new Response('There is no such file.\n', { status: 404, headers: { ...PAGE_HEADERS, 'content-type': 'text/plain; charset=utf-8' } });
