/** The text of Write larger and smaller in a real browser: lines, labels and notes keep together, and the size is remembered. */
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { type Desk, hasBrowser } from '../support/desk.ts';

describe.skipIf(!hasBrowser())('the size of the text', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ width: 1600, height: 900, noTour: true, opens: 'OM-5110' }, (own) => {
    ({ desk, page } = own);
  });
  beforeAll(async () => {
    await page.waitForSelector('.notes .reading');
  });

  const pixels = (own: Page, place: string, property: string) =>
    own.evaluate<number>(`parseFloat(getComputedStyle(document.querySelector(${JSON.stringify(place)})).${property})`);
  const sizes = async (own: Page) => ({
    text: await pixels(own, '.sheet-text .view-lines', 'fontSize'),
    label: await pixels(own, '.sheet-left .label', 'fontSize'),
    note: await pixels(own, '.note-place', 'fontSize'),
    head: await pixels(own, '.menus button', 'fontSize'),
  });
  /** How far each label stands off the line that it is beside. */
  const off = (own: Page) =>
    own.evaluate<number>(`(() => {
      const lines = [...document.querySelectorAll('.sheet-text .view-line')].filter((line) => /^\\d+\\./.test(line.textContent));
      const labels = [...document.querySelectorAll('.sheet-left .depth-0')].map((label) => label.getBoundingClientRect());
      const away = lines.map((line) => line.getBoundingClientRect()).map(({ top }) => Math.min(...labels.map((label) => Math.abs(label.top - top))));
      return lines.length === 0 ? Infinity : Math.max(...away);
    })()`);

  test('is made larger by key, and labels and notes follow, the rest of the page does not', async () => {
    const before = await sizes(page);
    for (let times = 0; times < 3; times += 1) await page.keyboard.press('Control+.');
    await page.waitForSelector('.foot [role=status]:has-text("150 %")');
    const after = await sizes(page);
    for (const part of ['text', 'label', 'note'] as const) expect(after[part] / before[part], part).toBeCloseTo(1.5, 1);
    expect(after.head).toBe(before.head);
    await expect.poll(() => off(page)).toBeLessThan(2);
  });

  test('is remembered', async () => {
    const other = await desk.another();
    await other.waitForSelector('.sheet-left .label');
    expect((await sizes(other)).text).toBeCloseTo(23.25, 1);
    await expect.poll(() => off(other)).toBeLessThan(2);
    await other.close();
  });

  test('is made smaller, and as it was, by the menu', async () => {
    await page.keyboard.press('Control+,');
    await page.waitForSelector('.foot [role=status]:has-text("125 %")');
    await page.click('.menus button:has-text("Views")');
    await page.click('[role=menuitem]:has-text("Text as large as usual")');
    await expect.poll(async () => (await sizes(page)).text).toBeCloseTo(15.5, 1);
    await page.click('.menus button:has-text("Views")');
    expect(await page.locator('[role=menuitem]:has-text("Text as large as usual")').isDisabled()).toBe(true);
    await page.keyboard.press('Escape');
    expect(desk.complaints).toEqual([]);
  });

  test('ends at a largest, where the menu offers none larger', async () => {
    await page.click('.sheet-text');
    for (let times = 0; times < 12; times += 1) await page.keyboard.press('Control+.');
    await page.waitForSelector('.foot [role=status]:has-text("200 %")');
    await page.click('.menus button:has-text("Views")');
    expect(await page.locator('[role=menuitem]:has-text("Larger text")').isDisabled()).toBe(true);
    await page.keyboard.press('Escape');
  });
});
