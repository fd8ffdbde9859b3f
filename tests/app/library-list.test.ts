/** The list of the library at a glance: by guide, and beside each document its verdict, its signature and its open remarks, also without a mouse. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, clickLine, type Desk, hasBrowser } from '../support/desk.ts';

const GUIDE = 'guides/OM-8010-leveller-and-baler.md';

describe.skipIf(!hasBrowser())('the list of the library', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ opens: 'OM-3140' }, (own) => {
    ({ desk, page } = own);
  });

  const lip = () => page.locator('.library .entry:has-text("OM-3140")').first();
  /** What somebody hears of the line. */
  const heard = () => lip().locator('.said-only').last().innerText();
  const marks = () => lip().locator('.entry-marks svg').count();
  const caption = () => page.innerText('.library-caption');

  test('by guide: as each guide binds them in, and what is in no guide by itself', async () => {
    writeFileSync(join(desk.folder, GUIDE), desk.onDisk(GUIDE).replace(/^- \[OM-3160\]\n/m, ''));
    await page.click('.orders button:has-text("by guide")');
    await page.waitForSelector('.library h3:has-text("In no guide")');
    const shelf = page.locator('.library section', { hasText: 'OM-8010' }).first();
    const numbers = await shelf.locator('.entry-number').allInnerTexts();
    expect(numbers.slice(0, 3)).toEqual(['OM-8010', 'OM-3140', 'OM-3150']);
    const loose = page.locator('.library section', { has: page.locator('h3:has-text("In no guide")') });
    expect(await loose.locator('.entry-number').allInnerTexts()).toEqual(['OM-3160']);
    await page.click('.orders button:has-text("by symptom")');
    await page.click('.orders button:has-text("by machine")');
  });

  test('of a procedure: proved and signed by nobody, by shape and in words', async () => {
    expect(await marks()).toBe(2);
    expect(await heard()).toMatch(/proved, nobody has signed/);
    // The title says which line it is, so it comes before all that is said of it.
    const name = /^OM-3140 Check the lip cylinder for drift and renew its seal \(proved, nobody has signed\)/;
    expect(await page.getByRole('button', { name }).count()).toBe(1);
    await lip().hover();
    await expect.poll(caption).toMatch(/OM-3140\s+proved\s+nobody has signed/);
  });

  test('a remark is counted as soon as it is made', async () => {
    await clickLine(page, 'Wait 10 min');
    await page.keyboard.press('Control+Shift+K');
    await page.fill('.over input[aria-label^="What is to be asked"]', 'Why ten?');
    await page.fill('.over label:has-text("Initials") input', 'AB');
    await page.click('.over button.main');
    await expect.poll(heard).toMatch(/1 remark is open/);
    expect(await marks()).toBe(3);
  });

  test('signed it is fresh; with a word changed it is stale; the caption says so to whoever comes by keyboard', async () => {
    await page.keyboard.press('Control+2');
    await page.click('.sub button:has-text("Sign-off")');
    await page.fill('input[list=parts-played]', 'writer');
    await page.click('button:has-text("Sign this text")');
    await page.waitForSelector('.signatures li');
    await page.keyboard.press('Control+1');
    await expect.poll(heard).toMatch(/proved, signed as it stands/);
    await clickLine(page, 'Wait 10 min');
    await page.keyboard.press('End');
    await page.keyboard.type(' Then go on.');
    await checked(page);
    await expect.poll(heard).toMatch(/signed, and changed since/);
    await page.focus('.library .entry:has-text("OM-1110")');
    await expect.poll(caption).toMatch(/^OM-1110/);
    await lip().focus();
    await expect.poll(caption).toMatch(/^OM-3140[\s\S]*signed, and changed since/);
    expect(desk.complaints).toEqual([]);
  });

  test('shows only what somebody asks for: with open remarks, not signed, not saved', async () => {
    const listed = () => page.locator('.library .entry-number').allInnerTexts();
    const choose = (label: string) => page.selectOption('.library select', { label });
    await choose('with open remarks');
    expect(new Set(await listed())).toEqual(new Set(['OM-3140']));
    await choose('not saved');
    expect(await listed()).toContain('OM-3140');
    await choose('with errors or warnings');
    await choose('not proved');
    expect(await page.innerText('.library')).toContain('There is none.');
    await choose('all documents');
    expect((await listed()).length).toBeGreaterThan(16);
  });

  test('is folded by machine, and what is looked for is never hidden by it', async () => {
    const head = page.locator('.shelf-head:has-text("dock leveller")');
    await head.click();
    expect(await head.getAttribute('aria-expanded')).toBe('false');
    expect(await page.locator('.library .entry:has-text("OM-3150")').count()).toBe(0);
    await page.fill('.library input[type=search]', 'filter oil bleed');
    expect(await page.locator('.library .entry-number').allInnerTexts()).toEqual(['OM-3150']);
    await page.fill('.library input[type=search]', '');
    await head.click();
    expect(await page.locator('.library .entry:has-text("OM-3150")').count()).toBe(1);
  });

  test('by keys: Mod+F9 looks for a document from anywhere, Enter opens it; arrows go through the lines, and Tab leaves them', async () => {
    await page.keyboard.press('Control+2');
    await page.keyboard.press('Control+F9');
    await page.keyboard.type('damper');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.sheet-head h1:has-text("OM-1130")');
    await page.keyboard.press('Control+F9');
    await page.keyboard.press('Escape');
    expect(await page.inputValue('.library input[type=search]')).toBe('');
    expect(await page.locator('.entry[aria-current=true]').first().innerText()).toContain('OM-1130');
    const focused = () => page.evaluate<string>('document.activeElement?.innerText ?? ""');
    await page.focus('.library .entry[aria-current=true]');
    await page.keyboard.press('ArrowUp');
    expect(await focused()).toContain('OM-1120');
    await page.keyboard.press('Home');
    expect(await focused()).toMatch(/extraction fan/);
    await page.focus('.library .entry[aria-current=true]');
    await page.keyboard.press('Tab');
    expect(await page.evaluate('document.activeElement?.closest(".library") === null')).toBe(true);
    expect(desk.complaints).toEqual([]);
  });

  test('the text that is open is in sight in the list, from wherever one comes to it', async () => {
    const inSight = () =>
      page.evaluate<boolean>(`(() => {
        const list = document.querySelector('.library-lines').getBoundingClientRect();
        const line = document.querySelector('.library .entry[aria-current=true]').getBoundingClientRect();
        return line.top >= list.top - 1 && line.bottom <= list.bottom + 1;
      })()`);
    await page.keyboard.press('Control+F9');
    await page.keyboard.type('OM-6120');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.sheet-head h1:has-text("OM-6120")');
    await page.keyboard.press('Control+F9');
    await page.keyboard.press('Escape');
    await expect.poll(inSight).toBe(true);
    await page.keyboard.press('Control+2');
    await page.waitForSelector('.sub');
    await page.keyboard.press('Control+1');
    await page.waitForSelector('.library .entry[aria-current=true]');
    await page.waitForTimeout(300);
    expect(await inSight()).toBe(true);
  });
});
