/** What is put in by a form, in a real browser and from the keyboard: notices, steps with branches, several pictures; and what is refused. */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser, save, sitDown } from '../support/desk.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';
const DRAWING = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><rect width="10" height="10" fill="#ccc"/></svg>';

describe.skipIf(!hasBrowser())('a writer at the Insert menu', () => {
  let browser: Browser;
  let desk: Desk;
  let page: Page;
  atDesk({ noTour: true, opens: 'OM-3140' }, (own) => {
    ({ browser, desk, page } = own);
  });

  /** Puts the caret behind it. */
  async function goBehind(text: string): Promise<void> {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', text);
    await page.click('.found li:has-text("OM-3140") button');
    await page.click('.over header button');
    await page.keyboard.press('ArrowRight');
  }
  async function choose(item: string): Promise<void> {
    await page.focus('.menus button:has-text("Insert")');
    await page.keyboard.press('Enter');
    await page.focus(`[role=menuitem]:has-text("${item}")`);
    await page.keyboard.press('Enter');
  }
  const focused = () =>
    page.evaluate<string>('document.activeElement?.closest("label")?.innerText ?? document.activeElement?.ariaLabel ?? ""');

  test('says what endangers, what it does and how it is avoided, and sees the notice before it stands there', async () => {
    await goBehind('Send everyone off the platform');
    await choose('Warning notice');
    await page.waitForSelector('.over');
    expect(await focused()).toContain('What endangers');
    await page.keyboard.type('The lip has sharp edges');
    await page.keyboard.press('Tab');
    await page.keyboard.type('It can cut your fingers');
    await page.waitForSelector('.over .preview ins:has-text("It can cut your fingers.")');
    expect(await page.innerText('.over')).toContain('Say how it is avoided.');
    await page.keyboard.press('Tab');
    await page.keyboard.type('Wear work gloves.');
    await page.waitForSelector('.over .preview ins:has-text("Wear work gloves.")');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.over', { state: 'detached' });
    await checked(page);
    await save(page);
    expect(desk.onDisk(LIP)).toContain(':::warning\nThe lip has sharp edges. It can cut your fingers. Wear work gloves.\n:::\n');
  });

  test('takes a standing notice of the library, with its own signal word', async () => {
    await goBehind('Send everyone off the platform');
    await choose('Caution notice');
    await page.selectOption('.over select >> nth=0', 'falling platform');
    await page.waitForSelector('.over .preview ins:has-text(":::danger {use=")');
    await page.click('.over button.main');
    await checked(page);
    await save(page);
    expect(desk.onDisk(LIP)).toContain(':::danger {use="falling platform"}\nThe platform weighs 900 kg');
  });

  test('puts in a step with branches by keys alone', async () => {
    await goBehind('Send everyone off the platform');
    await page.keyboard.press('Control+Shift+Enter');
    await page.waitForSelector('.over');
    expect(await focused()).toContain('Step');
    for (const words of [
      'Look at the [service strut]',
      'it is bent',
      'stop and call for help',
      'it is straight',
      'go on with the next step',
    ]) {
      await page.keyboard.type(words);
      await page.keyboard.press('Tab');
    }
    await page.waitForSelector('.over .preview ins:has-text("If it is straight, go on with the next step.")');
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.over', { state: 'detached' });
    await checked(page);
    await save(page);
    expect(desk.onDisk(LIP)).toMatch(
      /\. Look at the \[service strut\]\.\n {3}- If it is bent, stop and call for help\.\n {3}- If it is straight, go on with the next step\.\n/,
    );
  });

  test('writes in the language of the text where the page has another, and says so', async () => {
    const german = await sitDown(browser, { language: 'de-DE' });
    try {
      const own = german.page;
      await own.click('.library .entry:has-text("OM-3140")');
      await own.waitForSelector('.notes .reading');
      await own.keyboard.press('Control+Shift+Enter');
      await own.waitForSelector('.over:has-text("werden auf Englisch gelesen")');
      expect(await own.innerText('.over')).toContain('Wenn (im Text: If …)');
      await own.fill('.over .field.stretched input >> nth=0', 'Look at the [service strut]');
      await own.fill('.over .branch-fields input >> nth=0', 'it is bent');
      await own.fill('.over .branch-fields input >> nth=1', 'stop and call for help');
      await own.waitForSelector('.over .preview ins:has-text("- If it is bent, stop and call for help.")');
    } finally {
      await german.close();
    }
    await page.keyboard.press('Control+Shift+Enter');
    await page.waitForSelector('.over');
    expect(await page.innerText('.over')).not.toMatch(/are read in/);
    await page.keyboard.press('Escape');
  });

  test('drops several files: pictures are put in with their words, what is none is refused by name and written nowhere', async () => {
    const box = await page.locator('.sheet-text').boundingBox();
    await page.evaluate(
      `(() => {
        const transfer = new DataTransfer();
        transfer.items.add(new File([${JSON.stringify(DRAWING)}], 'first view.svg'));
        transfer.items.add(new File(['hello'], 'notes.txt'));
        transfer.items.add(new File(['no picture'], 'photo.png'));
        transfer.items.add(new File([new Uint8Array([137,80,78,71,13,10,26,10,0,0,0,13,73,72,68,82])], 'cut.png'));
        transfer.items.add(new File([${JSON.stringify(DRAWING.slice(0, -6))}], 'cut short.svg'));
        transfer.items.add(new File([${JSON.stringify(DRAWING)}], 'second view.svg'));
        const at = { bubbles: true, cancelable: true, dataTransfer: transfer, clientX: ${(box?.x ?? 0) + 80}, clientY: ${(box?.y ?? 0) + 120} };
        const target = document.elementFromPoint(at.clientX, at.clientY);
        target.dispatchEvent(new DragEvent('dragover', at));
        target.dispatchEvent(new DragEvent('drop', at));
      })()`,
    );
    await page.waitForSelector('.over input[aria-label="What the picture shows"] >> nth=1');
    expect(await page.locator('.over .wrong').allInnerTexts()).toEqual([
      'notes.txt is no picture that can be printed. SVG, PNG and JPEG are.',
      'photo.png is named as PNG and holds something else. It was not added.',
      'cut.png cannot be shown: it is damaged or cut short. It was not added.',
      'cut short.svg cannot be shown: it is damaged or cut short. It was not added.',
    ]);
    await page.fill('.over input[aria-label="What the picture shows"] >> nth=0', 'The lip from the left');
    expect(await page.locator('.over button.main').isDisabled()).toBe(true);
    await page.fill('.over input[aria-label="What the picture shows"] >> nth=1', 'The lip from the right');
    await page.click('.over button.main');
    await checked(page);
    await save(page);
    expect(desk.onDisk(LIP)).toMatch(
      /!\[The lip from the left\]\(figures\/first-view\.svg\)[\s\S]{0,40}!\[The lip from the right\]\(figures\/second-view\.svg\)/,
    );
    expect(readdirSync(join(desk.folder, 'figures')).filter((name) => /notes|photo|cut/.test(name))).toEqual([]);
    expect(existsSync(join(desk.folder, 'figures/second-view.svg'))).toBe(true);
  });

  test('has the refusal go when a good picture is chosen', async () => {
    await page.keyboard.press('Control+Shift+G');
    await page.setInputFiles('.over input[type=file]', { name: 'x.txt', mimeType: 'text/plain', buffer: Buffer.from('hello') });
    await page.waitForSelector('.over .wrong');
    await page.setInputFiles('.over input[type=file]', { name: 'x.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(DRAWING) });
    await page.waitForSelector('.over .wrong', { state: 'detached' });
    await page.keyboard.press('Escape');
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
