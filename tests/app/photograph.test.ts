/** A bitmap is seen on screen where it is printed: beside the text as soon as it is put in, and on the pages of Print; another one under its name takes its place. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { encode } from 'fast-png';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, clickLine, type Desk, hasBrowser } from '../support/desk.ts';

type Dot = readonly [number, number, number];
const GREEN: Dot = [20, 200, 60];
const VIOLET: Dot = [160, 30, 220];

/** Of one colour, which no part of a page has. */
function photograph([red, green, blue]: Dot, width = 600, height = 400): Buffer {
  const data = new Uint8Array(width * height * 3);
  for (let at = 0; at < data.length; at += 3) data.set([red, green, blue], at);
  return Buffer.from(encode({ width, height, data, channels: 3, depth: 8 }));
}

/** Dots of the colour on all canvases of the page that is shown. */
const dotsOf = (page: Page, colour: Dot): Promise<number> =>
  page.evaluate<number>(`(() => {
    let count = 0;
    for (const canvas of document.querySelectorAll('canvas.page-canvas, .page-canvas canvas')) {
      if (canvas.width === 0) continue;
      const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
      for (let at = 0; at < data.length; at += 4)
        if (Math.abs(data[at] - ${colour[0]}) + Math.abs(data[at + 1] - ${colour[1]}) + Math.abs(data[at + 2] - ${colour[2]}) < 12) count += 1;
    }
    return count;
  })()`);

describe.skipIf(!hasBrowser())('a photograph', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ noTour: true, opens: 'OM-3140', procedures: /OM-3\d+/ }, (own) => {
    ({ desk, page } = own);
  });

  test('is on the page beside the text once it is put in', async () => {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', 'Wait 10 min');
    await page.click('.found li:has-text("OM-3140") button');
    await page.click('.over header button');
    expect(await dotsOf(page, GREEN)).toBe(0);
    await page.keyboard.press('Control+Shift+G');
    await page.setInputFiles('.over input[type=file]', { name: 'seat.png', mimeType: 'image/png', buffer: photograph(GREEN) });
    await expect.poll(() => page.inputValue('.over select')).toBe('figures/seat.png');
    await page.fill('.over input[aria-label="What the picture shows"]', 'The seat');
    await page.click('.over button.main');
    await page.waitForSelector('.over', { state: 'detached' });
    await checked(page);
    await expect.poll(() => dotsOf(page, GREEN)).toBeGreaterThan(5000);
  });

  test('stands while somebody types above it', async () => {
    const before = await dotsOf(page, GREEN);
    await clickLine(page, 'Wait 10 min');
    await page.keyboard.press('End');
    await page.keyboard.type(' Look.');
    await checked(page);
    // The page is painted after it is checked.
    await page.waitForTimeout(500);
    expect(await dotsOf(page, GREEN)).toBe(before);
  });

  test('another picture under its name is seen in its place', async () => {
    writeFileSync(join(desk.folder, 'figures/seat.png'), photograph(VIOLET));
    await expect.poll(() => dotsOf(page, VIOLET)).toBeGreaterThan(5000);
    expect(await dotsOf(page, GREEN)).toBe(0);
  });

  test('is on the pages of Print', async () => {
    await page.keyboard.press('Control+3');
    await page.waitForSelector('.page-canvas canvas');
    await page.focus('.pages');
    await expect
      .poll(async () => {
        await page.keyboard.press('PageDown');
        return dotsOf(page, VIOLET);
      })
      .toBeGreaterThan(1000);
  });
});
