/** A writer who looks elsewhere and comes back finds text and caret as they were left; a register is inked and offers its names. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checked, type Desk, hasBrowser, launch, sitDown } from '../support/desk.ts';

describe.skipIf(!hasBrowser())('a writer who looks elsewhere', () => {
  let browser: Browser;
  let desk: Desk;
  let page: Page;
  beforeAll(async () => {
    browser = await launch();
    desk = await sitDown(browser);
    page = desk.page;
    await page.click('.tour button:has-text("Not now")');
    await page.click('.library .entry:has-text("OM-3140")');
  });
  afterAll(async () => {
    await desk?.close();
    await browser?.close();
  });
  const text = async () => (await page.innerText('.sheet-text .view-lines')).replaceAll('\u00a0', ' ');

  test('replaces nothing with the first key after coming back', async () => {
    // A jump marks what it leads to.
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', 'Send everyone off the platform');
    await page.click('.found li:has-text("OM-3140") button');
    await page.click('.over header button');
    await expect.poll(text).toContain('Send everyone off the platform');
    await page.keyboard.press('End');
    await page.keyboard.press('Control+3');
    await page.waitForSelector('.page-canvas');
    await page.keyboard.press('Control+1');
    await page.waitForSelector('.sheet-text .view-lines');
    await page.keyboard.type('!');
    await checked(page);
    expect(await text()).toContain('Send everyone off the platform and out of the pit.!');
    await page.keyboard.press('Control+z');
    await checked(page);
    expect(await text()).not.toContain('pit.!');
  });

  test('finds each text where it was left', async () => {
    await page.click('.sheet-text');
    await page.keyboard.press('Control+End');
    await expect.poll(text).toContain('## Records');
    await page.click('.library .entry:has-text("OM-1110")');
    await expect.poll(text).not.toContain('## Records');
    await page.click('.library .entry:has-text("OM-3140")');
    await expect.poll(text).toContain('## Records');
  });

  test('finds a register inked, with its names on offer and told on resting', async () => {
    await page.click('.library .entry:has-text("equipment")');
    await expect.poll(text).toContain('families:');
    const inks = await page.evaluate<number>(
      'new Set([...document.querySelectorAll(".view-line span span")].map((one) => one.className)).size',
    );
    expect(inks).toBeGreaterThan(1);
    await page.click('.sheet-text');
    await page.keyboard.press('Control+Home');
    await page.keyboard.press('Control+f');
    await page.fill('.find-strip input', 'zone: motor end');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Escape');
    await page.keyboard.press('ArrowRight');
    for (let left = 0; left < 'motor end'.length; left += 1) await page.keyboard.press('Shift+ArrowLeft');
    await page.keyboard.type('m');
    await page.keyboard.press('Control+Space');
    await expect
      .poll(() => page.locator('.suggest-widget .monaco-list-row').allInnerTexts())
      .toEqual(expect.arrayContaining([expect.stringContaining('motor end')]));
    await page.keyboard.press('Escape');
  });
});
