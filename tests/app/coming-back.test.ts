/** A writer who looks elsewhere and comes back in a real browser: the caret stands where it was, nothing is marked, and no key eats a word. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser } from '../support/desk.ts';

describe.skipIf(!hasBrowser())('a writer who comes back to a text', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ noTour: true, opens: 'OM-3140' }, (own) => {
    ({ desk, page } = own);
  });

  const shownText = async () => (await page.innerText('.sheet-text .view-lines')).replaceAll('\u00a0', ' ');
  async function goToText(text: string): Promise<void> {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', text);
    await page.click('.found li:has-text("OM-3140") button');
    await page.click('.over header button');
  }
  async function takeBack(): Promise<void> {
    await page.keyboard.press('Control+z');
    await checked(page);
    expect(await page.locator('.page[data-unsaved="0"]').count()).toBe(1);
  }

  for (const [way, leave, comeBack] of [
    ['by keys', () => page.keyboard.press('Control+2'), () => page.keyboard.press('Control+1')],
    ['by the mouse', () => page.click('.views button:has-text("Print")'), () => page.click('.views button:has-text("Write")')],
  ] as const)
    test(`from another view ${way} types where the caret was, over nothing`, async () => {
      await goToText('Send everyone off the platform');
      await leave();
      await page.waitForSelector('.sheet-text', { state: 'detached' });
      await comeBack();
      await page.waitForSelector('.sheet-text .view-line:has-text("Send everyone off the platform")');
      await page.keyboard.type(' kindly');
      await checked(page);
      expect(await shownText()).toContain('Send everyone off the platform kindly');
      await takeBack();
    });

  test('from another text finds caret and page as they were', async () => {
    await goToText('by the [stopwatch].');
    await page.keyboard.press('End');
    const scrolled = () => page.getAttribute('.sheet-left > div', 'style');
    const last = await scrolled();
    await page.click('.library .entry:has-text("OM-1110")');
    await expect.poll(scrolled).not.toBe(last);
    await page.click('.library .entry:has-text("OM-3140")');
    await expect.poll(scrolled).toBe(last);
    await page.keyboard.type('Here again.');
    await checked(page);
    expect(await shownText()).toContain('by the [stopwatch].Here again.');
    await takeBack();
  });

  test('a text that nobody was in yet is shown where its work begins', async () => {
    await page.click('.library .entry:has-text("OM-3150")');
    await expect.poll(shownText).toMatch(/^## .+\n+\s*1[.)]/m);
  });

  test('the next morning the text is open that was open last, with the caret where it was', async () => {
    await page.click('.library .entry:has-text("OM-3140")');
    await goToText('by the [stopwatch].');
    await page.keyboard.press('End');
    // Kept when the hands have rested a moment.
    await page.waitForTimeout(3000);
    await page.reload();
    await page.waitForSelector('.sheet-head h1:has-text("OM-3140")');
    await checked(page);
    await page.waitForSelector('.sheet-text .view-line:has-text("stopwatch")');
    expect(await page.locator('.library .entry[aria-current=true]').innerText()).toContain('OM-3140');
    await page.focus('.sheet-text textarea, .sheet-text [role=textbox]');
    await page.keyboard.type('Good morning.');
    await checked(page);
    expect(await shownText()).toContain('by the [stopwatch].Good morning.');
    await takeBack();
  });

  test('a jump still marks what it leads to', async () => {
    await goToText('Send everyone off the platform');
    expect(await page.evaluate<string>('document.querySelectorAll(".sheet-text .selected-text").length > 0 ? "marked" : ""')).toBe(
      'marked',
    );
    expect(desk.complaints).toEqual([]);
  });
});
