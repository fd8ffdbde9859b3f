/** A library too long to be read at once: what is shown first is there first, typing goes on, and nothing is claimed of the whole before it was read. */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { root } from '../../cli/setup.mjs';
import { atDesk } from '../support/at-desk.ts';
import { type Desk, hasBrowser, save } from '../support/desk.ts';
import { longLibrary } from '../support/long-library.ts';

describe.skipIf(!hasBrowser())('a library of 150 procedures', () => {
  let desk: Desk;
  const folder = mkdtempSync(join(tmpdir(), 'handsclear-long-'));
  beforeAll(async () => {
    for (const { path, text } of longLibrary(150)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    cpSync(join(root, 'sample-procedures/figures'), join(folder, 'figures'), { recursive: true });
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  atDesk({ folder, early: true }, (own) => {
    desk = own.desk;
  });

  test('shows the first procedure read and proved while the others wait', async () => {
    const { page } = desk;
    expect(Number(await page.getAttribute('.page', 'data-waiting'))).toBeGreaterThan(0);
    expect(await page.innerText('.sheet-head h1')).toContain('proved');
  });

  test('what touches every file is refused until every file was read, and says so', async () => {
    const { page } = desk;
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', 'main isolator');
    await page.fill('.over .row:nth-of-type(2) input', 'main switch');
    await page.waitForSelector('.found li');
    // Read meanwhile or not: either it is refused with its reason, or everything is there to be changed.
    await page.click('.over .row:nth-of-type(2) button');
    await page.waitForSelector('.over .preview, .over .wrong');
    await page.keyboard.press('Escape');
  });

  test('typing is checked while the rest is read; in the end all is read and clean', async () => {
    const { page } = desk;
    await page.click('.sheet-text');
    await page.keyboard.press('Control+End');
    await page.keyboard.type('\nTyped while it is read.');
    await page.waitForSelector('.entry-state:has-text("not saved")');
    await page.waitForSelector('.page[data-waiting="0"]', { timeout: 120_000 });
    expect(await page.innerText('.counts')).toMatch(/^0 errors, 0 warnings, [1-9]/);
    expect(await page.innerText('.library')).toMatch(/more: type a number|OM-1110001/);
    expect(desk.complaints).toEqual([]);
  });

  test('opened again, the states of all are there before they are read; after a change on disk they are read anew', async () => {
    const { page } = desk;
    const broken = 'procedures/OM-1110001-fan-shake.md';
    await save(page);
    const figure = join(folder, 'figures/fan-casing.svg');
    const whole = readFileSync(figure);
    const withErrors = () => page.locator('.library .entry:has-text("1 error")').count();
    // A damaged picture, so that there is something to be kept; as long as the whole one.
    writeFileSync(figure, `${whole.subarray(0, 900)}`.padEnd(whole.length));
    const { atime, mtime } = statSync(figure);
    await expect.poll(() => page.innerText('.counts')).toMatch(/^[1-9]\d* errors/);
    const all = await withErrors();
    expect(all).toBeGreaterThan(5);
    // Kept a moment after the last file was saved and checked.
    await page.waitForTimeout(1500);
    await page.reload();
    await page.waitForSelector('.page:not([data-waiting="0"])');
    await expect.poll(withErrors).toBe(all);
    expect(Number(await page.getAttribute('.page', 'data-waiting'))).toBeGreaterThan(0);
    await page.waitForSelector('.page[data-waiting="0"]', { timeout: 120_000 });
    // The picture alone is another one when the library is opened again, of the same size and time: what was found with the old one is taken back
    // as soon as it was looked at.
    const address = page.url();
    await page.goto('about:blank');
    writeFileSync(figure, whole);
    utimesSync(figure, atime, mtime);
    await page.goto(address);
    await page.waitForSelector('.page:not([data-waiting="0"])');
    const seen: number[] = [];
    while ((await page.getAttribute('.page', 'data-waiting')) !== '0') {
      seen.push(await withErrors());
      await page.waitForTimeout(50);
    }
    expect(seen).toContain(0);
    expect(seen.slice(seen.indexOf(0)).filter((count) => count > 0)).toEqual([]);
    await expect.poll(() => page.innerText('.counts')).toMatch(/^0 errors/);
    const path = join(folder, broken);
    writeFileSync(path, readFileSync(path, 'utf8').replace(/^(\d+)\. Take all tools away.*$/m, '$1. Wait for 1 min.'));
    await page.reload();
    await page.waitForSelector('.page[data-waiting="0"]', { timeout: 120_000 });
    await expect.poll(() => page.innerText('.counts')).not.toMatch(/^0 errors/);
  });
});
