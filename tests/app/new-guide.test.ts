/** A new guide in a real browser: procedures chosen and put in order by keys alone, what must go with them, and the file on disk; in an empty library too. */
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checked, type Desk, hasBrowser, launch, save, sitDown } from '../support/desk.ts';

async function newGuide(page: Page): Promise<void> {
  await page.focus('.menus button:has-text("File")');
  await page.keyboard.press('Enter');
  await page.focus('[role=menuitem]:has-text("New guide")');
  await page.keyboard.press('Enter');
  await page.waitForSelector('.over input[aria-label^="Title"]');
}
const counts = (page: Page) => page.innerText('.counts');

describe.skipIf(!hasBrowser())('a new guide', () => {
  let browser: Browser;
  let desk: Desk;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(async () => {
    await desk?.close();
    await browser?.close();
  });

  test('of three procedures in an order of one’s own; it checks clean and stands in the list by guide', async () => {
    desk = await sitDown(browser);
    const { page } = desk;
    const before = await counts(page);
    await newGuide(page);
    await page.keyboard.type('Fans and levellers');
    await expect.poll(() => page.inputValue('.over label:has-text("Number") input')).toBe('OM-8030');
    for (const number of ['OM-3150', 'OM-1120', 'OM-3140']) {
      await page.fill('.choosing input[type=search]', number);
      await page.focus(`.choosing .found button:has-text("${number}")`);
      await page.keyboard.press('Enter');
    }
    const order = () => page.locator('.bound-order .number').allInnerTexts();
    expect(await order()).toEqual(['OM-3150', 'OM-1120', 'OM-3140']);
    // Whoever has only keys goes on from the button that was pressed.
    await page.focus('.bound-order button[aria-label="OM-3140 earlier"]');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    expect(await order()).toEqual(['OM-3140', 'OM-3150', 'OM-1120']);
    await expect.poll(() => page.isChecked('.over label:has-text("DL-25") input')).toBe(true);
    await page.click('.over button.main');
    await page.waitForSelector('.over', { state: 'detached' });
    await checked(page);
    expect(await counts(page)).toBe(before);
    await save(page);
    const text = desk.onDisk('guides/OM-8030-fans-and-levellers.md');
    expect(text).toContain('## Dock leveller\n\n- [OM-3140]\n- [OM-3150]\n\n## Extraction fan\n\n- [OM-1120]\n');
    await page.click('.orders button:has-text("by guide")');
    const shelf = page.locator('.library section', { hasText: 'Fans and levellers' }).first();
    expect(await shelf.locator('.entry-number').allInnerTexts()).toEqual(['OM-8030', 'OM-3140', 'OM-3150', 'OM-1120']);
  });

  test('with a number that is taken is refused in words', async () => {
    const { page } = desk;
    await newGuide(page);
    await page.keyboard.type('Another');
    await page.fill('.over label:has-text("Number") input', 'OM-3140');
    await page.click('.over button.main');
    await expect.poll(() => page.innerText('.over')).toContain('OM-3140 is taken.');
    await page.keyboard.press('Escape');
    expect(desk.complaints).toEqual([]);
    await desk.close();
  });

  test('in a library that has nothing yet', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'handsclear-guide-'));
    for (const own of ['registers', 'procedures', 'guides', 'figures']) mkdirSync(join(folder, own));
    writeFileSync(join(folder, 'registers/equipment.yaml'), 'families: {}\nmodels: {}\n');
    writeFileSync(join(folder, 'library.yaml'), 'publisher: Orrfen Machines\n');
    desk = await sitDown(browser, { folder });
    const { page } = desk;
    try {
      const before = await counts(page);
      await newGuide(page);
      expect(await page.innerText('.over')).toContain('has no procedure yet');
      await page.keyboard.type('The first');
      await page.keyboard.press('Enter');
      await page.waitForSelector('.over', { state: 'detached' });
      await checked(page);
      expect(await counts(page)).toBe(before);
      await save(page);
      expect(readdirSync(join(folder, 'guides'))).toEqual([expect.stringMatching(/-the-first\.md$/)]);
      expect(desk.complaints).toEqual([]);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
