/** The day of the field office in a real browser: the first minute, an edition, what blocks it, files on disk, many at once. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { root } from '../../cli/setup.mjs';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser } from '../support/desk.ts';
import { hasTool } from '../support/tools.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';

describe.skipIf(!hasBrowser())('the field office', () => {
  let desk: Desk;
  let page: Page;
  atDesk({}, (own) => {
    ({ desk, page } = own);
  });
  /** The path that the foot of the page says was written. */
  async function written(): Promise<string> {
    await page.waitForSelector('.foot [role=status]:has-text("Written:")');
    return (await page.innerText('.foot [role=status]')).replace('Written: ', '').trim();
  }

  test('is shown round in the first minute, and nothing of it stays', async () => {
    await page.click('.tour button.main');
    await page.waitForSelector('.counts.state-error');
    await page.click('.tour button.main');
    await page.waitForSelector('.played .counter-walk');
    await page.click('.tour button.main');
    await checked(page);
    expect(await page.innerText('.counts')).toMatch(/^0 errors/);
    expect(await page.locator('.entry-state:has-text("not saved")').count()).toBe(0);
    await page.click('.tour button.main');
    await page.waitForSelector('.page-canvas');
    await page.click('.tour button:has-text("Done")');
    expect(await page.locator('.tour').count()).toBe(0);
  });

  test('sees the pages of an edition before anything is written', async () => {
    await page.keyboard.press('Control+3');
    const choose = (label: string, option: string) =>
      page.locator(`.settings label:has-text("${label}") select`).first().selectOption({ label: option });
    await choose('Document', 'OM-3140 Check the lip cylinder for drift and renew its seal');
    await choose('Model', 'DL-25');
    await expect.poll(() => page.locator('.page-canvas').count()).toBeGreaterThan(5);
    expect(await page.innerText('.settings')).toMatch(/Nothing stands in the way of printing/);
    // However many choices there are, the button is in sight.
    const button = await page.locator('.write-foot button.main').first().boundingBox();
    expect((button?.y ?? 800) + (button?.height ?? 0)).toBeLessThan(760);
    // What the library says is told where it is chosen.
    expect(await page.innerText('.settings')).toMatch(
      /Units[\s\S]*as the library says: metric first[\s\S]*Paper[\s\S]*as the library says: A4/,
    );
  });

  test('reads the pages: goes through them by keys, to a number, larger and smaller; nothing is painted that is not seen', async () => {
    await page.focus('.pages');
    await page.keyboard.press('End');
    const count = await page.locator('.page-figure').count();
    const here = () => page.evaluate<string>('document.activeElement.getAttribute("aria-label")');
    expect(await here()).toMatch(new RegExp(`leaf ${count} of ${count}$`));
    await page.keyboard.press('Home');
    expect(await here()).toBe(`page i, leaf 1 of ${count}`);
    await page.keyboard.press('PageDown');
    expect(await here()).toBe(`page ii, leaf 2 of ${count}`);
    await page.keyboard.press('Control+g');
    await page.keyboard.type('3');
    await page.keyboard.press('Enter');
    expect(await here()).toMatch(/^page 3, leaf /);
    await page.keyboard.press('Control+5');
    const wide = await page.evaluate<number>('document.activeElement.clientWidth / document.activeElement.closest(".pages").clientWidth');
    expect(wide).toBeGreaterThan(0.9);
    const painted = () =>
      page.evaluate<number>('[...document.querySelectorAll(".pages canvas")].reduce((sum, { width, height }) => sum + width * height, 0)');
    const seen = await page.evaluate<number>(
      'document.querySelector(".pages").clientWidth * document.querySelector(".pages").clientHeight',
    );
    await page.selectOption('select[aria-label="Size of the pages"]', '300');
    // A little more than is seen is painted ahead, in tiles; two pages of this size would be 25 times as much as is seen.
    await expect.poll(painted).toBeGreaterThan(seen);
    expect(await painted()).toBeLessThan(seen * 7);
    await page.focus('.pages');
    await page.keyboard.press('Control+,');
    await expect.poll(() => page.inputValue('select[aria-label="Size of the pages"]')).toBe('250');
    expect(await page.innerText('.pages-bar')).toMatch(/leaf 7 of/);
    const other = await desk.another();
    await other.keyboard.press('Control+3');
    await other.waitForSelector('.pages-bar');
    expect(await other.inputValue('select[aria-label="Size of the pages"]')).toBe('250');
    await other.close();
    await page.selectOption('select[aria-label="Size of the pages"]', '100');
  });

  test('writes the PDF: the bytes are those of the command line', async () => {
    await page.click('.settings button:has-text("Write the PDF")');
    const path = await written();
    const bytes = readFileSync(path);
    expect(bytes.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    const beside = join(mkdtempSync(join(tmpdir(), 'handsclear-clerk-')), 'lip.pdf');
    const command = ['print', 'OM-3140', '--library', desk.folder, '--to', beside, '--model', 'DL-25'];
    const run = spawnSync(process.execPath, [join(root, 'cli/handsclear.mjs'), ...command], { encoding: 'utf8' });
    expect(run.status, run.stderr).toBe(0);
    expect(bytes.equals(readFileSync(beside))).toBe(true);
    if (hasTool('qpdf'))
      expect(spawnSync('qpdf', ['--check', path], { encoding: 'utf8' }).stdout).toMatch(/No syntax or stream encoding errors found/);
  });

  test('an edition that is refused says why, and not that it is still being read', async () => {
    const chosen = await page.locator('.settings label:has-text("Document") select').inputValue();
    const model = page.locator('.settings label:has-text("Model") select').first();
    const before = await model.inputValue();
    await page.locator('.settings label:has-text("Document") select').selectOption('guides/OM-8010-leveller-and-baler.md');
    await model.selectOption('SP-90');
    await page.waitForSelector('.settings .wrong:has-text("SP-90")');
    expect(await page.innerText('.settings')).not.toMatch(/reading …/);
    expect(await page.locator('.settings button:has-text("Write the PDF")').isDisabled()).toBe(true);
    await page.locator('.settings label:has-text("Document") select').selectOption(chosen);
    await model.selectOption(before);
    await page.waitForSelector('.pages .page-canvas');
  });

  test('reads at once what was written, in a tab of its own; a browser offers no folder', async () => {
    const name = await page.innerText('.written-file span');
    expect(name).toMatch(/\.pdf$/);
    const [tab] = await Promise.all([page.context().waitForEvent('page'), page.click('.written-file button:has-text("Read it")')]);
    expect(tab.url()).toContain(name);
    await tab.close();
    expect(await page.locator('.written-file button:has-text("Show its folder")').count()).toBe(0);
  });

  test('writes the checklist', async () => {
    await page.click('.settings button:has-text("Write the checklist")');
    await page.waitForSelector('.foot [role=status]:has-text(".json")');
    const checklist = JSON.parse(readFileSync(await written(), 'utf8'));
    expect(JSON.stringify(checklist)).toContain('OM-3140');
  });

  test('writes the paper checklist as a form to be filled in', async () => {
    await page.locator('.settings label:has-text("Edition") select').first().selectOption('short');
    await page.check('.settings label:has-text("filled in") input');
    // Two sheets, printed on both sides.
    await expect.poll(() => page.locator('.page-canvas').count()).toBe(4);
    await page.click('.settings button:has-text("Write the PDF")');
    await page.waitForSelector('.foot [role=status]:has-text("checklist-form.pdf")');
    const bytes = readFileSync(await written()).toString('latin1');
    expect(bytes).toMatch(/AcroForm|ObjStm/);
    if (hasTool('pdfinfo')) expect(spawnSync('pdfinfo', [await written()], { encoding: 'utf8' }).stdout).toMatch(/Form:\s+AcroForm/);
    await page.uncheck('.settings label:has-text("filled in") input');
    await page.locator('.settings label:has-text("Edition") select').first().selectOption('full');
  });

  test('sees the sides of a booklet as they leave the printer, and writes them as the command line does', async () => {
    const choose = (label: string, option: string) =>
      page.locator(`.settings label:has-text("${label}") select`).first().selectOption({ label: option });
    await choose('Edition', 'the whole text');
    await choose('On the sheet', 'booklet: folded and stapled');
    await choose('Sheets folded into one another', '2');
    await page.waitForSelector('.printed-sheet');
    // Each side holds two pages; the first one the cover on its right.
    const first = `[...document.querySelector('.printed-sheet').querySelectorAll('.on-sheet [role=img]')].map((one) => one.getAttribute('aria-label'))`;
    await expect
      .poll(() => page.evaluate<string[]>(first))
      .toEqual([expect.stringMatching(/^Page 8 of/), expect.stringMatching(/^Page 1 of/)]);
    await page.click('.settings button:has-text("Write the PDF")');
    await page.waitForSelector('.foot [role=status]:has-text("booklet.pdf")');
    const path = await written();
    const other = join(mkdtempSync(join(tmpdir(), 'handsclear-cli-')), 'booklet.pdf');
    const line = ['print', 'OM-3140', '--library', desk.folder, '--to', other, '--model', 'DL-25', '--booklet', '--signature', '2'];
    spawnSync(process.execPath, [join(root, 'cli/handsclear.mjs'), ...line]);
    expect(readFileSync(path).equals(readFileSync(other))).toBe(true);
    await page.locator('.printed-sheet').nth(1).scrollIntoViewIfNeeded();
    await choose('On the sheet', 'page by page');
  });

  test('chooses binding, sides and language of a guide over what the guide says, which is named', async () => {
    const select = (label: string) => page.locator(`.settings label:has-text("${label}") select`).first();
    const choose = (label: string, option: string) => select(label).selectOption({ label: option });
    await page.locator('.settings label:has-text("Model") select').first().selectOption('');
    await choose('Document', 'OM-8010 Dock leveller and baler service guide');
    const said = (label: string) => select(label).locator('option').first().innerText();
    await expect.poll(() => said('Binding')).toBe('as the guide says: at the left');
    expect(await said('Printed on')).toBe('as the guide says: both sides, mirrored');
    expect(await said('Language of the printed words')).toBe('as the guide says: English');
    await choose('Binding', 'none');
    await choose('Printed on', 'one side of the leaf');
    await choose('Language of the printed words', 'German');
    await page.click('.settings button:has-text("Write the PDF"):enabled');
    await page.waitForSelector('.foot [role=status]:has-text("OM-8010-A-de-unbound-one-sided.pdf")', { timeout: 60_000 });
    const path = await written();
    if (hasTool('pdftotext')) {
      const text = spawnSync('pdftotext', ['-l', '6', path, '-'], { encoding: 'utf8' }).stdout;
      expect(text).toMatch(/Inhalt/);
      expect(text).not.toMatch(/Contents/);
    }
    // The paper checklist has leaves of its own kind.
    await choose('Edition', 'paper checklist, to be ticked off');
    expect(await page.locator('.settings label:has-text("Binding")').count()).toBe(0);
    await choose('Edition', 'the whole text');
    for (const label of ['Binding', 'Printed on', 'Language of the printed words']) await select(label).selectOption('');
    await choose('Document', 'OM-3140 Check the lip cylinder for drift and renew its seal');
    await expect.poll(() => said('Binding')).toBe('as usual: at the left');
    expect(await said('Printed on')).toBe('as usual: one side of the leaf');
    expect(await said('Language of the printed words')).toBe('as the library says: English');
    await choose('Model', 'DL-25');
  });

  test('is told what blocks printing, each a click from its text; a draft is printed all the same', async () => {
    writeFileSync(join(desk.folder, LIP), desk.onDisk(LIP).replace(/^2\. Put your lock and tag on the \[main isolator\]\.\n/m, ''));
    await page.waitForSelector('.settings h2:has-text("In the way of printing")');
    expect(await page.isDisabled('.settings button:has-text("Write the PDF")')).toBe(true);
    // Why the buttons are dead stands beside them, in sight at the size of a small desk, and leads to what blocks.
    const why = await page.locator('.write-foot button:has-text("Blocked by")').boundingBox();
    expect((why?.y ?? 800) + (why?.height ?? 0)).toBeLessThan(760);
    await page.click('.write-foot button:has-text("Blocked by")');
    expect(await page.evaluate('document.activeElement.id')).toBe('blocked');
    await page.click('.settings section button.plain');
    await page.waitForSelector('.sheet-text');
    await page.keyboard.press('Control+3');
    await page.check('.settings label:has-text("Draft") input');
    await page.click('.settings button:has-text("Write the PDF")');
    await page.waitForSelector('.foot [role=status]:has-text("DRAFT")');
    expect(existsSync(await written())).toBe(true);
    await page.uncheck('.settings label:has-text("Draft") input');
  });

  test('writes many at once by a second worker, with what came of each', async () => {
    await page.click('.batch summary');
    // Of an edition for one model there are only documents that are for it.
    expect(await page.isDisabled('.batch li:has-text("OM-1110") input')).toBe(true);
    expect(await page.innerText('.batch li:has-text("OM-1110")')).toMatch(/not for DL-25/);
    await page.locator('.settings label:has-text("Model") select').first().selectOption('');
    // Of what is looked for alone; what was chosen before stays.
    await page.click('.batch button:has-text("none")');
    await page.fill('.batch input[type=search]', 'baler gas');
    expect(await page.locator('.batch li').count()).toBe(1);
    await page.click('.batch button:has-text("all")');
    await page.fill('.batch input[type=search]', '');
    expect(await page.locator('.batch li input:checked').count()).toBe(1);
    await page.click('.batch button:has-text("all")');
    for (const guide of ['OM-8010', 'OM-8020']) await page.uncheck(`.batch li:has-text("${guide}") input`);
    // How far the document at hand is stands there too short to be waited for.
    await page.evaluate(`{
      window.pagesTold = [];
      const look = () => window.pagesTold.push(...(/page [0-9]+ of [0-9]+/.exec(document.querySelector('.writing-line')?.textContent ?? '') ?? []));
      new MutationObserver(look).observe(document.body, { subtree: true, childList: true, characterData: true });
    }`);
    await page.click('.batch button.main');
    // It goes on, and is told of, whatever view is shown.
    await page.waitForSelector('.writing-line progress');
    await page.keyboard.press('Control+1');
    await page.waitForSelector('.sheet-text');
    await page.waitForSelector('.writing-line :text("of 19 documents")');
    expect(await page.isVisible('.writing-line button:has-text("Stop")')).toBe(true);
    await page.keyboard.press('Control+2');
    await page.waitForSelector('.writing-line :text("18 of 19 documents are written.")', { timeout: 60_000 });
    expect(await page.innerText('.writing-line')).toMatch(/1 is not written/);
    expect(await page.evaluate<number>('window.pagesTold.length')).toBeGreaterThan(0);
    await page.click('.writing-line summary');
    expect(await page.locator('.writing-line li').count()).toBe(19);
    const told = await page.innerText('.writing-line ul');
    expect(told).toMatch(/OM-3140: not written: \d+ errors? stands? in the way/);
    expect(told.match(/\.pdf, \d+ pages/g)).toHaveLength(18);
    const out = /OM-1110: (.*)OM-1110/.exec(told)?.[1] ?? '';
    expect(readdirSync(out).filter((name) => name.endsWith('.pdf')).length).toBeGreaterThanOrEqual(18);
    // One that has a film: its codes are the same as those of the command line too.
    const filmed = readdirSync(out).find((name) => name.startsWith('OM-2120') && name.endsWith('.pdf')) ?? '';
    const beside = join(mkdtempSync(join(tmpdir(), 'handsclear-clerk-')), 'filmed.pdf');
    const command = ['print', 'OM-2120', '--library', desk.folder, '--to', beside];
    expect(spawnSync(process.execPath, [join(root, 'cli/handsclear.mjs'), ...command]).status).toBe(0);
    expect(readFileSync(join(out, filmed)).equals(readFileSync(beside))).toBe(true);
  });

  test('keeps the report of many as a text file, until it is dismissed', async () => {
    await page.keyboard.press('Control+3');
    const told = (await page.innerText('.writing-line ul')).trim().split('\n');
    await page.click('.writing-line button:has-text("Write this report")');
    await page.waitForSelector('.foot [role=status]:has-text("report-")');
    const report = readFileSync(await written(), 'utf8').split('\n');
    expect(report[0]).toMatch(/^library, \d{4}-\d\d-\d\d$/);
    expect(report.filter((line) => line.startsWith('OM-'))).toEqual(told);
    await page.click('.writing-line button:has-text("Dismiss")');
    expect(await page.locator('.writing-line').count()).toBe(0);
    // What was chosen is still chosen.
    expect(await page.isChecked('.batch li:has-text("OM-1110") input')).toBe(true);
  });

  test('stops while a document is being written: nothing of it is written, and the rest is told as not written', async () => {
    const before = readdirSync(join(desk.folder, 'out'));
    await page
      .locator('.settings label:has-text("Document") select')
      .first()
      .selectOption({ value: 'guides/OM-8020-press-conveyor-bench.md' });
    await page.waitForSelector('.settings button:has-text("Write the PDF"):enabled');
    await page.check('.settings label:has-text("Large type") input');
    await page.check('.settings label:has-text("Draft") input');
    await page.waitForSelector('.settings button:has-text("Write the PDF"):enabled');
    await page.click('.settings button:has-text("Write the PDF")');
    await page.waitForSelector('.writing-line progress');
    await page.click('.writing-line button:has-text("Stop")');
    await page.waitForSelector('.foot [role=status]:has-text("OM-8020: not written: it was stopped.")');
    expect(await page.locator('.writing-line').count()).toBe(0);
    expect(readdirSync(join(desk.folder, 'out'))).toEqual(before);
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
