/** How Write shares the width of the window between list, text, notes and page, on the screens that desks have. */
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { clickLine, type Desk, hasBrowser } from '../support/desk.ts';

/** CSS pixels: about 50 and 90 letters of the text. */
const [SHORTEST, LONGEST] = [350, 660];

describe.skipIf(!hasBrowser())('the width of the window', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ noTour: true, opens: 'OM-3140' }, (own) => {
    ({ desk, page } = own);
  });
  beforeAll(async () => {
    await page.waitForSelector('.proof canvas');
  });

  const box = async (place: string) => {
    const found = await page.locator(place).boundingBox();
    if (!found) throw new Error(`${place} is not there.`);
    return found;
  };

  test.each([
    { width: 1280, height: 800, proof: 330 },
    { width: 1440, height: 900, proof: 380 },
    // From here on what is printed can be read: its small letters are 9 pixels high and more.
    { width: 1920, height: 1080, proof: 620 },
    { width: 2560, height: 1440, proof: 860 },
  ])('of $width pixels leaves lines that read well and a whole page in sight', async ({ width, height, proof }) => {
    await page.setViewportSize({ width, height });
    await expect.poll(async () => (await box('.proof canvas')).width).toBeGreaterThanOrEqual(proof);
    const text = await box('.sheet-text');
    expect(text.width).toBeGreaterThanOrEqual(SHORTEST);
    expect(text.width).toBeLessThanOrEqual(LONGEST);
    const [printed, foot] = [await box('.proof figcaption'), await box('.foot')];
    expect(printed.y + printed.height).toBeLessThanOrEqual(foot.y);
    expect((await box('.proof')).x + (await box('.proof')).width).toBeLessThanOrEqual(width);
  });

  test('that is low for its width goes to the notes rather than to a page that cannot be seen whole', async () => {
    await page.setViewportSize({ width: 1920, height: 800 });
    await expect.poll(async () => (await box('.proof canvas')).width).toBeLessThan(500);
    const [printed, foot] = [await box('.proof figcaption'), await box('.foot')];
    expect(printed.y + printed.height).toBeLessThanOrEqual(foot.y);
  });

  test('is no matter to the menus when the first key makes a text unsaved', async () => {
    const before = await box('.menus > :last-child');
    await clickLine(page, '1.');
    await page.keyboard.type(' ');
    await page.waitForSelector('.head .where:has-text("1 text not saved")');
    expect((await box('.menus > :last-child')).x).toBe(before.x);
    await page.keyboard.press('Control+z');
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
