/** Trouble in a real browser: a disk that is full, and two windows on one file. No text is lost, and the user is told what to do. */
import { existsSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { nodeWriteDisk, type WriteDisk } from '../../electron/host/saving/index.ts';
import { checked, clickLine, type Desk, hasBrowser, launch, save, sitDown } from '../support/desk.ts';

const TEXT = 'procedures/OM-3140-lip-cylinder.md';
/** The others have no part in what is lost or kept, and are read anew by every window. */
const THE_LEVELLERS = /OM-3\d+/;

/** Types at the end of the line that shows the words. */
async function typeAfter(page: Page, words: string, typed: string): Promise<void> {
  await page.click('.library .entry:has-text("OM-3140")');
  await page.waitForSelector('.library .entry[aria-current=true]:has-text("OM-3140")');
  await clickLine(page, words);
  await page.keyboard.press('End');
  await page.keyboard.type(typed);
  await checked(page);
}

const errorsIn = (counts: string): string => counts.split(',')[0] ?? '';

describe.skipIf(!hasBrowser())('trouble', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(async () => browser?.close());

  describe('a disk that is full', () => {
    let desk: Desk;
    let full = false;
    const disk: WriteDisk = {
      ...nodeWriteDisk,
      async writeFlushed(file, bytes, mode) {
        if (!full) return nodeWriteDisk.writeFlushed(file, bytes, mode);
        // As a disk does: some of it, and then no more.
        writeFileSync(file, bytes.subarray(0, 100));
        throw Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC' });
      },
    };
    beforeAll(async () => {
      desk = await sitDown(browser, { disk, procedures: THE_LEVELLERS });
    });
    afterAll(async () => desk?.close());

    test('is told in words, the old file stands, and the text stays in the window', async () => {
      const before = desk.onDisk(TEXT);
      await typeAfter(desk.page, '1.', ' Written on a full disk.');
      full = true;
      await desk.page.keyboard.press('Control+s');
      await desk.page.waitForSelector('.foot [role=status]:has-text("the disk is full")');
      expect(await desk.page.innerText('.foot [role=status]')).toMatch(
        /Your text is kept in this window|keep this window open until it is saved/,
      );
      expect(desk.onDisk(TEXT)).toBe(before);
      expect(await desk.page.innerText('.sheet-text')).toContain('Written');
      expect(await desk.page.title()).toMatch(/^•/);
    });

    test('when there is room again, saving goes through', async () => {
      full = false;
      await save(desk.page);
      expect(desk.onDisk(TEXT)).toContain(' Written on a full disk.');
    });
  });

  describe('a browser whose cookies were deleted', () => {
    let desk: Desk;
    beforeAll(async () => {
      desk = await sitDown(browser, { procedures: THE_LEVELLERS, language: 'de-DE' });
    });
    afterAll(async () => desk?.close());

    test('is told so in its language with what to do, and the text stays in the window', async () => {
      const before = desk.onDisk(TEXT);
      await typeAfter(desk.page, '1.', ' Not yet saved.');
      await desk.context.clearCookies();
      await desk.page.keyboard.press('Control+s');
      await desk.page.waitForSelector('.foot [role=status]:has-text("Cookies des Browsers gelöscht")');
      expect(desk.onDisk(TEXT)).toBe(before);
      expect(await desk.page.innerText('.sheet-text')).toContain('Not');
      await desk.page.reload();
      expect(await desk.page.innerText('body')).toContain('Starten Sie Handsclear neu');
    });
  });

  describe('two windows on one file', () => {
    let desk: Desk;
    let other: Page;
    beforeAll(async () => {
      desk = await sitDown(browser, { procedures: THE_LEVELLERS });
      other = await desk.another();
    });
    afterAll(async () => desk?.close());

    test('neither is offered what the other has not saved yet', async () => {
      await typeAfter(desk.page, '1.', ' From the first.');
      await desk.page.waitForTimeout(800);
      const third = await desk.another();
      expect(await third.locator('.band-message').count()).toBe(0);
      await third.close();
    });

    test('what one saves appears in the other, where nothing was typed', async () => {
      await save(desk.page);
      await other.click('.library .entry:has-text("OM-3140")');
      await other.waitForSelector('.sheet-text .view-line:has-text("From the first.")');
    });

    test('when both typed, the one that saves last is asked, and neither text is lost', async () => {
      await typeAfter(other, 'From the first.', ' And from the second.');
      await typeAfter(desk.page, 'From the first.', ' Once more.');
      await save(desk.page);
      await other.waitForSelector('.band-message:has-text("changed on disk")');
      await other.keyboard.press('Control+s');
      await other.waitForTimeout(500);
      expect(desk.onDisk(TEXT)).toContain(' Once more.');
      expect(desk.onDisk(TEXT)).not.toContain('And from the second.');
      // The choice is not blind.
      await other.click('.band-message summary:has-text("They differ in 1 place")');
      expect(await other.innerText('.band-message del')).toContain('Once more.');
      expect(await other.innerText('.band-message ins')).toContain('And from the second.');
      const errors = await other.innerText('.foot .counts');
      await other.click('.band-message button:has-text("Keep both")');
      // Mine is there when a number was found for it.
      await other.waitForSelector('.band-message', { state: 'detached' });
      await save(other);
      await checked(other);
      expect(desk.onDisk(TEXT)).toContain(' Once more.');
      expect(desk.onDisk(TEXT)).toContain('id: OM-3140\n');
      const mine = desk.onDisk(TEXT.replace('.md', '-mine.md'));
      expect(mine).toContain('And from the second.');
      // A number names one procedure, so mine has another; nothing else of it is touched, and nothing is found that was not before.
      expect(mine).toContain('id: OM-3170\n');
      expect(mine.split('\n')[3]).toBe(desk.onDisk(TEXT).split('\n')[3]);
      expect(errorsIn(await other.innerText('.foot .counts'))).toBe(errorsIn(errors));
    });

    test('a window that is lost leaves what it had not saved to the next', async () => {
      await typeAfter(desk.page, '1.', ' Left behind.');
      await desk.page.waitForTimeout(800);
      await desk.page.close();
      const next = await desk.another();
      await next.waitForSelector('.band-message[role=alert]');
      await next.click('.band-message button.main');
      await save(next);
      expect(desk.onDisk(TEXT)).toContain(' Left behind.');
      await next.close();
    });
  });

  describe('more windows than a browser opens connections', () => {
    let desk: Desk;
    beforeAll(async () => {
      desk = await sitDown(browser, { procedures: THE_LEVELLERS });
    });
    afterAll(async () => desk?.close());

    test('are all there: what one saves is shown in each', async () => {
      const pages = [desk.page];
      while (pages.length < 7) pages.push(await desk.another());
      await typeAfter(desk.page, '1.', ' For all.');
      await save(desk.page);
      for (const page of pages) {
        await page.click('.library .entry:has-text("OM-3140")');
        await page.waitForSelector('.sheet-text .view-line:has-text("For all.")');
      }
      expect(desk.complaints).toEqual([]);
    });
  });

  describe('windows that were lost, and a disk that did not stand still', () => {
    let desk: Desk;
    beforeAll(async () => {
      desk = await sitDown(browser, { procedures: THE_LEVELLERS });
    });
    afterAll(async () => desk?.close());

    test('of two windows that are lost, the later text is taken and the other is still offered', async () => {
      const [first, second] = [await desk.another(), await desk.another()];
      for (const [page, words] of [
        [first, ' The earlier.'],
        [second, ' The later.'],
      ] as const) {
        await typeAfter(page, '1.', words);
        await page.waitForTimeout(800);
      }
      await first.close();
      await second.close();
      const next = await desk.another();
      await next.click('.library .entry:has-text("OM-3140")');
      await next.click('.band-message[role=alert] button.main');
      await next.waitForSelector('.sheet-text .view-line:has-text("The later.")');
      await save(next);
      expect(desk.onDisk(TEXT)).not.toContain(' The earlier.');
      await next.click('.band-message[role=alert] button.main');
      await next.waitForSelector('.sheet-text .view-line:has-text("The earlier.")');
      // It was written over what the disk held then: the writer is asked.
      await next.click('.band-message button:has-text("Keep mine")');
      await expect.poll(() => desk.onDisk(TEXT)).toContain(' The earlier.');
      expect(await next.locator('.band-message').count()).toBe(0);
      await next.close();
    });

    test('a file that was deleted meanwhile is written again when the writer says so', async () => {
      const page = await desk.another();
      await typeAfter(page, '1.', ' Still here.');
      rmSync(path.join(desk.folder, ...TEXT.split('/')));
      await page.waitForSelector('.band-message:has-text("deleted on disk")');
      expect(await page.locator('.band-message button:has-text("Keep both")').count()).toBe(0);
      await page.click('.band-message button:has-text("Keep mine")');
      await expect.poll(() => existsSync(path.join(desk.folder, TEXT))).toBe(true);
      expect(desk.onDisk(TEXT)).toContain(' Still here.');
      expect(await page.locator('.band-message').count()).toBe(0);
      await page.close();
    });

    test('what is taken back never goes over what somebody else wrote since, unasked', async () => {
      const lost = await desk.another();
      await typeAfter(lost, '1.', ' Mine.');
      await lost.waitForTimeout(800);
      await lost.close();
      const theirs = `${desk.onDisk(TEXT)}Written by another program.\n`;
      writeFileSync(path.join(desk.folder, ...TEXT.split('/')), theirs);
      const next = await desk.another();
      await next.click('.band-message[role=alert] button.main');
      await next.waitForSelector('.band-message:has-text("changed on disk")');
      await next.keyboard.press('Control+s');
      await next.waitForTimeout(500);
      expect(desk.onDisk(TEXT)).toBe(theirs);
      await next.click('.band-message button:has-text("Keep both")');
      await save(next);
      expect(desk.onDisk(TEXT)).toBe(theirs);
      expect(desk.onDisk(TEXT.replace('.md', '-mine.md'))).toContain(' Mine.');
      await next.close();
    });
  });
});
