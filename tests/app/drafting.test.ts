/** Drafting in a real browser: a new procedure, its front matter as a form, a measurement, a figure, a new name; and unsaved text found again. */
import { mkdtempSync, readdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser, save } from '../support/desk.ts';

describe.skipIf(!hasBrowser())('drafting', () => {
  let desk: Desk;
  let page: Page;
  const data = mkdtempSync(join(tmpdir(), 'handsclear-data-'));
  atDesk({ data }, (own) => {
    ({ desk, page } = own);
  });
  const drafted = () => readdirSync(join(desk.folder, 'procedures')).find((name) => name.includes('renew-the-door-gasket')) ?? '';

  test('a new procedure begins from another and gets the next number', async () => {
    await page.keyboard.press('Control+F8');
    await page.fill('.over input[aria-label^="Title"]', 'Renew the door gasket');
    await page.check('.over label:has-text("SP-90") input');
    await page.click('.over button.main');
    await page.waitForSelector('.sheet-head h1:has-text("Renew the door gasket")');
    // All that is to be thought of now is said, and takes no third of the window for it.
    expect((await page.innerText('.foot [role=status]')).length).toBeGreaterThan(150);
    expect((await page.locator('.foot').boundingBox())?.height).toBeLessThan(110);
    await save(page);
    expect(drafted()).toMatch(/^OM-4\d\d\d-renew-the-door-gasket\.md$/);
    expect(desk.onDisk(`procedures/${drafted()}`)).toContain('title: Renew the door gasket');
  });

  test('another one gets the number that the writer gives it, unless it is taken', async () => {
    await page.keyboard.press('Control+F8');
    await page.fill('.over input[aria-label^="Title"]', 'Renew the steam trap');
    await page.check('.over label:has-text("SP-90") input');
    const number = page.locator('.over label:has-text("Number") input');
    await expect.poll(() => number.getAttribute('placeholder')).toMatch(/^OM-4\d\d\d$/);
    await number.fill('OM-3140');
    await page.click('.over button.main');
    await page.waitForSelector('.over .wrong:has-text("OM-3140 is taken.")');
    await number.fill('OM-4990');
    await page.click('.over button.main');
    await page.waitForSelector('.sheet-head h1:has-text("OM-4990 Renew the steam trap")');
    await page.keyboard.press('Control+z');
    await checked(page);
    await page.click('.library .entry:has-text("Renew the door gasket")');
    expect(await page.getAttribute('.page', 'data-unsaved')).toBe('0');
  });

  test('its front matter is filled in as a form, and the text says the same', async () => {
    await page.keyboard.press('Control+Shift+F');
    await page.fill('.over input[aria-label="people"]', '2');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Escape');
    await save(page);
    expect(desk.onDisk(`procedures/${drafted()}`)).toMatch(/^people: "?2"?$/m);
  });

  test('what a line of a list says besides its name is changed there, and a line that says only its name is made to say more', async () => {
    const path = 'procedures/OM-1110-fan-shake.md';
    const before = desk.onDisk(path);
    await page.click('.library .entry:has-text("OM-1110")');
    await page.waitForSelector('.sheet-head h1:has-text("OM-1110")');
    await page.keyboard.press('Control+Shift+F');
    await page.waitForSelector('.over input[aria-label="feeler gauges: only for"], .over button[aria-label^="Say more of feeler gauges"]');
    await page.fill('.over input[aria-label="spare impeller: note"]', 'only if a blade is bent');
    await page.keyboard.press('Tab');
    await page.click('.over button[aria-label^="Say more of feeler gauges"]');
    await page.fill('.over input[aria-label="feeler gauges: only for"]', 'EF-450, EF-630');
    await page.keyboard.press('Tab');
    // The line is one with fields now, and its own fields stay.
    await page.waitForSelector('.over input[aria-label="feeler gauges: only for"]');
    await expect.poll(() => page.inputValue('.over input[aria-label="feeler gauges: only for"]')).toBe('EF-450, EF-630');
    await page.keyboard.press('Escape');
    await save(page);
    const wanted = before
      .replace('note: only if a blade is cracked', 'note: only if a blade is bent')
      .replace('  - feeler gauges\n', '  - name: feeler gauges\n    models:\n      - EF-450\n      - EF-630\n');
    expect(desk.onDisk(path)).toBe(wanted);
    await checked(page);
  });

  test('a measurement goes in with its limits table and its branches', async () => {
    await page.click('.library .entry:has-text("OM-6110")');
    await page.waitForSelector('.sheet-head h1:has-text("OM-6110")');
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', 'Tell the ');
    await page.click('.found li:has-text("OM-6110") button');
    await page.click('.over header button');
    await page.keyboard.press('Control+Shift+M');
    await page.fill('.over input[aria-label="What is measured"]', 'guard gap');
    await page.fill('.over .limits-form tbody tr:first-child td:nth-child(2) input', '0.5 mm');
    await page.fill('.over .limits-form tbody tr:first-child td:nth-child(3) input', '1.5 mm');
    await page.click('.over button.main');
    await checked(page);
    await save(page);
    const text = desk.onDisk(`procedures/${readdirSync(join(desk.folder, 'procedures')).find((name) => name.startsWith('OM-6110'))}`);
    expect(text).toMatch(/guard gap/);
    expect(text).toMatch(/\| SB-9 \| 0\.5 mm .*\| 1\.5 mm .*\|/);
    expect(text).toMatch(/within the limits/);
  });

  test('a picture dropped on the text is copied into the library and put in', async () => {
    const picture = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><rect width="10" height="10" fill="#ccc"/></svg>';
    const box = await page.locator('.sheet-text').boundingBox();
    await page.evaluate(
      `(() => {
        const transfer = new DataTransfer();
        transfer.items.add(new File([${JSON.stringify(picture)}], 'guard gap.svg', { type: 'image/svg+xml' }));
        const at = { bubbles: true, cancelable: true, dataTransfer: transfer, clientX: ${(box?.x ?? 0) + 80}, clientY: ${(box?.y ?? 0) + 120} };
        const target = document.elementFromPoint(at.clientX, at.clientY);
        target.dispatchEvent(new DragEvent('dragover', at));
        target.dispatchEvent(new DragEvent('drop', at));
      })()`,
    );
    await page.waitForSelector('.over select option:has-text("figures/guard-gap.svg")', { state: 'attached' });
    // It is seen before it is put in: names of files are easily mistaken.
    await expect.poll(() => page.evaluate('document.querySelector(".figure-shown img")?.naturalWidth ?? 0')).toBeGreaterThan(0);
    await page.fill('.over input[aria-label="What the picture shows"]', 'The guard gap, seen from the side');
    await page.click('.over button.main');
    await checked(page);
    await save(page);
    expect(desk.onDisk('figures/guard-gap.svg')).toBe(picture);
    const text = desk.onDisk(`procedures/${readdirSync(join(desk.folder, 'procedures')).find((name) => name.startsWith('OM-6110'))}`);
    expect(text).toContain('![The guard gap, seen from the side](figures/guard-gap.svg)');
    expect(await page.innerText('.notes')).not.toMatch(/guard-gap\.svg/);
  });

  test('a name no register knows is registered in one click', async () => {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', 'Tell the ');
    await page.click('.found li:has-text("OM-6110") button');
    await page.click('.over header button');
    await page.keyboard.press('End');
    await page.keyboard.type(' Clean the [spark screen].');
    await page.click('.settle button:has-text("Register as")');
    // The name is settled once the register has it: only then is there a register to save.
    await page.waitForSelector('.settle button:has-text("Register as")', { state: 'detached' });
    await checked(page);
    await save(page);
    expect(desk.onDisk('registers/equipment.yaml') + desk.onDisk('registers/tools.yaml') + desk.onDisk('registers/parts.yaml')).toContain(
      'spark screen',
    );
  });

  test('a word that no dictionary and no register has is marked; names of the library are not', async () => {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', 'Use this procedure when the cut end');
    await page.click('.found li:has-text("OM-6110") button');
    await page.click('.over header button');
    await page.keyboard.press('Home');
    await page.keyboard.type('The anvil is wron. ');
    await expect.poll(() => page.locator('.misspelt').allInnerTexts(), { timeout: 60_000 }).toEqual(['wron']);
  });

  test('and is written otherwise by a click on what is told when the mouse rests on it', async () => {
    await page.hover('.misspelt');
    await page.click('.monaco-hover a:text-is("wrong")');
    await expect.poll(() => page.innerText('.sheet-text .view-lines')).toMatch(/The.anvil.is.wrong\./);
    await expect.poll(() => page.locator('.misspelt').count()).toBe(0);
  });

  test('unsaved text is offered again after the page was killed, within a second of typing', async () => {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', 'Tell the ');
    await page.click('.found li:has-text("OM-6110") button');
    await page.click('.over header button');
    await page.keyboard.press('End');
    await page.keyboard.type(' Not saved yet.');
    await page.waitForSelector('.page:not([data-unsaved="0"])');
    await page.waitForTimeout(1000);
    // As a crash does: no question, no farewell.
    await desk.context.newPage().then(async (other) => {
      await page.close({ runBeforeUnload: false });
      await other.close();
    });
    page = await desk.another();
    await page.waitForSelector('.band-message:has-text("not saved")');
    await page.click('.band-message button.main');
    await page.waitForSelector('.entry-state:has-text("not saved")');
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', 'Not saved yet.');
    await page.waitForSelector('.found li');
  });
});
