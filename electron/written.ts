/** Shows a file that was written: in the system's own viewer, in its folder, or in a window with the print dialog. */
import { readFile } from 'node:fs/promises';
import { BrowserWindow, session, shell } from 'electron';
import { guardSession } from './guard.ts';
import { Refused } from './host/contract/index.ts';
import type { How } from './host/service/index.ts';
import { refusal, SCHEME } from './scheme.ts';
import { CONFINED } from './windows.ts';

/** The viewer of printed pages is the browser's own, and is loaded by these. */
const VIEWER = ['chrome-extension:', 'chrome:'] as const;
const PARTITION = 'printed pages';

let served = false;
const files = new Map<string, string>();
let count = 0;

const WAYS: Readonly<Record<How, (file: string) => Promise<void>>> = {
  async read(file) {
    const wrong = await shell.openPath(file);
    if (wrong !== '') throw new Refused(['notShown', wrong]);
  },
  async folder(file) {
    shell.showItemInFolder(file);
  },
  print: printFile,
};

/** `file`: one that this program wrote, as the host says. */
export function showWritten(file: string, how: How): Promise<void> {
  // Other files would be opened by whatever program the system has for them.
  if (how !== 'folder' && !/\.pdf$/.test(file)) throw new Refused(['onlyPages']);
  return WAYS[how](file);
}

async function printFile(file: string): Promise<void> {
  const own = session.fromPartition(PARTITION);
  if (!served) serveFiles(own);
  served = true;
  count += 1;
  const name = `${count}.pdf`;
  files.set(`/${name}`, file);
  const window = new BrowserWindow({
    width: 900,
    height: 1000,
    title: 'Handsclear',
    // No preload: printed pages have no way to the host.
    webPreferences: { ...CONFINED, session: own, plugins: true, devTools: false },
  });
  window.removeMenu();
  window.on('closed', () => files.delete(`/${name}`));
  await window.loadURL(`${SCHEME}://printed/${name}`);
  window.webContents.print({ silent: false });
}

function serveFiles(own: Electron.Session): void {
  guardSession(own, VIEWER);
  own.protocol.handle(SCHEME, async ({ url }) => {
    const { host, pathname } = new URL(url);
    const file = host === 'printed' ? files.get(pathname) : undefined;
    const bytes = file === undefined ? undefined : await readFile(file).catch(() => undefined);
    if (bytes === undefined) return refusal();
    return new Response(new Uint8Array(bytes), { headers: { 'content-type': 'application/pdf', 'x-content-type-options': 'nosniff' } });
  });
}
