/** A re-issue in a real browser: a register, a figure and a guide changed since the first issue, and Print shows and writes the bars beside what differs. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { root } from '../../cli/setup.mjs';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser } from '../support/desk.ts';

const SHOES = 'figures/guide-shoes.svg';
const TOOLS = 'registers/tools.yaml';

describe.skipIf(!hasBrowser())('whoever prints the next issue', () => {
  let desk: Desk;
  let page: Page;
  atDesk({}, (own) => {
    ({ desk, page } = own);
  });
  beforeAll(async () => {
    const git = (...words: string[]) =>
      execFileSync('git', ['-c', 'user.name=A Writer', '-c', 'user.email=writer@example.com', ...words], { cwd: desk.folder });
    git('init', '-q');
    git('add', '-A');
    git('commit', '-q', '-m', 'Issue A');
    const put = (path: string, from: string, to: string): void => {
      const text = desk.onDisk(path);
      expect(text).toContain(from);
      writeFileSync(join(desk.folder, path), text.replace(from, to));
    };
    put(SHOES, '</svg>', '<rect width="40" height="9"/></svg>');
    put(TOOLS, '0.05 to 2 mm', '0.05 to 3 mm');
    put('guides/OM-8010-leveller-and-baler.md', 'Read the pages on safety before', 'Read all pages on safety before');
    git('commit', '-q', '-a', '-m', 'Issue B');
    await checked(page);
  });
  const choose = (label: string, option: string | { label: string }) =>
    page.locator(`.settings label:has-text("${label}") select`).first().selectOption(option);

  /** Bytes that the app writes for what is chosen, and the command line for the same. */
  async function both(number: string, ...more: string[]): Promise<readonly [Buffer, Buffer]> {
    const before = await page.innerText('.foot [role=status]');
    await page.click('.settings button:has-text("Write the PDF"):enabled');
    await expect.poll(() => page.innerText('.foot [role=status]'), { timeout: 60_000 }).not.toBe(before);
    const path = (await page.innerText('.foot [role=status]')).replace('Written: ', '').trim();
    const beside = join(mkdtempSync(join(tmpdir(), 'handsclear-issue-')), 'bars.pdf');
    const command = ['print', number, '--library', desk.folder, '--to', beside, '--changed-since', 'HEAD~1', ...more];
    const run = spawnSync(process.execPath, [join(root, 'cli/handsclear.mjs'), ...command], { encoding: 'utf8' });
    expect(run.status, run.stderr).toBe(0);
    return [readFileSync(path), readFileSync(beside)];
  }

  test('a register of then and a figure of then are compared with those of now, as the command line does', async () => {
    await page.keyboard.press('Control+3');
    await choose('Document', 'procedures/OM-2120-guide-shoes.md');
    await expect.poll(() => page.locator('.settings label:has-text("Bars beside") option').count()).toBe(3);
    await choose('Bars beside', {
      label: (await page.locator('.settings label:has-text("Bars beside") option').allInnerTexts())[2] as string,
    });
    const [app, command] = await both('OM-2120');
    expect(app.equals(command)).toBe(true);
  });

  test('the foreword of a guide too', async () => {
    await choose('Document', 'guides/OM-8010-leveller-and-baler.md');
    await expect.poll(() => page.locator('.settings label:has-text("Bars beside") option').count()).toBe(3);
    await choose('Bars beside', {
      label: (await page.locator('.settings label:has-text("Bars beside") option').allInnerTexts())[2] as string,
    });
    const [app, command] = await both('OM-8010');
    expect(app.equals(command)).toBe(true);
  });

  test('with boxes to sign off where they are asked for; the paper checklist has its own', async () => {
    const tick = page.locator('.settings label:has-text("Boxes to sign off") input');
    await tick.check();
    const [app, command] = await both('OM-8010', '--sign-off');
    expect(app.equals(command)).toBe(true);
    await choose('Edition', 'short');
    expect(await tick.isDisabled()).toBe(true);
    await choose('Edition', 'full');
    expect(await tick.isChecked()).toBe(true);
  });

  test('where the library asks for these boxes Print shows it, and leaves them out when told so', async () => {
    const label = page.locator('.settings label:has-text("Boxes to sign off")');
    // As it was before anybody chose.
    await label.locator('input').uncheck();
    const library = join(desk.folder, 'library.yaml');
    writeFileSync(library, `${readFileSync(library, 'utf8')}sign-off: yes\n`);
    await expect.poll(() => label.innerText(), { timeout: 30_000 }).toContain('as the library asks');
    expect(await label.locator('input').isChecked()).toBe(true);
    await label.locator('input').uncheck();
    expect(await label.innerText()).not.toContain('as the library asks');
    const [app, command] = await both('OM-8010', '--no-sign-off');
    expect(app.equals(command)).toBe(true);
  });

  test('a checklist that takes many small leaves says so, and leads to its text; so does the command line', async () => {
    await choose('Document', 'procedures/OM-3140-lip-cylinder.md');
    await choose('Edition', 'short');
    // Other labels name paper too.
    await page
      .locator('.settings label', { hasText: /^Paper/ })
      .locator('select')
      .selectOption('a5');
    await expect.poll(() => page.locator('.print-notes .note').count()).toBe(1);
    const said = await page.innerText('.print-notes .note');
    expect(said).toMatch(/The checklist of OM-3140 takes \d pages on A5, more than two sheets\. On A4 it takes 4\./);
    expect(said).toContain('Larger paper');
    const beside = join(mkdtempSync(join(tmpdir(), 'handsclear-issue-')), 'leaf.pdf');
    const command = ['print', 'OM-3140', '--library', desk.folder, '--to', beside, '--edition', 'short', '--paper', 'a5'];
    const run = spawnSync(process.execPath, [join(root, 'cli/handsclear.mjs'), ...command], { encoding: 'utf8' });
    expect(run.status).toBe(0);
    expect(run.stderr).toMatch(/^procedures\/OM-3140-lip-cylinder\.md:1:1: note \[many-leaves\]\n {2}The checklist of OM-3140 takes/m);
    await page.click('.print-notes button');
    await page.waitForSelector('.sheet-text');
    await page.keyboard.press('Control+3');
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
