/** A picture that was added here: printed at once, and when no text shows it any more told and taken away at the writer's word, back with its text. */
import { existsSync, readFileSync, unlinkSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser, save } from '../support/desk.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';
const DRAWING = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><rect width="10" height="10" fill="#ccc"/></svg>';

describe.skipIf(!hasBrowser())('a picture that was added', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ noTour: true, opens: 'OM-3140' }, (own) => {
    ({ desk, page } = own);
  });

  const there = (name: string) => existsSync(join(desk.folder, 'figures', name));
  const foot = () => page.innerText('.foot [role=status]');

  async function choose(name: string): Promise<void> {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', 'Wait 10 min');
    await page.click('.found li:has-text("OM-3140") button');
    await page.click('.over header button');
    await page.keyboard.press('Control+Shift+G');
    await page.setInputFiles('.over input[type=file]', { name, mimeType: 'image/svg+xml', buffer: Buffer.from(DRAWING) });
    await expect.poll(() => page.inputValue('.over select')).toBe(`figures/${name}`);
  }
  async function putIn(name: string): Promise<void> {
    await choose(name);
    await page.fill('.over input[aria-label="What the picture shows"]', 'The lip');
    await page.click('.over button.main');
    await page.waitForSelector('.over', { state: 'detached' });
    await checked(page);
  }

  test('is printed at once', async () => {
    await putIn('lip.svg');
    await page.keyboard.press('Control+3');
    await page.waitForSelector('.page-canvas');
    await page.click('.settings button:has-text("Write the PDF")');
    await expect.poll(foot, { timeout: 60_000 }).toMatch(/^Written: .*OM-3140|not written/);
    expect(await foot()).toMatch(/^Written: /);
    await page.keyboard.press('Control+1');
  });

  test('stays when it is taken back, which is told; and goes at the writer’s word', async () => {
    await page.click('.sheet-text');
    await page.keyboard.press('Control+z');
    await expect.poll(foot).toMatch(/Taken back in OM-3140.*lip\.svg: no text shows it now\. It stays in the library\./);
    expect(there('lip.svg')).toBe(true);
    await page.click('.foot button:has-text("Remove it")');
    await expect.poll(foot).toContain('lip.svg is removed from the library');
    expect(there('lip.svg')).toBe(false);
    await checked(page);
    expect(await page.innerText('.counts')).toMatch(/^0 errors/);
  });

  test('comes back with the text that shows it', async () => {
    await page.click('.sheet-text');
    await page.keyboard.press('Control+y');
    await expect.poll(foot).toContain('lip.svg is back in the library');
    expect(readFileSync(join(desk.folder, 'figures/lip.svg'), 'utf8')).toBe(DRAWING);
    await checked(page);
    await expect.poll(() => page.innerText('.counts')).toMatch(/^0 errors/);
  });

  test('that a saved text shows stays until that is saved without it', async () => {
    await save(page);
    await page.click('.sheet-text');
    await page.keyboard.press('Control+z');
    await page.click('.foot button:has-text("Remove it")');
    await expect.poll(foot).toMatch(/lip\.svg stays in the library: OM-3140 .* speaks of it/);
    expect(there('lip.svg')).toBe(true);
    await page.click('.foot button:has-text("Remove it")').then(() => expect.poll(foot).toMatch(/stays in the library/));
    await save(page);
    expect(desk.onDisk(LIP)).not.toContain('lip.svg');
    await page.click('.sheet-text');
    await page.keyboard.press('Control+y');
    await page.keyboard.press('Control+z');
    await page.click('.foot button:has-text("Remove it")');
    await expect.poll(() => there('lip.svg')).toBe(false);
  });

  test('and not put in is told when the sheet is closed', async () => {
    await choose('other.svg');
    expect(there('other.svg')).toBe(true);
    await page.keyboard.press('Escape');
    await expect.poll(foot).toMatch(/^other\.svg: no text shows it now/);
    await page.click('.foot button:has-text("Remove it")');
    await expect.poll(() => there('other.svg')).toBe(false);
  });

  test('that somebody else takes away is missed at once', async () => {
    await putIn('third.svg');
    expect(await page.innerText('.counts')).toMatch(/^0 errors/);
    unlinkSync(join(desk.folder, 'figures/third.svg'));
    await expect.poll(() => page.innerText('.counts')).toMatch(/^1 error/);
    expect(desk.complaints).toEqual([]);
  });
});
