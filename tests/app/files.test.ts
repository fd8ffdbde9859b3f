/** A writer who renames and removes files in a real browser: told what would lead nowhere, and able to have a removed text back. */
import { existsSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, clickLine, type Desk, hasBrowser, save } from '../support/desk.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';
const RENAMED = 'procedures/lip.md';

describe.skipIf(!hasBrowser())('a writer at the files', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ noTour: true, opens: 'OM-3140' }, (own) => {
    ({ desk, page } = own);
  });

  const at = (own: string) => path.join(desk.folder, ...own.split('/'));
  const counts = () => page.innerText('.foot .counts');
  async function openSheet(): Promise<void> {
    await page.click('.menus button:text-is("File")');
    await page.click('[role=menuitem]:has-text("Rename or remove the file")');
  }

  test('gives a file another name, with what is not saved yet, and nothing is found that was not before', async () => {
    const [before, text] = [await counts(), desk.onDisk(LIP)];
    await clickLine(page, '1.');
    await page.keyboard.press('End');
    await page.keyboard.type(' Slowly.');
    await checked(page);
    await openSheet();
    await page.fill('.over input', 'lip');
    await page.click('.over button:has-text("Rename the file")');
    await page.waitForSelector('.foot:has-text("procedures/lip.md")');
    await checked(page);
    expect(existsSync(at(LIP))).toBe(false);
    expect(desk.onDisk(RENAMED)).toBe(text);
    expect(await page.getAttribute('.sheet-head h1', 'title')).toBe(RENAMED);
    expect(await page.getAttribute('.page', 'data-unsaved')).toBe('1');
    await page.keyboard.press('Control+z');
    await checked(page);
    expect(await page.getAttribute('.page', 'data-unsaved')).toBe('0');
    expect(await counts()).toBe(before);
  });

  test('is refused a name that another file has', async () => {
    await openSheet();
    await page.fill('.over input', 'OM-1110-fan-shake');
    await page.click('.over button:has-text("Rename the file")');
    await page.waitForSelector('.foot .wrong:has-text("is there already")');
    expect(existsSync(at(RENAMED))).toBe(true);
  });

  test('sees what would lead nowhere, removes the file, and has it back by undo', async () => {
    const [before, text] = [await counts(), desk.onDisk(RENAMED)];
    await openSheet();
    await page.waitForSelector('.over:has-text("would lead nowhere")');
    expect(await page.locator('.over .found li').count()).toBeGreaterThan(0);
    await page.click('.over button:has-text("Remove the file")');
    await page.waitForSelector('.foot:has-text("is removed. Undo brings its text back")');
    await checked(page);
    expect(existsSync(at(RENAMED))).toBe(false);
    await page.waitForSelector('.library .entry:has-text("OM-3140")', { state: 'detached' });
    expect(await counts()).not.toBe(before);
    await page.keyboard.press('Control+z');
    await page.waitForSelector('.sheet-head h1:has-text("OM-3140")');
    await save(page);
    await checked(page);
    expect(desk.onDisk(RENAMED)).toBe(text);
    expect(await counts()).toBe(before);
  });

  test('is told of files that could not be read, of all of them, until it is dismissed or mended', async () => {
    const foreign = ['from the shop.md', 'from the yard.md'].map((name) => at(`procedures/${name}`));
    // UTF-16, as another program wrote it.
    for (const one of foreign) writeFileSync(one, Buffer.from([0xff, 0xfe, 0x41, 0x00]));
    const other = await desk.another();
    await other.waitForSelector('.band-message:has-text("2 files of this library were not read"):has-text("from the yard.md")');
    writeFileSync(foreign[0] as string, 'Nothing of a procedure.\n');
    await other.waitForSelector('.band-message:has-text("1 file of this library was not read")');
    // A text that says no number and no title is found by the name of its file.
    await other.waitForSelector('.library .entry:has-text("from the shop.md"):has-text("1 error")');
    await other.click('.band-message button:has-text("Dismiss")');
    expect(await other.locator('.band-message').count()).toBe(0);
    await other.close();
    for (const one of foreign) rmSync(one);
    await checked(page);
  });

  test('removes nothing that somebody else wrote anew under unsaved text', async () => {
    await clickLine(page, '1.');
    await page.keyboard.press('End');
    await page.keyboard.type(' Slowly.');
    await checked(page);
    const theirs = `${desk.onDisk(RENAMED)}Written by another program.\n`;
    writeFileSync(at(RENAMED), theirs);
    await page.waitForSelector('.band-message');
    await openSheet();
    await page.click('.over button:has-text("Remove the file"):enabled');
    await page.waitForSelector('.foot .wrong:has-text("Nothing was done")');
    expect(desk.onDisk(RENAMED)).toBe(theirs);
    expect(await page.getAttribute('.page', 'data-unsaved')).toBe('1');
    expect(desk.complaints).toEqual([]);
  });
});
