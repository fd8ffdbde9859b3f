/**
 * Every view and every sheet of the app as a picture, at the two sizes that most desks have, for somebody to look at:
 * `npx tsx tests/support/every-screen.ts FOLDER`.
 */
import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Page } from 'playwright-core';
import { checked, launch, sitDown } from './desk.ts';

const SIZES = [
  [1280, 800],
  [1920, 1080],
] as const;
const SHEETS: readonly string[] = ['Findings', 'Walk', 'Ways', 'Coverage', 'Changes', 'Remarks', 'Film', 'Sign-off'];
const MENUS: readonly string[] = ['File', 'Edit', 'Insert', 'At the caret', 'Views'];

const to = resolve(process.argv[2] ?? '.');
mkdirSync(to, { recursive: true });
const browser = await launch();
for (const [width, height] of SIZES) {
  const desk = await sitDown(browser, { width, height });
  await everyScreen(desk.page, (name) => desk.page.screenshot({ path: join(to, `${width}-${name}.png`) }));
  await desk.close();
}
await browser.close();

async function everyScreen(page: Page, shoot: (name: string) => Promise<unknown>): Promise<void> {
  await page.waitForTimeout(1500);
  await shoot('write-tour');
  await page.click('.tour button:has-text("Not now")');
  await page.click('.library .entry:has-text("OM-3140")');
  await page.waitForTimeout(1500);
  await shoot('write');
  for (const menu of MENUS) {
    const button = page.locator('.menus button', { hasText: menu }).first();
    if ((await button.count()) === 0) continue;
    await button.click();
    await shoot(`menu-${menu.toLowerCase().replaceAll(' ', '-')}`);
    await page.keyboard.press('Escape');
  }
  for (const [name, keys] of [
    ['find', 'Control+Shift+L'],
    ['find-here', 'Control+f'],
    ['keys', 'Control+k'],
  ] as const) {
    await page.keyboard.press(keys);
    await page.waitForTimeout(400);
    await shoot(`sheet-${name}`);
    await page.keyboard.press('Escape');
  }
  await broken(page);
  await shoot('write-refuted');
  await page.keyboard.press('Control+2');
  for (const sheet of SHEETS) {
    const tab = page.locator('.sub button', { hasText: sheet }).first();
    if ((await tab.count()) === 0) throw new Error(`Review has no ${sheet}.`);
    await tab.click();
    await page.waitForTimeout(1200);
    await shoot(`review-${sheet.toLowerCase()}`);
  }
  await page.keyboard.press('Control+3');
  await page.waitForSelector('.page-canvas');
  await page.waitForTimeout(1500);
  await shoot('print');
  await page.evaluate('document.querySelector(".pages").scrollTop = 2500');
  await page.waitForTimeout(1500);
  await shoot('print-further');
}

/** With a lock taken out, so that there is something to see. */
async function broken(page: Page): Promise<void> {
  await page.keyboard.press('Control+Shift+L');
  await page.fill('.over input[type=search]', 'Put your lock');
  await page.click('.found li:has-text("OM-3140") button');
  await page.click('.over header button');
  for (const key of ['Home', 'Shift+End', 'Delete', 'Delete']) await page.keyboard.press(key);
  await checked(page);
  await page.waitForTimeout(1500);
}
