/**
 * Kills host and page while somebody types, at moments drawn by chance, and opens the library again: all that was typed up to a second before
 * is on disk or is offered back. Host and browser are processes of their own, and are killed as a power cut would.
 */
import type { ChildProcess } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildApp } from '../../cli/setup.mjs';
import { checked, clickLine, copySample, hasBrowser, launch } from '../support/desk.ts';
import { newFolder } from '../support/host.ts';
import { type Running, startHost } from '../support/host-process.ts';
import { randomFrom, seedOfRun } from '../support/random.ts';

const TEXT = 'procedures/OM-3140-lip-cylinder.md';
/** More of them by HANDSCLEAR_ROUNDS. */
const ROUNDS = Array.from({ length: Number(process.env.HANDSCLEAR_ROUNDS ?? 5) }, (_, index) => index + 1);
/**
 * The last second may be lost. It is counted in beats of the page itself, ten to a second, because on a busy machine a second may pass in which
 * the page was given no time at all.
 */
const BEATS = 10;
const BEAT = 100;
const seed = seedOfRun();
const random = randomFrom(seed);
/** How long each round types, in beats: drawn before any begins, so that the seed gives the same ones whatever ends first. */
const LENGTHS = ROUNDS.map(() => BEATS + 3 + random(2 * BEATS));

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

  async function started(library: string, data: string): Promise<Running> {
    const running = await startHost(library, data);
    hosts.push(running.child);
    return running;
  }

  async function open(address: string): Promise<Page> {
    const page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    page.setDefaultTimeout(30_000);
    const listed = page.waitForResponse((response) => response.url().endsWith('/call/journal.list'));
    await page.goto(address);
    await checked(page);
    // A small library may be checked before the host has looked for what was not saved; then the page is given time to show it.
    await (await listed).finished();
    await page.evaluate('new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(resolve, 50))))');
    return page;
  }

  /** A library with its host and a page on it, as the round before left them. */
  interface Sitting {
    readonly library: string;
    readonly data: string;
    readonly running: Running;
    readonly page: Page;
  }
  let sitting: Sitting | undefined;

  async function sit(library: string, data: string): Promise<Sitting> {
    const running = await started(library, data);
    return { library, data, running, page: await open(running.address) };
  }

  function fresh(): Promise<Sitting> {
    const library = path.join(newFolder(), 'library');
    copySample(library, /OM-3\d+/);
    return sit(library, newFolder());
  }

  async function endOf({ page, running }: Sitting): Promise<void> {
    // Nothing that the page could still tell a host is told.
    running.child.kill('SIGKILL');
    await page.context().close({ reason: 'killed' });
  }

  test.each(ROUNDS)('round %i', async (round) => {
    // What opened the library again is what is killed next. After some rounds a new one is taken, so that the text stays short.
    if (sitting !== undefined && round % 10 === 1) {
      await endOf(sitting);
      sitting = undefined;
    }
    const first = sitting ?? (await fresh());
    // A round that fails leaves nothing to the next one.
    sitting = undefined;
    const { library, data, page } = first;
    const onDisk = (): string => readFileSync(path.join(library, ...TEXT.split('/')), 'utf8');
    const before = onDisk();
    const beats: number[] = [];
    await page.exposeFunction('beat', () => beats.push(Date.now()));
    await page.evaluate(`setInterval(() => globalThis.beat(), ${BEAT})`);
    await page.click('.library .entry:has-text("OM-3140")');
    await clickLine(page, '1.');
    await page.keyboard.press('End');

    // Counted from the first word: on a busy machine that one may take a second.
    let enough = Number.POSITIVE_INFINITY;
    // Some rounds save on the way, so that the kill may fall into the write path.
    const saves = round % 2 === 0;
    const typed: { readonly word: string; readonly at: number }[] = [];
    while (beats.length < enough) {
      const word = `r${round}w${typed.length}x`;
      await page.keyboard.type(` ${word}`);
      typed.push({ word, at: Date.now() });
      if (typed.length === 1) enough = beats.length + (LENGTHS[round - 1] ?? 0);
      if (saves && typed.length % 5 === 0) await page.keyboard.press('Control+s');
    }
    const safe = beats.at(-BEATS) ?? 0;
    await endOf(first);

    const left = onDisk();
    const second = await sit(library, data);
    const again = second.page;
    const band = again.locator('.band-message[role=alert]');
    const offered = (await band.count()) > 0;
    if (offered) {
      await band.locator('button.main').click();
      await again.keyboard.press('Control+s');
      await expect.poll(onDisk).not.toBe(left);
    }
    const after = onDisk();

    const due = typed.filter(({ at }) => at < safe);
    expect(due.length, 'something was typed').toBeGreaterThan(0);
    expect(
      due.filter(({ word }) => !after.includes(word)),
      `HANDSCLEAR_SEED=${seed}`,
    ).toEqual([]);
    // Nothing but what was typed, in one piece and from its beginning: the rest of the text is as it was.
    const piece = typed
      .map(({ word }) => ` ${word}`)
      .join('')
      .slice(0, after.length - before.length);
    const at = after.indexOf(piece);
    expect(after.length - before.length).toBe(piece.length);
    expect(at < 0 ? `without "${piece}"` : after.slice(0, at) + after.slice(at + piece.length)).toBe(before);
    expect(existsSync(path.join(library, 'library.yaml'))).toBe(true);
    sitting = second;
  });
});
