/** A writer at the Edit menu in a real browser: cutting, copying and pasting with the mouse, finding and replacing in the text that is open. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser } from '../support/desk.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';

describe.skipIf(!hasBrowser())('a writer at the Edit menu', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ noTour: true, opens: 'OM-3140' }, (own) => {
    ({ desk, page } = own);
  });

  async function choose(item: string): Promise<void> {
    await page.click('.menus button:has-text("Edit")');
    await page.click(`[role=menuitem]:has(span:text-is("${item}"))`);
  }
  const shownText = async () => (await page.innerText('.sheet-text .view-lines')).replaceAll('\u00a0', ' ');
  const undone = async () => {
    await page.click('.sheet-text');
    for (let times = 0; times < 9 && (await page.locator('.page[data-unsaved="0"]').count()) === 0; times += 1) {
      await page.keyboard.press('Control+z');
      await checked(page);
    }
    expect(await page.locator('.page[data-unsaved="0"]').count()).toBe(1);
  };
  async function goToText(text: string): Promise<void> {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', text);
    await page.click('.found li:has-text("OM-3140") button');
    await page.click('.over header button');
  }

  test('sees the keys of what everybody looks for there', async () => {
    await page.click('.menus button:has-text("Edit")');
    const items = await page.locator('[role=menu] [role=menuitem]').allInnerTexts();
    for (const [item, keys] of [
      ['Cut', 'Ctrl+X'],
      ['Copy', 'Ctrl+C'],
      ['Paste', 'Ctrl+V'],
      ['Select all', 'Ctrl+A'],
    ] as const)
      expect(items.map((one) => one.replace(/\s+/g, ' '))).toContain(`${item} ${keys}`);
    await page.keyboard.press('Escape');
  });

  test('is told the key where the browser does not let the page read what was copied', async () => {
    await goToText('Send everyone off the platform');
    await choose('Paste');
    await page.waitForSelector('.foot .wrong:has-text("Ctrl+V")');
    expect(await page.locator('.page[data-unsaved="0"]').count()).toBe(1);
  });

  test('cuts from the text and pastes into it, and undo knows both', async () => {
    await desk.context.grantPermissions(['clipboard-read', 'clipboard-write']);
    await goToText('off the platform and out of the pit');
    await choose('Cut');
    await checked(page);
    expect(await shownText()).toContain('Send everyone .');
    await page.keyboard.press('End');
    await choose('Paste');
    await expect.poll(shownText).toContain('Send everyone .off the platform and out of the pit');
    await undone();
    expect(desk.onDisk(LIP)).toContain('Send everyone off the platform and out of the pit.');
  });

  test('copies from the text into a field, and selects all of a field', async () => {
    await goToText('laser distance meter');
    await choose('Copy');
    await page.click('.library input[type=search]');
    await choose('Paste');
    await expect.poll(() => page.inputValue('.library input[type=search]')).toBe('laser distance meter');
    await choose('Select all');
    await choose('Cut');
    expect(await page.inputValue('.library input[type=search]')).toBe('');
    // The list has heard of it.
    expect(await page.locator('.library .entry').count()).toBeGreaterThan(10);
    expect(await page.locator('.page[data-unsaved="0"]').count()).toBe(1);
  });

  test('selects all of the text, and of no other', async () => {
    await page.click('.sheet-text .view-lines');
    await choose('Select all');
    await choose('Copy');
    expect(await page.evaluate<string>('navigator.clipboard.readText()')).toBe(desk.onDisk(LIP));
  });

  test('copies words that are marked beside the text', async () => {
    await page.locator('.sheet-head h1').click({ clickCount: 3 });
    await choose('Copy');
    expect(await page.evaluate<string>('navigator.clipboard.readText()')).toContain('OM-3140 Check the lip cylinder');
  });

  describe('who looks for something in the text', () => {
    const count = () => page.innerText('.find-strip output');
    const field = '.find-strip input[type=search]';
    const holding = () => page.evaluate<boolean>('document.querySelector(".sheet-text").contains(document.activeElement)');
    const times = (text: string, what: RegExp) => [...text.matchAll(what)].length;

    test('is told how many places there are, sees them marked, and goes through them round and round', async () => {
      await page.click('.sheet-text');
      await page.keyboard.press('Control+Home');
      await page.keyboard.press('Control+f');
      await page.fill(field, 'main isolator');
      const all = times(desk.onDisk(LIP), /main isolator/gi);
      expect(all).toBeGreaterThan(2);
      await expect.poll(count).toBe(`1 of ${all}`);
      expect(await page.getByRole('search').getByRole('status').innerText()).toBe(`1 of ${all}`);
      await page.waitForSelector('.sheet-text .found-here');
      await page.keyboard.press('Enter');
      await expect.poll(count).toBe(`2 of ${all}`);
      await page.keyboard.press('Shift+Enter');
      await page.keyboard.press('Shift+Enter');
      await expect.poll(count).toBe(`${all} of ${all}`);
      await page.keyboard.press('F3');
      await expect.poll(count).toBe(`1 of ${all}`);
      expect(await holding()).toBe(false);
    });

    test('tells capitals and whole words apart where asked to', async () => {
      const text = desk.onDisk(LIP);
      await page.fill(field, 'lock');
      await expect.poll(count).toContain(`of ${times(text, /lock/gi)}`);
      await page.check('.find-strip .tick:has-text("Whole words") input');
      await expect.poll(count).toContain(`of ${times(text, /\block\b/gi)}`);
      await page.check('.find-strip .tick:has-text("Match case") input');
      await page.fill(field, 'PLATFORM');
      await expect.poll(count).toBe('Not in this text');
      await page.uncheck('.find-strip .tick:has-text("Match case") input');
      await expect.poll(count).toContain(`of ${times(text, /\bplatform\b/gi)}`);
      await page.uncheck('.find-strip .tick:has-text("Whole words") input');
    });

    test('comes back to the text at the place found, and types there', async () => {
      await page.fill(field, 'dock staff');
      // What is marked may still be what was looked for before.
      await expect.poll(count).toContain(`of ${times(desk.onDisk(LIP), /dock staff/gi)}`);
      await page.waitForSelector('.sheet-text .found-here');
      await page.keyboard.press('Escape');
      expect(await page.locator('.find-strip').count()).toBe(0);
      await expect.poll(() => page.locator('.sheet-text .found-text, .sheet-text .found-here').count()).toBe(0);
      await page.keyboard.type('dock crew');
      await checked(page);
      expect(await shownText()).toContain('the dock crew that');
      await undone();
    });

    test('looks for what is marked, replaces one and then all, and undo takes back each', async () => {
      await goToText('dock staff');
      await page.keyboard.press('Control+h');
      expect(await page.inputValue(field)).toBe('dock staff');
      const all = times(desk.onDisk(LIP), /dock staff/gi);
      expect(all).toBeGreaterThan(2);
      await expect.poll(count).toBe(`1 of ${all}`);
      await page.fill('.find-strip input[type=text]', 'dock crew');
      await page.click('.find-strip button:has-text("Replace this one")');
      await expect.poll(count).toBe(`1 of ${all - 1}`);
      await page.click('.find-strip button:has-text("Replace all")');
      await expect.poll(count).toBe('Not in this text');
      await page.click('.menus button:has-text("Edit")');
      expect(await page.locator('[role=menuitem]').first().innerText()).toContain(`Undo: Replace in ${all - 1} places`);
      await page.keyboard.press('Escape');
      await page.click('.sheet-text');
      await page.keyboard.press('Control+z');
      await expect.poll(count).toContain(`${all - 1}`);
      await page.keyboard.press('Control+z');
      await checked(page);
      expect(await page.locator('.page[data-unsaved="0"]').count()).toBe(1);
      await page.click('.find-strip button:has-text("Close")');
      expect(await holding()).toBe(true);
    });

    test('counts anew in another text, and leaves the caret there alone', async () => {
      await page.keyboard.press('Control+f');
      await page.fill(field, 'platform');
      await expect.poll(count).toMatch(/^\d+ of \d+$/);
      await page.click('.library .entry:has-text("OM-6120")');
      await expect.poll(count).toBe('Not in this text');
      await expect.poll(() => page.locator('.sheet-text .found-text, .sheet-text .found-here').count()).toBe(0);
      await page.click('.library .entry:has-text("OM-3150")');
      await expect.poll(count).toMatch(/^\d+ places$/);
      await page.click('.library .entry:has-text("OM-3140")');
      await page.click('.find-strip button:has-text("Close")');
    });

    test('goes on in the whole library with the same words', async () => {
      await page.keyboard.press('Control+f');
      await page.fill(field, 'stopwatch');
      await page.click('.find-strip button:has-text("Find in the library")');
      expect(await page.inputValue('.over input[type=search]')).toBe('stopwatch');
      // Told by document and step; the line of the file is for whoever rests the mouse on it.
      await page.waitForSelector('.found li:has-text("OM-3140, Check the drift, step 8"):has-text("Wait 10 min")');
      await page.waitForSelector('.found li:has-text("Tools, stopwatch")');
      const title = await page.locator('.found li:has-text("Check the drift, step 8") .quiet').getAttribute('title');
      const line = desk.onDisk(LIP).split('Wait 10 min')[0]?.split('\n').length;
      expect(title).toBe(`${LIP}, line ${line}`);
      await page.keyboard.press('Escape');
      await page.click('.find-strip button:has-text("Close")');
    });
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
