/** Signing in a real browser: by two people, over a text that is not saved, and what is on disk then. Of the same words each signs once. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser, save } from '../support/desk.ts';

const RECORD = 'review/OM-3140.yaml';

describe.skipIf(!hasBrowser())('signing', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ noTour: true, opens: 'OM-3140', procedures: /OM-3140/ }, (own) => {
    ({ desk, page } = own);
  });

  const signing = () => page.innerText('.signing');
  async function as(initials: string, part: string): Promise<void> {
    await page.fill('.one label:has-text("Initials") input', initials);
    await page.fill('.one input[size="16"]', part);
  }
  async function sign(initials: string, part: string): Promise<void> {
    await as(initials, part);
    await page.click('.sign button.main');
    await page.waitForSelector(`.signatures li:has-text("${initials} ${part}"):has-text("signed this text")`);
  }

  test('once each: who signed these words has it told, and cannot sign them again', async () => {
    await page.keyboard.press('Control+2');
    await page.click('.sub button:has-text("Sign-off")');
    await sign('AB', 'reviewer');
    await page.waitForSelector('.signing:has-text("AB has signed this text as it stands now.")');
    expect(await page.isDisabled('.sign button.main')).toBe(true);
    // The same person in another part of the work, and another person, may.
    await as('AB', 'electrician');
    await expect.poll(() => page.isEnabled('.sign button.main')).toBe(true);
    expect(await signing()).not.toContain('are not saved');
    await save(page);
  });

  test('over text that is not saved is told; the second signature is for the words as they stand, the first is stale', async () => {
    await page.keyboard.press('Control+1');
    await page.click('.sheet-text');
    await page.keyboard.press('Control+End');
    await page.keyboard.type('More.');
    await checked(page);
    await page.waitForSelector('.entry .mark-stale');
    await page.keyboard.press('Control+2');
    await page.waitForSelector('.signatures li.stale:has-text("AB")');
    await page.waitForSelector('.signing .wrong:has-text("changes that are not saved")');
    await sign('CD', 'foreman');
    await save(page);
    await page.waitForSelector('.signing .wrong:has-text("changes that are not saved")', { state: 'detached' });
    const by = [...desk.onDisk(RECORD).matchAll(/by: "(\w+)"/g)].map(([, own]) => own);
    expect(by).toEqual(['AB', 'CD']);
    // What is on disk is what was signed: another window that reads it finds the one signature holding, and the other not.
    const other = await desk.another();
    await other.keyboard.press('Control+2');
    await other.click('.sub button:has-text("Sign-off")');
    await other.waitForSelector('.signatures li.stale:has-text("AB")');
    await other.waitForSelector('.signatures li:not(.stale):has-text("CD")');
    await other.close();
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
