/**
 * Other web pages in the same real browser, while Handsclear is open in it, try to drive its host: from another port of this machine (which the
 * browser counts as the same site), from another name, and from another name that leads to the very port of the host. What they can do, and
 * what they can learn, is nothing.
 */
import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { serveLoopback } from '../../electron/host/loopback/index.ts';
import { hasBrowser, launch } from '../support/desk.ts';
import { filesIn, newFolder, newLibrary, put } from '../support/host.ts';

const EVIL = 'evil.example';

/** Plain JavaScript, because it runs in the page of somebody else. */
const other = readFileSync(path.join(import.meta.dirname, '../support/other-page.mjs'), 'utf8').replace(/^export /m, '');

describe.skipIf(!hasBrowser())('while Handsclear is open in a browser', () => {
  const home = newFolder();
  const built = newFolder();
  put(built, { 'index.html': '<!doctype html><title>Handsclear</title>the page', 'assets/index.js': 'globalThis.taken = true' });
  const library = newLibrary();
  let browser: Browser;
  let context: BrowserContext;
  let host: Awaited<ReturnType<typeof serveLoopback>>;
  let server: Server;
  let own: Page;

  beforeAll(async () => {
    host = await serveLoopback(built, { data: newFolder(), sample: library, home });
    server = createServer((_, response) =>
      response.writeHead(200, { 'content-type': 'text/html' }).end('<!doctype html><body>somebody else'),
    );
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    browser = await launch([`--host-resolver-rules=MAP ${EVIL} 127.0.0.1`]);
    context = await browser.newContext();
    own = await context.newPage();
    await own.goto(host.address);
    await own.waitForURL(`http://127.0.0.1:${host.port}/`);
  });
  afterAll(async () => {
    await browser?.close();
    await host?.close();
    server?.close();
  });

  test('its own page may ask', async () => {
    const status = await own.evaluate(async () => {
      const asked = await fetch('/call/libraries.recent', { method: 'POST', headers: { 'content-type': 'application/json' }, body: '{}' });
      return asked.status;
    });
    expect(status).toBe(200);
    expect((await context.cookies())[0]).toMatchObject({ httpOnly: true, sameSite: 'Strict' });
    expect(await own.evaluate('document.cookie')).toBe('');
  });

  const places: readonly (readonly [string, () => string])[] = [
    ['another port of this machine', () => `http://127.0.0.1:${(server.address() as AddressInfo).port}/`],
    ['another name', () => `http://${EVIL}:${(server.address() as AddressInfo).port}/`],
  ];
  test.each(places)('a page from %s can do nothing and learns nothing', async (_, place) => {
    const page = await context.newPage();
    await page.goto(place());
    const learned = await page.evaluate(`(${other})(${JSON.stringify(`http://127.0.0.1:${host.port}`)}, ${JSON.stringify(home)})`);
    await page.waitForTimeout(500);
    expect(learned).toEqual({
      'post as JSON': 'refused',
      // The browser sends it and hides the answer, which is a refusal.
      'post as a form would': expect.stringMatching(/^(opaque|refused)$/),
      'send on leaving': expect.stringMatching(/^(true|refused)$/),
      'read the page': 'refused',
      listen: 'refused',
      'take a script': 'refused',
      'take a picture': 'refused',
      'open a socket': 'refused',
      'frame it': 'closed',
    });
    expect(await page.evaluate('globalThis.taken')).toBeUndefined();
    expect(filesIn(home)).toEqual([]);
    await page.close();
  });

  test('a name of somebody else that leads to this very port shows nothing and may ask nothing', async () => {
    const page = await context.newPage();
    const shown = await page.goto(`http://${EVIL}:${host.port}/`);
    expect(shown?.status()).toBe(403);
    expect(await page.innerText('body')).toContain('Handsclear answers to one name only.');
    const status = await page
      .evaluate(async () => {
        const asked = await fetch('/call/libraries.recent', {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: '{}',
        });
        return asked.status;
      })
      .catch(() => 'refused');
    expect([403, 'refused']).toContain(status);
    expect(filesIn(home)).toEqual([]);
    await page.close();
  });

  test('a link on another page does not open it, typing the address does', async () => {
    const page = await context.newPage();
    await page.goto(`http://${EVIL}:${(server.address() as AddressInfo).port}/`);
    await page.evaluate(`location.href = 'http://127.0.0.1:${host.port}/'`);
    await page.waitForURL(`http://127.0.0.1:${host.port}/`);
    expect(await page.innerText('body')).not.toBe('the page');
    await page.goto('about:blank');
    await page.goto(`http://127.0.0.1:${host.port}/`);
    expect(await page.innerText('body')).toBe('the page');
    await page.close();
  });

  test('another browser of the same user is not let in without the address', async () => {
    const stranger = await browser.newContext();
    const page = await stranger.newPage();
    expect((await page.goto(`http://127.0.0.1:${host.port}/`))?.status()).toBe(403);
    expect((await page.goto(host.address))?.status()).toBe(403);
    await stranger.close();
  });
});
