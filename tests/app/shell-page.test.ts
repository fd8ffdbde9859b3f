/**
 * The desktop shell as it is built, with its page in a real browser: the bundled shell and the bundled preload on a stand-in for Electron's own
 * plumbing. What is real: page, preload, gate, host, disk and the policy that the page is served with.
 */
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { buildShell, preload, root, shell } from '../../cli/setup.mjs';
import { checked, clickLine, hasBrowser, launch } from '../support/desk.ts';
import { electron, FakeWindow } from '../support/electron.ts';
import { newFolder } from '../support/host.ts';

vi.mock('electron', () => electron);

const PAGE = 'handsclear://page';
const TEXT = 'procedures/OM-3140-lip-cylinder.md';

describe.skipIf(!hasBrowser())('the page in the desktop shell', () => {
  const library = path.join(newFolder(), 'library');
  const asked: string[] = [];
  const complaints: string[] = [];
  let browser: Browser;
  let server: Server;
  let page: Page;
  const onDisk = (): string => readFileSync(path.join(library, ...TEXT.split('/')), 'utf8');
  const window = (): FakeWindow => FakeWindow.all[0] as FakeWindow;

  beforeAll(async () => {
    cpSync(path.join(root, 'sample-procedures'), library, { recursive: true });
    vi.stubEnv('HANDSCLEAR_DATA', newFolder());
    process.argv = ['electron', 'program', library];
    await buildShell();
    await import(/* @vite-ignore */ shell);
    await vi.waitFor(() => expect(window().asked).toContain('show'));
    server = await overHttp(asked);
    const { port } = server.address() as AddressInfo;
    browser = await launch();
    page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    await plumb(page, window());
    await page.goto(`http://127.0.0.1:${port}/`);
    await checked(page);
  });
  afterAll(async () => {
    await browser?.close();
    server?.close();
  });

  test('opens the library that the shell was started with', async () => {
    expect(await page.title()).toBe('library – Handsclear');
    expect(await page.innerText('.counts')).toMatch(/^0 errors, 0 warnings/);
  });

  test('saves what is typed', async () => {
    await page.click('.library .entry:has-text("OM-3140")');
    await clickLine(page, '1.');
    await page.keyboard.press('End');
    await page.keyboard.type(' Typed in the shell.');
    await checked(page);
    expect(await page.title()).toMatch(/^•/);
    await page.keyboard.press('Control+s');
    await expect.poll(onDisk).toContain('Typed in the shell.');
    await expect.poll(() => page.title()).toMatch(/^library/);
  });

  test('hears of what another program saves', async () => {
    writeFileSync(path.join(library, ...TEXT.split('/')), onDisk().replace('Typed in the shell.', 'Typed elsewhere.'));
    await page.waitForSelector('.sheet-text .view-line:has-text("Typed elsewhere.")');
  });

  test('shows what was printed by the system, to be read and in its folder', async () => {
    await page.keyboard.press('Control+3');
    await page.click('.settings button:has-text("Write the PDF")');
    await page.click('.written-file button:has-text("Read it")');
    await expect.poll(() => electron.shell.asked.at(-1)).toMatch(/^open .*\.pdf$/);
    await page.click('.written-file button:has-text("Show its folder")');
    await expect.poll(() => electron.shell.asked.at(-1)).toMatch(/^show .*\.pdf$/);
    await page.keyboard.press('Control+1');
  });

  test('asks by the preload only: over the address it gets its own files and nothing else', () => {
    expect(asked.filter((one) => !/^GET \/(assets\/[\w.-]+)?$/.test(one))).toEqual([]);
    expect(asked.length).toBeGreaterThan(3);
  });

  test('and keeps to its policy', () => expect(complaints).toEqual([]));
});

/** What the shell's scheme serves, at an address that this browser can open. */
async function overHttp(asked: string[]): Promise<Server> {
  const server = createServer(async (request, response) => {
    asked.push(`${request.method} ${request.url}`);
    const found = await electron.session.defaultSession.fetch(`${PAGE}${request.url}`, request.method);
    response.writeHead(found.status, Object.fromEntries(found.headers)).end(Buffer.from(await found.arrayBuffer()));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return server;
}

/** Runs the bundled preload before the page and carries its messages to the gate and back, as Electron would. */
async function plumb(page: Page, window: FakeWindow): Promise<void> {
  const frame = { url: `${PAGE}/`, parent: null };
  await page.exposeFunction('toShell', (channel: string, ...words: unknown[]) =>
    electron.ipcMain.handlers.get(channel)?.({ sender: window.webContents, senderFrame: frame }, ...words),
  );
  const { send } = window.webContents;
  window.webContents.send = (channel, event) => {
    send.call(window.webContents, channel, event);
    void page.evaluate(
      ([to, what]) => (globalThis as never as { fromShell(to: unknown, what: unknown): void }).fromShell(to, what),
      [channel, event],
    );
  };
  await page.addInitScript(`(() => {
    const listening = [];
    globalThis.fromShell = (to, what) => { for (const [channel, listener] of [...listening]) if (channel === to) listener({}, what); };
    const require = () => ({
      contextBridge: { exposeInMainWorld: (name, value) => { globalThis[name] = value; } },
      ipcRenderer: {
        invoke: (...words) => globalThis.toShell(...words),
        on: (channel, listener) => listening.push([channel, listener]),
        off: (channel, listener) => listening.splice(listening.findIndex(([one, other]) => one === channel && other === listener), 1),
      },
    });
    ${readFileSync(preload, 'utf8')}
  })();`);
}
