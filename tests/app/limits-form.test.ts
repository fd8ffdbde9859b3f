/** The table of limits at the caret as a form, by keys alone: what is typed goes back into that table, and undo takes it back. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser, save } from '../support/desk.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';

describe.skipIf(!hasBrowser())('a table of limits', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ opens: 'OM-3140' }, (own) => {
    ({ desk, page } = own);
  });

  async function goTo(words: string, number = 'OM-3140'): Promise<void> {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', words);
    await page.click(`.found li:has-text("${number}") button`);
    await page.click('.over header button');
  }

  test('is opened by its key, filled in, looked at and put back; one undo takes it back', async () => {
    const before = desk.onDisk(LIP);
    await goTo('lip drift upper');
    await page.keyboard.press('Control+F6');
    await page.waitForSelector('.over:has-text("limits of lip drift")');
    const at = (name: string) => page.locator(`.over input[aria-label="${name}"]`);
    await expect.poll(() => at('DL-25 lip drift upper').inputValue()).toBe('5 mm');
    expect(await page.locator('.over button.main').isDisabled()).toBe(true);
    await at('DL-25 lip drift upper').fill('4.5 mm');
    await page.waitForSelector('.over .preview ins:has-text("| DL-25 | 0 mm | 4.5 mm [0.177 in] |")');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.over', { state: 'detached' });
    await checked(page);
    await save(page);
    const typed = before.replace('| DL-25 | 0 mm | 5 mm [0.19 in] |', '| DL-25 | 0 mm | 4.5 mm [0.177 in] |');
    expect(typed).not.toBe(before);
    expect(desk.onDisk(LIP)).toBe(typed);
    await page.keyboard.press('Control+z');
    await save(page);
    expect(desk.onDisk(LIP)).toBe(before);
  });

  test('of the front matter is opened by the same key, and written back there alone', async () => {
    const file = 'procedures/OM-5120-drive-unit.md';
    const before = desk.onDisk(file);
    await goTo('LR-600: {lower', 'OM-5120');
    await page.keyboard.press('Control+F6');
    await page.waitForSelector('.over:has-text("limits of brake resistance")');
    await page.locator('.over input[aria-label="LR-600 upper"]').fill('165 Ω');
    await page.waitForSelector('.over .preview ins:has-text("LR-600: {lower: 140 Ω, upper: 165 Ω}")');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.over', { state: 'detached' });
    await checked(page);
    await save(page);
    expect(desk.onDisk(file)).toBe(before.replace('LR-600: {lower: 140 Ω, upper: 160 Ω}', 'LR-600: {lower: 140 Ω, upper: 165 Ω}'));
    await page.keyboard.press('Control+z');
    await save(page);
    expect(desk.onDisk(file)).toBe(before);
  });

  test('is not found from a step that measures nothing, and that is said', async () => {
    await goTo('Wait 10 min');
    await page.keyboard.press('Control+F6');
    await expect.poll(() => page.innerText('.over')).toContain('Put the caret into limits');
    await page.keyboard.press('Escape');
    expect(desk.complaints).toEqual([]);
  });
});
