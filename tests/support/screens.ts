/** `npm run screens`: takes the pictures of the app in README.md from the real page in a real browser, on a copy of the sample library. */
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { root } from '../../cli/setup.mjs';
import { checked, launch, sitDown } from './desk.ts';

const browser = await launch();
const desk = await sitDown(browser, { width: 1440, height: 900 });
const { page } = desk;
const shoot = (name: string): Promise<Buffer> => page.screenshot({ path: join(root, '.readme', `${name}.png`) });

await page.click('.tour button:has-text("Not now")');
await page.click('.library .entry:has-text("OM-3140")');
await toText(page, 'Put your lock');
for (const key of ['Home', 'Shift+End', 'Delete', 'Delete']) await page.keyboard.press(key);
await checked(page);
await toText(page, 'Hold the [raise button] for 5 s');
await page.waitForTimeout(1500);
await shoot('write');
await page.keyboard.press('Control+2');
await page.click('.list .entry:has-text("Hands in the pit")');
await page.click('.played button:has-text("From the beginning")');
for (let times = 0; times < 9; times += 1) await page.click('.played button:has-text("Step on")');
await shoot('review-walk');
await page.click('.sub button:has-text("Changes")');
await page.waitForSelector('.changes');
await shoot('review-changes');
await page.keyboard.press('Control+1');
await page.click('.sheet-text');
await page.keyboard.press('Control+z');
await page.keyboard.press('Control+z');
await checked(page);
await page.keyboard.press('Control+2');
await page.click('.sub button:has-text("Ways")');
await page.waitForSelector('.ways');
await shoot('review-ways');
await page.keyboard.press('Control+3');
await page.waitForSelector('.page-canvas');
await page.keyboard.press('Control+4');
await page.selectOption('select:has(option[value=many])', 'many');
await page.waitForTimeout(600);
await page.evaluate('document.querySelector(".pages").scrollTop = 700');
await page.waitForTimeout(1500);
await shoot('print');
await desk.close();
await browser.close();

async function toText(shown: Page, text: string): Promise<void> {
  await shown.keyboard.press('Control+Shift+L');
  await shown.fill('.over input[type=search]', text);
  await shown.click('.found li:has-text("OM-3140") button');
  await shown.click('.over header button');
}
