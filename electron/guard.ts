/** What no page in this program may do, whatever it holds: go elsewhere, open windows, ask for devices, reach the network, download. */
import { app, type Session, type WebContents } from 'electron';
import { isOwnPage, SCHEME } from './scheme.ts';

/** Writing what the user copied is all that a page may ask for. */
const ALLOWED: ReadonlySet<string> = new Set(['clipboard-sanitized-write']);

/** Of the page, of its workers and pictures, and of the inspector; nothing here comes from the network. */
const LOCAL: ReadonlySet<string> = new Set([`${SCHEME}:`, 'blob:', 'data:', 'devtools:']);

/** Before the first window. Every page that is ever made goes through here. */
export function guardAllPages(): void {
  app.on('web-contents-created', (_, contents) => guardPage(contents));
}

export function guardPage(contents: WebContents): void {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  contents.on('will-attach-webview', (event) => event.preventDefault());
  contents.on('will-navigate', (event) => {
    if (!isOwnPage(event.url)) event.preventDefault();
  });
  contents.on('will-redirect', (event) => event.preventDefault());
  contents.on('will-frame-navigate', (event) => {
    // The page has no frames; only the viewer of printed pages brings one of its own.
    if (!event.isMainFrame && !event.url.startsWith('chrome-extension:')) event.preventDefault();
  });
}

/** `more`: schemes that this session needs besides. */
export function guardSession(session: Session, more: readonly string[] = []): void {
  const local = new Set([...LOCAL, ...more]);
  session.setPermissionRequestHandler((contents, permission, answer) => answer(ALLOWED.has(permission) && isOwnPage(contents.getURL())));
  session.setPermissionCheckHandler((contents, permission) => ALLOWED.has(permission) && isOwnPage(contents?.getURL() ?? ''));
  session.setDevicePermissionHandler(() => false);
  session.webRequest.onBeforeRequest(({ url }, answer) => answer({ cancel: !URL.canParse(url) || !local.has(new URL(url).protocol) }));
  session.on('will-download', (event) => event.preventDefault());
  // Dictionaries would be fetched from the network; the library brings its own words.
  session.setSpellCheckerEnabled(false);
}
