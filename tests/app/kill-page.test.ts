/**
 * Kills host and page while somebody types, at moments drawn by chance, and opens the library again: all that was typed up to a second before
 * is on disk or is offered back. Host and browser are processes of their own, and are killed as a power cut would.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildApp, page as built, host, root } from '../../cli/setup.mjs';
import { checked, hasBrowser, launch } from '../support/desk.ts';
import { newFolder } from '../support/host.ts';
import { randomFrom, seedOfRun } from '../support/random.ts';

const TEXT = 'procedures/OM-3140-lip-cylinder.md';
/** More of them by HANDSCLEAR_ROUNDS. */
const ROUNDS = Array.from({ length: Number(process.env.HANDSCLEAR_ROUNDS ?? 4) }, (_, index) => index + 1);
/**
 * The last second may be lost. It is counted in beats of the page itself, ten to a second, because on a busy machine a second may pass in which
 * the page was given no time at all.
 */
const BEATS = 10;
const BEAT = 100;
const seed = seedOfRun();
const random = randomFrom(seed);

interface Running {
  readonly child: ChildProcess;
  readonly address: string;
}

describe.skipIf(!hasBrowser() || process.platform === 'win32')('killed while somebody types', () => {
  const hosts: ChildProcess[] = [];
  let browser: Browser;
  beforeAll(async () => {
    await buildApp();
    browser = await launch();
  });
  afterAll(async () => {
    for (const one of hosts) one.kill('SIGKILL');
    await browser?.close();
  });

  async function startHost(library: string, data: string): Promise<Running> {
    const input = JSON.stringify({ page: built, sample: library, open: library });
    const program = `const { start } = await import(${JSON.stringify(pathToFileURL(host).href)}); await start(${input});`;
    const env = { ...process.env, HANDSCLEAR_DATA: data, HANDSCLEAR_NO_BROWSER: '1' };
    const child = spawn(process.execPath, ['--input-type=module', '--eval', program], {
      env,
      stdio: ['ignore', 'pipe', 'inherit'],
      cwd: root,
    });
    hosts.push(child);
    let said = '';
    return new Promise((resolve, reject) => {
      child.on('error', reject);
      child.on('exit', (code) => reject(new Error(`The host ended with ${code}: ${said}`)));
      child.stdout?.on('data', (part) => {
        said += part;
        const address = /http:\S+/.exec(said)?.[0];
        if (address !== undefined) resolve({ child, address });
      });
    });
  }

  async function open(address: string): Promise<Page> {
    const page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    page.setDefaultTimeout(30_000);
    await page.goto(address);
    await checked(page);
    return page;
  }

  test.each(ROUNDS)('round %i', async (round) => {
    const library = path.join(newFolder(), 'library');
    const data = newFolder();
    cpSync(path.join(root, 'sample-procedures'), library, { recursive: true });
    const before = readFileSync(path.join(library, ...TEXT.split('/')), 'utf8');
    const first = await startHost(library, data);
    const page = await open(first.address);
    const beats: number[] = [];
    await page.exposeFunction('beat', () => beats.push(Date.now()));
    await page.evaluate(`setInterval(() => globalThis.beat(), ${BEAT})`);
    await page.click('.library .entry:has-text("OM-3140")');
    await page.click('.sheet-text .view-line:has-text("1.")');
    await page.keyboard.press('End');

    const enough = beats.length + 2 * BEATS + random(3 * BEATS);
    // Some rounds save on the way, so that the kill may fall into the write path.
    const saves = round % 2 === 0;
    const typed: { readonly word: string; readonly at: number }[] = [];
    while (beats.length < enough) {
      const word = `w${typed.length}x`;
      await page.keyboard.type(` ${word}`);
      typed.push({ word, at: Date.now() });
      if (saves && typed.length % 5 === 0) await page.keyboard.press('Control+s');
    }
    const safe = beats.at(-BEATS) ?? 0;
    first.child.kill('SIGKILL');
    // The page goes with it: nothing that it could still tell a host is told.
    await page.context().close({ reason: 'killed' });

    const onDisk = readFileSync(path.join(library, ...TEXT.split('/')), 'utf8');
    const second = await startHost(library, data);
    const again = await open(second.address);
    const band = again.locator('.band-message[role=alert]');
    const offered = (await band.count()) > 0;
    if (offered) {
      await band.locator('button.main').click();
      await again.keyboard.press('Control+s');
      await expect.poll(() => readFileSync(path.join(library, ...TEXT.split('/')), 'utf8')).not.toBe(onDisk);
    }
    const after = readFileSync(path.join(library, ...TEXT.split('/')), 'utf8');
    await again.context().close();
    second.child.kill('SIGKILL');

    const due = typed.filter(({ at }) => at < safe);
    expect(due.length, 'something was typed').toBeGreaterThan(0);
    expect(
      due.filter(({ word }) => !after.includes(word)),
      `HANDSCLEAR_SEED=${seed}`,
    ).toEqual([]);
    // Nothing but what was typed: the rest of the text is as it was, in order.
    expect(after.replace(/(?: w\d+x?)+(?: w?)?/, '')).toBe(before);
    expect(existsSync(path.join(library, 'library.yaml'))).toBe(true);
  });
});
