/** Help while writing in a register, in a real browser: names offered, told on resting, and its words inked by what they are. */
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { type Desk, hasBrowser } from '../support/desk.ts';

describe.skipIf(!hasBrowser())('a writer in a register', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ opens: 'Equipment' }, (own) => {
    ({ desk, page } = own);
  });
  beforeAll(async () => {
    await page.waitForSelector('.sheet-entries .view-line');
  });

  test('sees keys and values in different inks', async () => {
    // Inked when the page has a moment, so it is asked seldom; and from here, since what waits inside the page is code its policy refuses.
    const inks = () =>
      page.evaluate<number>(
        'new Set([...document.querySelectorAll(".view-line span span")].map((span) => getComputedStyle(span).color)).size',
      );
    await expect.poll(inks, { interval: 700 }).toBeGreaterThan(1);
  });

  test('is offered what may stand at the caret', async () => {
    await page.click('.sheet-text');
    await page.keyboard.press('Control+Home');
    await page.keyboard.press('Control+f');
    await page.fill('.find-strip input', 'kind: electrical');
    await page.waitForSelector('.find-strip output:has-text("of")');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Escape');
    await page.keyboard.press('ArrowRight');
    for (let letters = 'electrical'.length; letters > 0; letters -= 1) await page.keyboard.press('Backspace');
    await page.keyboard.press('Control+Space');
    await page.waitForSelector('.suggest-widget .monaco-list-row:has-text("pneumatic")');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+z');
  });

  test('is told what a name is when the mouse rests on it', async () => {
    await page.locator('.view-line span span:has-text("main isolator")').first().hover();
    await page.waitForSelector('.monaco-hover:has-text("isolation point")');
  });

  test('is offered the names that the register has', async () => {
    await page.click('.sheet-text');
    await page.keyboard.press('Control+Home');
    await page.keyboard.press('Control+f');
    await page.fill('.find-strip input', 'zone: motor end');
    await page.waitForSelector('.find-strip output:has-text("of")');
    await page.keyboard.press('Escape');
    await page.keyboard.press('ArrowRight');
    for (let left = 0; left < 'motor end'.length; left += 1) await page.keyboard.press('Shift+ArrowLeft');
    await page.keyboard.type('m');
    await page.keyboard.press('Control+Space');
    await page.waitForSelector('.suggest-widget .monaco-list-row:has-text("motor end")');
    await page.keyboard.press('Escape');
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
