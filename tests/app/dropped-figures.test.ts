/**
 * Files dragged from the desktop into the text, as the browser itself brings them: each is asked for its words, a broken one is refused by name, and
 * one whose name is taken keeps both. Begun by the browser's own drag (Chrome DevTools Protocol, Input.dispatchDragEvent), because an event made in
 * the page carries files that no disk holds.
 */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser, save } from '../support/desk.ts';
import { pictureFile } from '../support/figures.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';
const drawing = (ink: string) =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20"><rect width="40" height="20" fill="${ink}"/></svg>`;

describe.skipIf(!hasBrowser())('a figure dragged from the desktop', () => {
  let desk: Desk;
  let page: Page;
  const desktop = mkdtempSync(join(tmpdir(), 'handsclear-desktop-'));
  const kept = (name: string): string => join(desktop, name);
  afterAll(() => rmSync(desktop, { recursive: true, force: true }));
  atDesk({ noTour: true, procedures: /OM-3140/ }, (own) => {
    ({ desk, page } = own);
  });
  beforeAll(async () => {
    await page.click('.library .entry:has-text("OM-3140")');
    await checked(page);
    writeFileSync(kept('tray.svg'), drawing('#ccc'));
    writeFileSync(kept('pump-bay.svg'), drawing('#c00'));
    writeFileSync(kept('gauge.png'), pictureFile('rgb.png'));
    writeFileSync(kept('torn.png'), pictureFile('rgb.png').subarray(0, 60));
    writeFileSync(kept('notes.txt'), 'no picture');
  });

  async function drag(line: string, ...names: string[]): Promise<void> {
    const at = page.locator(`.sheet-text .view-line:has-text(${JSON.stringify(line)})`).first();
    const box = await at.boundingBox();
    if (box === null) throw new Error(`${line} is not in sight.`);
    const [x, y] = [box.x + 60, box.y + box.height / 2];
    const browser = await page.context().newCDPSession(page);
    const data = { items: [], files: names.map(kept), dragOperationsMask: 1 };
    for (const type of ['dragEnter', 'dragOver', 'drop'] as const) await browser.send('Input.dispatchDragEvent', { type, x, y, data });
    await browser.detach();
    await page.waitForSelector('.over .figure-row');
  }
  async function find(line: string): Promise<void> {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', line);
    await page.click('.found li:has-text("OM-3140") button');
    await page.click('.over header button');
    await page.waitForSelector(`.sheet-text .view-line:has-text(${JSON.stringify(line)})`);
  }
  const alt = (index: number) => page.locator('.over input[aria-label="What the picture shows"]').nth(index);
  const shown = async () => Promise.all((await page.locator('.over .figure-row select').all()).map((one) => one.inputValue()));
  const refused = () => page.locator('.over .wrong[role=alert]').allInnerTexts();
  const foot = () => page.innerText('.foot [role=status]');
  const text = (path: string) => readFileSync(join(desk.folder, path), 'utf8');
  async function putIn(): Promise<void> {
    await page.click('.over button.main');
    await page.waitForSelector('.over', { state: 'detached' });
    await checked(page);
  }

  test('is asked for its words; what is no picture or broken is refused by name, the others stand', async () => {
    await find('Wait 10 min');
    await drag('Wait 10 min', 'tray.svg', 'gauge.png', 'torn.png', 'notes.txt');
    await expect.poll(shown).toEqual(['figures/tray.svg', 'figures/gauge.png']);
    expect(await refused()).toEqual([
      'torn.png cannot be shown: it is damaged or cut short. It was not added.',
      'notes.txt is no picture that can be printed. SVG, PNG and JPEG are.',
    ]);
    // Nothing is put in while one has no words.
    await alt(0).fill('The drip tray');
    expect(await page.isDisabled('.over button.main')).toBe(true);
    await alt(1).fill('The gauge');
    // Only what comes is shown: the step that it comes behind does not change.
    await page.waitForSelector('.over .preview ins:has-text("![The gauge](figures/gauge.png)")');
    expect(await page.locator('.over .preview del').count()).toBe(0);
    await putIn();
    await page.waitForSelector('.proof canvas');
    await save(page);
    expect(desk.onDisk(LIP)).toMatch(/Wait 10 min[^\n]*\n\n {3}!\[The drip tray\][^\n]*\n\n {3}!\[The gauge\][^\n]*\n\n9\. /);
    expect(text('figures/tray.svg')).toBe(drawing('#ccc'));
    expect(existsSync(join(desk.folder, 'figures/torn.png'))).toBe(false);
  });

  test('taken back it is told that both stay, and done again that is no longer said nor offered', async () => {
    await page.click('.sheet-text');
    await page.keyboard.press('Control+z');
    await expect.poll(foot).toMatch(/tray\.svg, gauge\.png: no text shows them now\. They stay in the library\.\s+Remove them/);
    await page.keyboard.press('Control+y');
    await expect.poll(foot).toMatch(/^Done again in OM-3140/);
    expect(await page.locator('.foot [role=status] button').count()).toBe(0);
    await checked(page);
  });

  test('where the only one is refused no other picture is taken for it', async () => {
    await drag('Wait 10 min', 'torn.png');
    await expect.poll(refused).toEqual(['torn.png cannot be shown: it is damaged or cut short. It was not added.']);
    expect(await shown()).toEqual(['']);
    await alt(0).fill('The lip');
    expect(await page.isDisabled('.over button.main')).toBe(true);
    await page.keyboard.press('Escape');
  });

  test('whose name another figure has is taken under a free one, and the other stays as it is', async () => {
    const before = text('figures/pump-bay.svg');
    await drag('Wait 10 min', 'pump-bay.svg');
    await page.click('.over .wrong button:has-text("Add pump-bay.svg as pump-bay-2.svg")');
    await expect.poll(shown).toEqual(['figures/pump-bay-2.svg']);
    expect(await refused()).toEqual([]);
    await alt(0).fill('The pump bay in red');
    await putIn();
    await save(page);
    expect(desk.onDisk(LIP)).toContain('![The pump bay in red](figures/pump-bay-2.svg)');
    expect(text('figures/pump-bay.svg')).toBe(before);
    expect(text('figures/pump-bay-2.svg')).toBe(drawing('#c00'));
  });

  test('and the page had nothing to complain of but the name that was refused', () =>
    expect(desk.complaints).toEqual([expect.stringMatching(/^400 .*figure\.write$/)]));
});
