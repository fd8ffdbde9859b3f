/** Whether everyone can use the page: axe-core in each view, contrast of the inks, the keyboard alone, 200 percent, forced colours. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checked, type Desk, hasBrowser, launch, sitDown } from '../support/desk.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
/** WCAG 2.2 levels A and AA by the names axe-core gives them. */
const LEVELS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

async function faults(page: Page): Promise<readonly string[]> {
  // Evaluated through the debugger, so that the page's own policy stays as strict as it is for users.
  await page.evaluate(`(() => { ${axe} })()`);
  const found = await page.evaluate<{ violations: readonly Violation[] }>(
    `axe.run(document, { runOnly: { type: 'tag', values: ${JSON.stringify(LEVELS)} } })`,
  );
  return found.violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)} ${failureSummary}`),
  );
}

describe.skipIf(!hasBrowser())('for everyone', () => {
  let browser: Browser;
  let desk: Desk;
  let page: Page;
  beforeAll(async () => {
    browser = await launch();
    desk = await sitDown(browser);
    page = desk.page;
  });
  afterAll(async () => {
    await desk?.close();
    await browser?.close();
  });

  test('Write', async () => {
    await page.click('.library .entry:has-text("OM-3140")');
    await page.waitForSelector('.notes .reading');
    expect(await faults(page)).toEqual([]);
  });

  test('Write with an open menu, and with the sheet for finding', async () => {
    await page.click('.menu button');
    expect(await faults(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+Shift+L');
    await page.keyboard.type('isolator');
    await page.waitForSelector('.found li');
    expect(await faults(page)).toEqual([]);
    await page.keyboard.press('Escape');
  });

  test('Write with the strip for finding and its marks', async () => {
    await page.click('.sheet-text');
    await page.keyboard.press('Control+h');
    await page.keyboard.type('isolator');
    await page.waitForSelector('.sheet-text .found-here');
    expect(await faults(page)).toEqual([]);
    await page.keyboard.press('Escape');
  });

  test('Review, each of its parts', async () => {
    await page.keyboard.press('Control+2');
    const parts = await page.locator('.sub button').count();
    expect(parts).toBeGreaterThan(2);
    for (let index = 0; index < parts; index += 1) {
      await page.locator('.sub button').nth(index).click();
      await page.waitForTimeout(300);
      expect(await faults(page), await page.locator('.sub button').nth(index).innerText()).toEqual([]);
    }
  });

  test('Print', async () => {
    await page.keyboard.press('Control+3');
    await page.waitForSelector('.page-canvas');
    expect(await faults(page)).toEqual([]);
  });

  test('the three views and every menu are reached from the keyboard, and the caret is never trapped', async () => {
    await page.keyboard.press('Control+1');
    const seen = new Set<string>();
    await page.locator('.menu button').first().focus();
    for (let times = 0; times < 14; times += 1) {
      seen.add(await page.evaluate<string>('document.activeElement.textContent'));
      await page.keyboard.press('Tab');
    }
    for (const name of ['File', 'Edit', 'Insert', 'Write', 'Review', 'Print']) expect([...seen]).toContain(name);
  });

  test('at 200 percent (a page half as wide) nothing is cut off sideways, as WCAG 2.2 1.4.10 asks', async () => {
    await page.setViewportSize({ width: 640, height: 400 });
    for (const key of ['Control+1', 'Control+2', 'Control+3']) {
      await page.keyboard.press(key);
      await page.waitForTimeout(200);
      const [whole, seen] = await page.evaluate<[number, number]>(
        '[document.documentElement.scrollWidth, document.documentElement.clientWidth]',
      );
      expect(whole, key).toBeLessThanOrEqual(seen);
    }
    await page.setViewportSize({ width: 1280, height: 800 });
  });

  test('in forced colours (high contrast) the views still stand and grades keep their shapes', async () => {
    const other = await sitDown(browser, { forced: true });
    try {
      await checked(other.page);
      await other.page.keyboard.press('Control+2');
      await other.page.waitForSelector('.list .entry');
      expect(await other.page.innerText('.list')).toMatch(/[■▲○]/);
      expect(await faults(other.page)).toEqual([]);
      // A tick is seen, as without forced colours.
      for (const one of [other.page, page]) {
        await one.keyboard.press('Control+Shift+L');
        const box = one.locator('.over').getByRole('checkbox', { name: 'Match case' });
        const empty = await box.screenshot();
        await box.check();
        await one.click('.over input[type=search]');
        expect((await box.screenshot()).equals(empty)).toBe(false);
        await one.keyboard.press('Escape');
      }
    } finally {
      await other.close();
    }
  });

  test('the second language is there whole', async () => {
    const other = await sitDown(browser, { language: 'de-DE' });
    try {
      expect(await other.page.innerText('.views')).not.toMatch(/Write/);
      expect(await other.page.getAttribute('.page', 'lang')).toBe('de');
      await other.page.click('.menus button:has-text("Bearbeiten")');
      const items = (await other.page.locator('[role=menu] [role=menuitem]').allInnerTexts()).map((one) => one.replace(/\s+/g, ' '));
      expect(items).toContain('Kopieren Strg+C');
      expect(items).toContain('Vorige Fundstelle Umschalt+F3');
      await other.page.keyboard.press('Escape');
      // What a machine is, a text is not.
      await other.page.click('.sheet-text');
      await other.page.keyboard.type('x');
      await other.page.waitForSelector('.head :text-is("1 Text nicht gespeichert")');
    } finally {
      await other.close();
    }
  });
});
