/** What could be read as if all were well while it is not: a verdict beside errors, what is left to do in a text, a word about the machine. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser } from '../support/desk.ts';

describe.skipIf(!hasBrowser())('beside errors', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ noTour: true, opens: 'OM-3140', procedures: /OM-3140/ }, (own) => {
    ({ desk, page } = own);
  });

  test('a proof is not called proved while its text has errors, in the list and over the text; the words lead to the first', async () => {
    await checked(page);
    expect(await page.innerText('.verdict')).toBe('proved');
    await page.waitForSelector('.entry:has-text("OM-3140") .mark-proved');
    await page.click('.sheet-text');
    await page.keyboard.press('Control+End');
    await page.keyboard.insertText('\n7. Look at the [service strut].\n');
    await checked(page);
    await page.waitForSelector('.foot .counts.state-error');
    await expect.poll(() => page.innerText('.verdict')).toMatch(/^walks proved, text has \d+ errors?$/);
    expect(await page.locator('.entry:has-text("OM-3140") .mark-proved').count()).toBe(0);
    expect(await page.innerText('.entry:has-text("OM-3140") .said-only >> nth=1')).toMatch(/walks proved, text has \d+ error/);
    await page.keyboard.press('Control+Home');
    await page.click('.verdict button');
    await page.waitForSelector('.note-here .state-error, .note-here.note-error, .note-here:has-text("Error")');
  });

  test('the key of the band says that it is the state that the text requires', async () => {
    expect(await page.innerText('.legend')).toMatch(/^State that the text requires:/);
  });

  test('what is left to do in a new procedure stands while it is typed', async () => {
    await page.keyboard.press('Control+F8');
    await page.fill('.over input[aria-label^="Title"]', 'Grease the hinge');
    await page.click('.over label.tick:has-text("DL-20") input');
    await page.click('.over button.main');
    await page.waitForSelector('.sheet-head h1:has-text("Grease the hinge")');
    await checked(page);
    const told = await page.innerText('.foot [role=status]');
    expect(told.length).toBeGreaterThan(60);
    // A minute of the page's own clock: longer than it takes to read.
    await page.evaluate('{ const now = performance.now.bind(performance); performance.now = () => now() + 600_000; }');
    await page.click('.sheet-text');
    await page.keyboard.type('x');
    await checked(page);
    expect(await page.innerText('.foot [role=status]')).toBe(told);
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
