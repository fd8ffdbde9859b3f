/** A writer's day in a real browser: open, break, understand, mend, complete, rename, find, save, and the file on disk afterwards. */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { root } from '../../cli/setup.mjs';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser, save } from '../support/desk.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';

describe.skipIf(!hasBrowser())('a writer', () => {
  let desk: Desk;
  let page: Page;
  atDesk({}, (own) => {
    ({ desk, page } = own);
  });

  const open = (number: string) => page.click(`.library .entry:has-text("${number}")`);
  const counts = () => page.innerText('.counts');
  const titleAndNotes = async () =>
    `${await page.innerText('.sheet-head h1')}\n${(await page.locator('.note').allInnerTexts()).join('\n')}`;
  /** Puts the caret on what was found, as a user would: find, click, close. */
  async function goToText(text: string, file: string): Promise<void> {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', text);
    await page.click(`.found li:has-text("${file}") button`);
    await page.click('.over header button');
  }

  test('opens on the sample library, clean, with every machine in the list', async () => {
    expect(await counts()).toMatch(/^0 errors, 0 warnings/);
    for (const family of ['extraction fan', 'vertical baler', 'dock leveller', 'steam press'])
      expect(await page.innerText('.library')).toContain(family);
    expect(await page.innerText('.cautions')).toMatch(/does not make a machine safe/);
  });

  test('takes a lock out: the margin says who gets hurt, and the walk there leads to its steps', async () => {
    await open('OM-3140');
    await goToText('Put your lock', 'OM-3140');
    for (const key of ['Home', 'Shift+End', 'Delete', 'Delete']) await page.keyboard.press(key);
    await checked(page);
    expect(await counts()).not.toMatch(/^0 errors/);
    expect(await titleAndNotes()).toMatch(/refuted[\s\S]*Hands in the pit[\s\S]*not locked/);
    // The page beside it does not look as if it could be issued.
    expect(await page.innerText('.proof-side > h2')).toMatch(/not to be issued: \d+ error/);
    // The verdict leads to where it goes wrong, and the state there stands on a line of its own.
    await page.click('.sheet-head .verdict button');
    await expect.poll(() => page.innerText('.note-here')).toContain('Hands in the pit');
    await page.waitForSelector('.state-here:has-text("take it as live")');
    await page.click('.views button:nth-child(2)');
    await page.click('.list .entry:has-text("Hands in the pit")');
    expect(await page.locator('.counter-walk li').count()).toBeGreaterThan(3);
    await page.click('.views button:nth-child(1)');
  });

  test('undoes it from the keyboard, and everything is as it was', async () => {
    await page.click('.sheet-text');
    for (let times = 0; times < 4 && !(await counts()).startsWith('0 errors'); times += 1) {
      await page.keyboard.press('Control+z');
      await checked(page);
    }
    expect(await counts()).toMatch(/^0 errors, 0 warnings/);
    expect(await page.locator('.entry-state:has-text("not saved")').count()).toBe(0);
  });

  test('is offered the names of the library while typing one', async () => {
    await goToText('Send everyone off the platform and out of the pit.', 'OM-3140');
    await page.keyboard.press('End');
    await page.keyboard.type(' Look at the [ser', { delay: 20 });
    // The list is ranked again at each letter: it is taken when the name stands first.
    await page.waitForSelector('.suggest-widget .monaco-list-row.focused:has-text("service strut")');
    await page.keyboard.press('Enter');
    await page.keyboard.type('.');
    await checked(page);
    await save(page);
    // Written back: that one line, and nothing else.
    const [was, is] = [readFileSync(join(root, 'sample-procedures', LIP), 'utf8'), desk.onDisk(LIP)];
    expect(is.replace(/ Look at the \[service strut\]\./, '')).toBe(was);
    expect(is).not.toBe(was);
  });

  test('renames a thing everywhere after seeing where', async () => {
    await goToText('[raise button]', 'OM-3140');
    await page.keyboard.press('ArrowLeft');
    for (let times = 0; times < 4; times += 1) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Control+Shift+R');
    await page.fill('.over input', 'lifting button');
    await page.click('.over button[type=submit]');
    const shown = await page.innerText('.preview');
    expect(shown).toContain('lifting button');
    await page.click('.preview button.main');
    await checked(page);
    expect(await counts()).toMatch(/^0 errors/);
    await save(page);
    expect(desk.onDisk(LIP)).toContain('[lifting button]');
    expect(desk.onDisk(LIP)).not.toContain('[raise button]');
    const check = spawnSync(process.execPath, [join(root, 'cli/handsclear.mjs'), 'check', desk.folder], { encoding: 'utf8' });
    expect(check.stdout).toMatch(/0 errors/);
  });

  test('finds text in all files and replaces it after seeing where', async () => {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', 'dock staff');
    await page.fill('.over .row:nth-of-type(2) input', 'dock crew');
    await page.click('.over .row:nth-of-type(2) button');
    await page.click('.preview button.main');
    await checked(page);
    await page.keyboard.press('Escape');
    expect(await page.locator('.entry-state:has-text("not saved")').count()).toBeGreaterThan(0);
    await page.keyboard.press('Control+z');
    await checked(page);
    expect(await page.locator('.entry-state:has-text("not saved")').count()).toBe(0);
  });

  test('sees the printed page of the step at the caret', async () => {
    const at = () => page.innerText('.proof figcaption');
    await goToText('swing the [service strut]', 'OM-3140');
    await page.waitForTimeout(400);
    const there = await at();
    await goToText('Tell the dock staff that the leveller is going', 'OM-3140');
    await page.waitForTimeout(400);
    // As it stands on the paper, and which of all leaves it is.
    expect(there).toMatch(/^‹\s*Page \d+, leaf \d+ of \d+\s*›$/);
    expect(Number(/leaf (\d+)/.exec(there)?.[1])).toBeGreaterThan(Number(/Page (\d+)/.exec(there)?.[1]));
    expect(await at()).not.toBe(there);
  });

  test('sees a picture that was drawn anew by another program', async () => {
    await goToText('Drive out the two', 'OM-3140');
    const drawn = () => page.evaluate<string>('document.querySelector(".proof canvas").toDataURL()');
    const figure = join(desk.folder, 'figures/lip-cylinder-place.svg');
    await page.waitForTimeout(800);
    const before = await drawn();
    writeFileSync(
      figure,
      '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 100"><rect x="10" y="10" width="180" height="80" fill="#000"/></svg>',
    );
    await expect.poll(drawn).not.toBe(before);
  });

  test('is asked when a file changes on disk under unsaved text, and neither text is lost', async () => {
    const theirs = desk.onDisk(LIP).replace('From the dock, swing', 'From the dock edge, swing');
    await goToText('Tell the dock staff that the platform is about', 'OM-3140');
    await page.keyboard.press('End');
    await page.keyboard.type(' Mine.');
    await checked(page);
    writeFileSync(join(desk.folder, LIP), theirs);
    await page.waitForSelector('.band-message:has-text("changed on disk")');
    await page.keyboard.press('Control+s');
    await page.waitForTimeout(300);
    expect(desk.onDisk(LIP)).toBe(theirs);
    await page.click('.band-message button:has-text("Take the text on disk")');
    await checked(page);
    await page.keyboard.press('Control+z');
    await checked(page);
    await goToText('Mine.', 'OM-3140');
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
