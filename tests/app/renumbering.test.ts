/** A procedure made from another one and given another number in a real browser: what names it follows, and what was said of it in review goes along. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser, save } from '../support/desk.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';

describe.skipIf(!hasBrowser())('another number', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ noTour: true, opens: 'OM-3140', procedures: /OM-31/ }, (own) => {
    ({ desk, page } = own);
  });
  const foot = () => page.innerText('.foot [role=status]');
  async function find(text: string): Promise<void> {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', text);
    await page.click('.found li button >> nth=0');
    await page.click('.over header button');
  }

  test('a copy of a procedure for the same models is clean at once, and is printed', async () => {
    await page.keyboard.press('Control+F8');
    await page.fill('.over input[aria-label^="Title"]', 'Renew the lip hinge');
    await page.selectOption('.over label:has-text("Begin from") select', 'OM-3140');
    for (const model of ['DL-20', 'DL-25', 'DL-30']) await page.check(`.over label.tick:has-text("${model}") input`);
    await page.click('.over button.main');
    await page.waitForSelector('.sheet-head h1:has-text("Renew the lip hinge")');
    await checked(page);
    expect(await foot()).toMatch(/A copy of OM-3140: read every step beside the machine/);
    expect(await page.innerText('.counts')).toMatch(/^0 errors/);
    await save(page);
    await page.keyboard.press('Control+3');
    await page.waitForSelector('.settings button:has-text("Write the PDF"):enabled');
    await page.click('.settings button:has-text("Write the PDF")');
    await page.waitForSelector('.foot [role=status]:has-text("Written:")', { timeout: 60_000 });
    const path = (await foot()).replace('Written: ', '').trim();
    expect(path).toContain(/OM-3\d+/.exec(await page.innerText('.settings label:has-text("Document") option:checked'))?.[0]);
    expect(readFileSync(path).subarray(0, 5).toString('latin1')).toBe('%PDF-');
    await page.keyboard.press('Control+1');
  });

  test('remarks go along with a number that is changed everywhere, and come back with it', async () => {
    await page.click('.library .entry:has-text("OM-3140")');
    await find('Wait 10 min');
    await page.keyboard.press('Control+Shift+K');
    await page.fill('.over input[aria-label="What is to be asked or changed"]', 'Why 10 minutes?');
    await page.fill('.over input[size="6"]', 'AB');
    await page.click('.over button.main');
    await page.waitForSelector('.note-remark:has-text("Why 10 minutes?")');
    await save(page);
    await find('id: OM-3140');
    await page.keyboard.press('End');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Control+Shift+R');
    await page.waitForSelector('.over:has-text("OM-3140")');
    await page.fill('.over input', 'OM-3190');
    await page.click('.over button[type=submit]');
    await page.click('.preview button.main');
    await page.waitForSelector('.sheet-head h1:has-text("OM-3190")');
    await checked(page);
    expect(await page.innerText('.counts')).toMatch(/^0 errors/);
    await find('Wait 10 min');
    await page.waitForSelector('.note-remark:has-text("Why 10 minutes?")');
    await save(page);
    expect(desk.onDisk(LIP)).toContain('id: OM-3190');
    expect(desk.onDisk('registers/symptoms.yaml')).not.toContain('OM-3140');
    expect(desk.onDisk('review/OM-3190.yaml')).toMatch(/^# Review of OM-3190:[\s\S]*Why 10 minutes\?/);
    // The next procedure of the old number begins with nothing.
    expect(desk.onDisk('review/OM-3140.yaml')).not.toContain('remarks:');
    await page.click('.sheet-text');
    await page.keyboard.press('Control+z');
    await page.waitForSelector('.sheet-head h1:has-text("OM-3140")');
    await find('Wait 10 min');
    await page.waitForSelector('.note-remark:has-text("Why 10 minutes?")');
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
