/** The film of a procedure in a real browser: the script written, a recording compared with the text, its drift in the margin. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { type Desk, hasBrowser } from '../support/desk.ts';

describe.skipIf(!hasBrowser())('a film', () => {
  let desk: Desk;
  let page: Page;
  let captions = '';
  atDesk({ opens: 'OM-3140' }, (own) => {
    ({ desk, page } = own);
  });
  beforeAll(async () => {
    await page.keyboard.press('Control+2');
    await page.click('.sub button:has-text("Film")');
  });
  const give = (text: string) =>
    page.setInputFiles('.one input[type=file]', { name: 'take.vtt', mimeType: 'text/vtt', buffer: Buffer.from(text) });

  test('is written as script, shots, captions and chapters; its times are called estimates', async () => {
    await page.waitForSelector('.script tbody tr');
    expect(await page.innerText('.one')).toMatch(/Estimated length \d+:\d\d/);
    expect(await page.innerText('.script')).toMatch(/one hundred and eighty newton met(re|er)s/);
    await page.click('.one button:has-text("Write script")');
    await page.waitForSelector('.foot [role=status]:has-text("chapters.txt")');
    const out = dirname((await page.innerText('.foot [role=status]')).replace('Written: ', '').trim());
    expect(
      readdirSync(out)
        .filter((name) => name.startsWith('OM-3140'))
        .sort(),
    ).toEqual(['OM-3140-captions.vtt', 'OM-3140-chapters.txt', 'OM-3140-script.md', 'OM-3140-shots.md']);
    captions = readFileSync(join(out, 'OM-3140-captions.vtt'), 'utf8');
    expect(captions).toMatch(/^WEBVTT/);
  });

  test('that says what the text says has not come apart from it', async () => {
    await give(captions);
    await page.waitForSelector('.strip svg > rect');
    // Long waits are cut, with their length said: that is advice and no drift.
    await page.waitForSelector('.script .note-advice');
    expect(await page.locator('.script .note-error, .script .note-warning').count()).toBe(0);
    expect(await page.locator('.strip svg > rect').count()).toBeGreaterThan(40);
  });

  test('that says another value is told so, at the step and at its time, there and in the margin of Write', async () => {
    expect(captions).toMatch(/180\sN·m/);
    await give(captions.replace(/180\sN·m/g, '80 N·m'));
    await page.waitForSelector('.script .note-error:has-text("80")');
    const note = await page.innerText('.script .note-error');
    expect(note).toMatch(/180/);
    await page.keyboard.press('Control+1');
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', '180 N·m');
    await page.click('.found li:has-text("OM-3140") button');
    await page.click('.over header button');
    await page.waitForSelector('.note-remark:has-text("Film")');
    await page.locator('.note-remark:has-text("Film")').first().dispatchEvent('click');
    await page.waitForSelector('.strip');
  });

  test('of a text that is refuted is held back; a draft says in every file that it is one', async () => {
    const lip = 'procedures/OM-3140-lip-cylinder.md';
    writeFileSync(join(desk.folder, lip), desk.onDisk(lip).replace(/^2\. Put your lock and tag on the \[main isolator\]\.\n/m, ''));
    await page.waitForSelector('.counts.state-error');
    await page.waitForSelector('.one .wrong:has-text("DRAFT: NOT FOR FIELD USE")');
    expect(await page.isDisabled('.one button:has-text("Write script")')).toBe(true);
    await page.check('.one label:has-text("Draft") input');
    await page.click('.one button:has-text("Write script")');
    await page.waitForSelector('.foot [role=status]:has-text("DRAFT-chapters.txt")');
    const out = dirname((await page.innerText('.foot [role=status]')).replace('Written: ', '').trim());
    const drafts = readdirSync(out).filter((name) => name.startsWith('OM-3140-DRAFT-'));
    expect(drafts).toHaveLength(4);
    for (const name of drafts) expect(readFileSync(join(out, name), 'utf8'), name).toContain('DRAFT: NOT FOR FIELD USE');
    const cues = readFileSync(join(out, 'OM-3140-DRAFT-captions.vtt'), 'utf8').split('\n\n').slice(2);
    expect(cues.filter((cue) => !cue.includes('DRAFT: NOT FOR FIELD USE'))).toEqual([]);
  });

  test('is as it was left, draft and model, when another view was looked at', async () => {
    await page.selectOption('.one select[aria-label="Model"]', 'DL-25');
    await page.keyboard.press('Control+3');
    await page.waitForSelector('.print');
    await page.keyboard.press('Control+2');
    await page.waitForSelector('.script tbody tr');
    expect(await page.isChecked('.one label:has-text("Draft") input')).toBe(true);
    expect(await page.inputValue('.one select[aria-label="Model"]')).toBe('DL-25');
  });

  test('is of no model that another procedure is not for', async () => {
    await page.locator('.one select[aria-label="Document"]').selectOption({ index: 0 });
    await page.waitForSelector('.script tbody tr');
    expect(await page.inputValue('.one select[aria-label="Model"]')).toBe('');
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
