/** Sheets laid over the page in a real browser: each takes the keys, none lets them through to the text beneath, and Escape closes it. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, clickLine, type Desk, hasBrowser } from '../support/desk.ts';

describe.skipIf(!hasBrowser())('a sheet over the page', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ noTour: true, opens: 'OM-3140' }, (own) => {
    ({ desk, page } = own);
  });

  for (const [name, keys] of [
    ['of keys', 'Control+k'],
    ['of libraries', 'Control+o'],
    ['of particulars', 'Control+Shift+F'],
    ['to find in the library', 'Control+Shift+L'],
    ['for a new procedure', 'Control+F8'],
    ['for a measurement', 'Control+Shift+M'],
    ['for a figure', 'Control+Shift+G'],
    ['for a remark', 'Control+Shift+K'],
  ] as const)
    test(`${name}: what is typed goes not into the text, and Escape gives the text back`, async () => {
      await clickLine(page, '1.');
      await page.keyboard.press(keys);
      await page.waitForSelector('.over');
      await page.keyboard.type('abc');
      await checked(page);
      expect(await page.getAttribute('.page', 'data-unsaved')).toBe('0');
      await page.keyboard.press('Escape');
      await page.waitForSelector('.over', { state: 'detached' });
      expect(await page.evaluate<boolean>('document.querySelector(".sheet-text").contains(document.activeElement)')).toBe(true);
    });

  test('is closed by Escape also when what had the keys is gone from it', async () => {
    await page.keyboard.press('Control+k');
    await page.waitForSelector('.over');
    await page.evaluate('document.activeElement.blur()');
    await page.keyboard.press('Escape');
    await page.waitForSelector('.over', { state: 'detached' });
  });

  test('that a menu opened has the keys too', async () => {
    await page.click('.menus button:has-text("Views")');
    await page.click('[role=menuitem]:has-text("Keyboard shortcuts")');
    await page.waitForSelector('.over');
    expect(await page.evaluate<boolean>('document.querySelector(".over").contains(document.activeElement)')).toBe(true);
    await page.keyboard.press('Escape');
    await page.waitForSelector('.over', { state: 'detached' });
    expect(desk.complaints).toEqual([]);
  });
});
