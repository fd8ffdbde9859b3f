/** A writer who takes things back in a real browser: what was made is gone again, nothing empty is saved, and the place is shown or told. */
import { existsSync, rmSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, clickLine, type Desk, hasBrowser, save } from '../support/desk.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';

describe.skipIf(!hasBrowser())('a writer who takes things back', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ noTour: true }, (own) => {
    ({ desk, page } = own);
  });

  const onDisk = (own: string) => existsSync(path.join(desk.folder, ...own.split('/')));
  const unsaved = () => page.getAttribute('.page', 'data-unsaved');
  const press = async (keys: string) => {
    await page.keyboard.press(keys);
    await checked(page);
  };

  test('has no trace left of a new procedure that was taken back, and may have it again', async () => {
    const errors = await page.innerText('.foot .counts');
    await page.keyboard.press('Control+F8');
    await page.fill('.over input[aria-label^="Title"]', 'Grease the hinge');
    await page.click('.over label.tick:has-text("DL-20") input');
    await page.click('.over button.main');
    await page.waitForSelector('.library .entry:has-text("Grease the hinge")');
    await checked(page);
    expect(await unsaved()).toBe('1');
    await press('Control+z');
    expect(await unsaved()).toBe('0');
    await page.waitForSelector('.library .entry:has-text("Grease the hinge")', { state: 'detached' });
    expect(await page.innerText('.foot .counts')).toBe(errors);
    await page.waitForSelector('.desk:has-text("Choose a text in the list")');
    await press('Control+y');
    await page.waitForSelector('.sheet-head h1:has-text("Grease the hinge")');
    expect(await unsaved()).toBe('1');
  });

  test('keeps the new procedure when it was saved meanwhile, and is told', async () => {
    await save(page);
    const made = (await page.getAttribute('.sheet-head h1', 'title')) ?? '';
    const text = desk.onDisk(made);
    expect(text).toContain('Grease the hinge');
    await press('Control+z');
    await page.waitForSelector('.foot .wrong:has-text("is on disk by now")');
    expect(await unsaved()).toBe('0');
    await press('Control+s');
    expect(desk.onDisk(made)).toBe(text);
  });

  test('leaves no empty record of a first remark', async () => {
    await page.click('.library .entry:has-text("OM-1110")');
    await clickLine(page, '1.');
    await page.keyboard.press('Control+Shift+K');
    await page.fill('.over input[aria-label="What is to be asked or changed"]', 'Which way round?');
    await page.fill('.over label:has-text("Initials") input', 'ab');
    await page.click('.over button.main');
    await page.waitForSelector('.page[data-unsaved="1"]');
    await page.click('.sheet-text');
    await press('Control+z');
    expect(await unsaved()).toBe('0');
    await page.waitForSelector('.foot:has-text("Taken back in")');
    await press('Control+s');
    expect(onDisk('review/OM-1110.yaml')).toBe(false);
  });

  test('is brought to the text that an undo changes', async () => {
    await page.click('.library .entry:has-text("OM-3140")');
    await clickLine(page, '1.');
    await page.keyboard.press('End');
    await page.keyboard.type(' Slowly.');
    await checked(page);
    await page.click('.library .entry:has-text("OM-1110")');
    await page.waitForSelector('.sheet-head h1:has-text("OM-1110")');
    await press('Control+z');
    await page.waitForSelector('.sheet-head h1:has-text("OM-3140")');
    await page.waitForSelector('.foot:has-text("Taken back in OM-3140")');
    expect(await unsaved()).toBe('0');
    // The caret is where the words were.
    await page.keyboard.type(' Gently.');
    await checked(page);
    expect((await page.innerText('.sheet-text .view-lines')).replaceAll('\u00a0', ' ')).toMatch(/^1\..*\n?.* Gently\./m);
    await press('Control+z');
  });

  test('is told in another view what an undo changed', async () => {
    await clickLine(page, '1.');
    await page.keyboard.press('End');
    await page.keyboard.type(' Slowly.');
    await checked(page);
    await page.keyboard.press('Control+2');
    await page.waitForSelector('.sheet-text', { state: 'detached' });
    await press('Control+z');
    await page.waitForSelector('.foot:has-text("Taken back in OM-3140")');
    expect(await unsaved()).toBe('0');
    await page.keyboard.press('Control+1');
  });

  test('brings a text back that was deleted on disk and given up, and saves no empty one', async () => {
    await clickLine(page, '1.');
    await page.keyboard.press('End');
    await page.keyboard.type(' Still here.');
    await checked(page);
    rmSync(path.join(desk.folder, ...LIP.split('/')));
    await page.click('.band-message button:has-text("Let it go")');
    await checked(page);
    expect(await unsaved()).toBe('0');
    expect(onDisk(LIP)).toBe(false);
    await press('Control+z');
    await page.waitForSelector('.sheet-head h1:has-text("OM-3140")');
    await save(page);
    expect(desk.onDisk(LIP)).toContain(' Still here.');
  });

  test('takes nothing back of a text that somebody deleted, and is not left in it', async () => {
    const before = await page.locator('.library .entry:has-text("OM-3140")').count();
    expect(before).toBeGreaterThan(0);
    rmSync(path.join(desk.folder, ...LIP.split('/')));
    await page.waitForSelector('.foot .wrong:has-text("was removed on disk")');
    await page.waitForSelector('.desk:has-text("Choose a text in the list")');
    await checked(page);
    await press('Control+z');
    await press('Control+s');
    expect(await unsaved()).toBe('0');
    expect(onDisk(LIP)).toBe(false);
    expect(desk.complaints).toEqual([]);
  });
});
