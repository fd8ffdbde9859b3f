/** Pictures that change on disk while a library is open, in a real browser: what shows them is checked again, and printing knows what is there. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser } from '../support/desk.ts';
import { pictureFile } from '../support/figures.ts';

const PROCEDURE = 'procedures/OM-3160-relief-pressure.md';
const FIGURE = 'figures/pump-bay.svg';

describe.skipIf(!hasBrowser())('pictures on disk', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ noTour: true, opens: 'OM-3160' }, (own) => {
    ({ desk, page } = own);
  });
  beforeAll(async () => {
    await checked(page);
  });

  const at = (own: string): string => join(desk.folder, ...own.split('/'));
  const counts = () => page.innerText('.foot .counts');

  test('one that was cut off is an error until it is whole again', async () => {
    const [before, whole] = [await counts(), readFileSync(at(FIGURE))];
    expect(before).toMatch(/^0 errors/);
    writeFileSync(at(FIGURE), whole.subarray(0, 900));
    await expect.poll(counts, { timeout: 15_000 }).toMatch(/^1 error,/);
    await page.click('.foot .counts');
    await page.waitForSelector('text=The figure figures/pump-bay.svg cannot be shown.');
    writeFileSync(at(FIGURE), whole);
    await expect.poll(counts, { timeout: 15_000 }).toBe(before);
    await page.keyboard.press('Control+1');
  });

  test('a number that was taken out of a drawing is missed', async () => {
    const [before, whole] = [await counts(), readFileSync(at(FIGURE), 'utf8')];
    writeFileSync(at(FIGURE), whole.replace('>2</text>', '></text>'));
    await expect.poll(counts, { timeout: 15_000 }).not.toBe(before);
    writeFileSync(at(FIGURE), whole);
    await expect.poll(counts, { timeout: 15_000 }).toBe(before);
  });

  test('one that went is missed, one that came is there, for the print too', async () => {
    const [before, whole] = [await counts(), readFileSync(at(FIGURE))];
    rmSync(at(FIGURE));
    await expect.poll(counts, { timeout: 15_000 }).toMatch(/^1 error,/);
    writeFileSync(at('figures/pump-photo.png'), pictureFile('rgb.png'));
    writeFileSync(at(PROCEDURE), desk.onDisk(PROCEDURE).replace(FIGURE, 'figures/pump-photo.png'));
    await expect.poll(counts, { timeout: 15_000 }).toBe(before);
    await page.keyboard.press('Control+3');
    await page
      .locator('.settings label:has-text("Document") select')
      .first()
      .selectOption({ label: await titleOf('OM-3160') });
    await page.waitForSelector('text=Nothing stands in the way of printing');
    await page.click('.write-foot button.main');
    await page.waitForSelector('.foot [role=status]:has-text("Written:")', { timeout: 60_000 });
    // Put back, so that nothing is left to be found.
    writeFileSync(at(FIGURE), whole);
  });

  const titleOf = (number: string): Promise<string> =>
    page.evaluate<string>(
      `[...document.querySelectorAll('.settings option')].map((one) => one.textContent).find((one) => one.startsWith(${JSON.stringify(number)}))`,
    );

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
