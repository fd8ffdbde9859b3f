/** A reviewer's day in a real browser: play a counter-walk, walk, look at the ways, compare, remark, accept, sign, and what is on disk then. */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser, save } from '../support/desk.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';
const RECORD = 'review/OM-3140.yaml';
const EQUIPMENT = 'registers/equipment.yaml';
const GUIDE = 'guides/OM-8010-leveller-and-baler.md';

describe.skipIf(!hasBrowser())('a reviewer', () => {
  let desk: Desk;
  let page: Page;
  atDesk({}, (own) => {
    ({ desk, page } = own);
  });
  beforeAll(async () => {
    // The library as a maker keeps it, with a first issue; what lies on disk now is the draft of the next.
    const git = (...words: string[]) =>
      execFileSync('git', ['-c', 'user.name=A Writer', '-c', 'user.email=writer@example.com', ...words], { cwd: desk.folder });
    git('init', '-q');
    git('add', '-A');
    git('commit', '-q', '-m', 'Issue C');
    const draft = desk
      .onDisk(LIP)
      .replace(/^2\. Put your lock and tag on the \[main isolator\]\.\n/m, '')
      .replace('Wait 10 min', 'Wait 15 min');
    writeFileSync(join(desk.folder, LIP), draft);
    await page.waitForSelector('.counts.state-error');
    await page.click('.library .entry:has-text("OM-3140")');
  });
  const sheet = (name: string) => page.click(`.sub button:has-text("${name}")`);

  test('plays the shortest unsafe walk on the text, from the keyboard', async () => {
    await page.keyboard.press('Control+2');
    await page.click('.list .entry:has-text("Hands in the pit")');
    await expect.poll(() => page.innerText('.detail button')).toMatch(/^OM-3140, Renew the seal, step \d+$/);
    expect(await page.innerText('.excerpt figcaption')).toMatch(/^OM-3140 Check the lip cylinder/);
    // Each line of the list says where; by kind it says of which document, under what the check asks.
    expect(await page.innerText('.list [aria-current=true] .entry-place')).toBe('Renew the seal, step 8');
    await page.click('.list button:has-text("by kind")');
    await page.waitForSelector('.list section:has(h3:has-text("?")) .entry-place:has-text("OM-3140, Renew the seal, step 8")');
    await page.click('.list button:has-text("by document")');
    // What comes to mind here is remarked here, and the keys are where they were.
    await page.click('.detail button:has-text("Remark")');
    await page.waitForSelector('.over q:has-text("Put the drip tray under the lip cylinder")');
    await page.keyboard.press('Escape');
    expect(await page.evaluate('document.activeElement.matches(".place-row button")')).toBe(true);
    await page.focus('.list [aria-current=true]');
    // Arrows go from finding to finding, and Tab from the one that is chosen to what it says.
    await page.keyboard.press('ArrowUp');
    expect(await page.innerText('.list [aria-current=true]')).not.toMatch(/Hands in the pit/);
    await page.keyboard.press('ArrowDown');
    expect(await page.innerText('.list [aria-current=true]')).toMatch(/Hands in the pit/);
    await page.keyboard.press('Tab');
    expect(await page.evaluate('document.activeElement.closest(".detail") !== null')).toBe(true);
    // It opens where it goes wrong.
    expect(await page.innerText('.played .here')).toMatch(/Renew the seal 8[\s\S]*Hands in the pit/);
    const wrong = await page.innerText('.excerpt mark');
    // Two questions, each with its own answer.
    expect(await page.innerText('.counter-walk')).toContain('(it is within the limits: no; it is over the limit: yes)');
    await page.focus('.played button:has-text("Step on")');
    await page.keyboard.press('Home');
    const first = await page.innerText('.excerpt mark');
    expect(first).not.toBe(wrong);
    expect(await page.innerText('.played .here')).toContain('Check the drift 1');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    expect(await page.innerText('.played .here')).toContain('Check the drift 3');
    expect(await page.innerText('.excerpt mark')).not.toBe(first);
    for (let times = 0; times < 40; times += 1) await page.keyboard.press('ArrowDown');
    expect(await page.innerText('.played .here')).toMatch(/Hands in the pit/);
  });

  test('walks through as a technician and sees what state is required', async () => {
    await sheet('Walk');
    await page.waitForSelector('.question');
    expect(await page.innerText('.detail .state')).toContain('mains supply');
    const before = await page.locator('.walk li').count();
    // From the keyboard: an answer leads to the next question, and is told where it was given.
    await page.focus('.question button:has-text("no")');
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('.walk li').count()).toBeGreaterThan(before);
    expect(await page.innerText('.walk')).toMatch(/■/);
    expect(await page.innerText('.walk')).toContain('(it is within the limits: no');
    expect(await page.evaluate('document.activeElement.matches(".question button, .walk-end")')).toBe(true);
  });

  test('sees every way drawn, and a step there leads to its text', async () => {
    await sheet('Ways');
    await expect.poll(() => page.locator('.ways-row').count()).toBeGreaterThan(30);
    expect(await page.locator('.ways-edge').count()).toBeGreaterThan(5);
    await page.click('button[aria-label="Larger"]');
    await page.locator('.ways-row').nth(4).focus();
    await page.keyboard.press('Enter');
    await page.waitForSelector('.sheet-text');
    // The key that led there is not typed over the step that it led to.
    await page.waitForTimeout(300);
    expect(await page.getAttribute('.page', 'data-unsaved')).toBe('0');
    await page.keyboard.press('Control+2');
  });

  test('sees by meaning what the draft changed since the last issue', async () => {
    await sheet('Changes');
    await page.waitForSelector('select:has-text("Issue C")');
    // Chosen by itself: beside what was saved last nothing changed, and a reviewer would read that as nothing since the issue.
    await expect.poll(() => page.locator('.one .field select option:checked').innerText()).toContain('Issue C');
    await page.waitForSelector('.changes:has-text("Renew the seal 2")');
    const told = await page.innerText('.one');
    expect(told).toMatch(/What protects people[\s\S]*Renew the seal 2 is gone[\s\S]*Put your lock and tag on the main isolator/);
    expect(told).toMatch(/Wait 10 min[\s\S]*Wait 15 min/);
    expect(told).toMatch(/is the same as before, though the text is not/);
    // Who follows a change into the text finds the sheet as it was.
    await page.click('.changes button:has-text("has another verdict")');
    await page.waitForSelector('.sheet-text');
    await page.keyboard.press('Control+2');
    await page.waitForSelector('.changes:has-text("Renew the seal 2")');
    expect(await page.locator('.one .field select option:checked').innerText()).toContain('Issue C');
  });

  test('sees what the registers say otherwise, since a revision and beside a folder as it was issued', async () => {
    const issued = mkdtempSync(join(tmpdir(), 'handsclear-issued-'));
    const register = desk.onDisk(EQUIPMENT);
    try {
      const before = join(issued, 'library');
      cpSync(desk.folder, before, { recursive: true, filter: (path) => !path.endsWith('.git') });
      writeFileSync(
        join(desk.folder, EQUIPMENT),
        register.replace('gland nut: {count: 1, torque: 180', 'gland nut: {count: 1, torque: 190'),
      );
      await page.waitForSelector('.changes:has-text("fastener gland nut: torque is different in the register")');
      expect(await page.innerText('.one')).toMatch(/Limits[\s\S]*180 N·m[\s\S]*190 N·m/);
      await page.setInputFiles('input[webkitdirectory]', before);
      await page.waitForSelector('option:checked:has-text("the folder that was chosen")', { state: 'attached' });
      await page.waitForSelector('.changes:has-text("180 N·m"):has-text("190 N·m")');
      // It was copied with the draft, so only the register differs.
      expect(await page.innerText('.one')).not.toContain('Wait 15 min');
      await page.selectOption('.one select[aria-label="Document"]', { value: GUIDE });
      await page.setInputFiles('input[webkitdirectory]', before);
      await page.waitForSelector('.changes:has-text("OM-3140 says something else")');
      await page.setInputFiles('input[webkitdirectory]', join(before, 'registers'));
      await page.waitForSelector('.wrong:has-text("This folder is no library")');
      await page.selectOption('.one select[aria-label="Document"]', { value: LIP });
      await page.selectOption('.one .field select', { label: await page.locator('option:has-text("Issue C")').first().innerText() });
      // A change leads into the register that it stands in.
      await page.click('.changes button:has-text("fastener gland nut")');
      await page.waitForSelector('.sheet-head h1[title="registers/equipment.yaml"]');
      await page.click('.library .entry:has-text("OM-3140")');
    } finally {
      writeFileSync(join(desk.folder, EQUIPMENT), register);
      rmSync(issued, { recursive: true, force: true });
    }
  });

  test('remarks on a step, is answered, settles; the library keeps it as text', async () => {
    await page.keyboard.press('Control+1');
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', 'Wait 15 min');
    await page.click('.found li button');
    await page.click('.over header button');
    await page.keyboard.press('Control+Shift+K');
    await page.fill('.over input[aria-label="What is to be asked or changed"]', 'Why 15 minutes now?');
    await page.fill('.over input[size="6"]', 'AB');
    await page.click('.over button.main');
    await page.waitForSelector('.note-remark:has-text("Why 15 minutes now?")');
    await page.click('.note-remark');
    await page.fill('.remark input', 'The new oil is thicker.');
    await page.click('.remark button:has-text("Answer")');
    await page.waitForSelector('.remark:has-text("The new oil is thicker.")');
    await page.click('.remark button:has-text("Settled")');
    await page.waitForSelector('.remark-settled');
    // Settled too soon: it is opened again, and who had settled it is still told.
    await page.click('.remark-settled button:has-text("Open again")');
    await page.waitForSelector('.remark:not(.remark-settled):has-text("Opened again. It had been settled by AB")');
    await page.click('.remark button:has-text("Settled")');
    await page.waitForSelector('.remark-settled');
    await save(page);
    expect(desk.onDisk(RECORD)).toMatch(/says: "Why 15 minutes now\?"[\s\S]*The new oil is thicker[\s\S]*settled:/);
    expect(await page.innerText('.counts')).not.toMatch(/review\//);
  });

  test('accepts a reading and signs; the signature turns stale with the text', async () => {
    await sheet('Sign-off');
    await page.click('summary');
    const open = await page.locator('details li').count();
    await page.locator('details li button').first().focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('details li').count()).toBe(open - 1);
    // What was unfolded stays so, and the next reading is at hand.
    expect(await page.evaluate('document.activeElement.matches("details[open] li:first-child button")')).toBe(true);
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('details li').count()).toBe(open - 2);
    await page.fill('.one input[size="16"]', 'reviewer');
    await page.click('.sign button.main');
    await page.waitForSelector('.signatures li:has-text("signed this text")');
    await save(page);
    expect(desk.onDisk(RECORD)).toMatch(/signatures:[\s\S]*by: "AB"[\s\S]*hash: "[0-9a-f]{64}"/);
    await page.keyboard.press('Control+1');
    await page.click('.sheet-text');
    await page.keyboard.press('Control+End');
    await page.keyboard.type('\n');
    await checked(page);
    await page.keyboard.press('Control+2');
    await page.waitForSelector('.signatures li:has-text("stale")');
  });

  test('signs again; the signature tells the verdict of then, and turns stale with a register', async () => {
    await page.click('.sign button.main');
    await page.waitForSelector('.signatures li:has-text("signed this text"):has-text("verdict then: refuted")');
    await save(page);
    expect(desk.onDisk(RECORD)).toMatch(/verdict: "refuted"/);
    const register = desk.onDisk(EQUIPMENT);
    const at = register.indexOf('energy:', register.indexOf('  dock leveller:')) + 'energy:'.length;
    const source = '\n      hidden spring: {kind: spring, size: 500 N, restrain: {spring bolt: in}}';
    writeFileSync(join(desk.folder, EQUIPMENT), register.slice(0, at) + source + register.slice(at));
    await expect.poll(() => page.locator('.signatures li.stale').count()).toBe(2);
    writeFileSync(join(desk.folder, EQUIPMENT), register);
    await expect.poll(() => page.locator('.signatures li.stale').count()).toBe(1);
    // One that names no verdict was given for the words alone, and does not hold of what it names either.
    const record = desk.onDisk(RECORD);
    writeFileSync(join(desk.folder, RECORD), record.replace(/\n {4}verdict: "refuted"/g, ''));
    await page.waitForSelector('.signatures li.stale:has-text("given for the words alone")');
    await page.waitForSelector('.signatures li.stale:has-text("it carries no verdict of the proof")');
    writeFileSync(join(desk.folder, RECORD), record);
    await expect.poll(() => page.locator('.signatures li.stale').count()).toBe(1);
  });

  test('finding says how many places of a text it did not list, and lists them when asked', async () => {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', 'the');
    await page.waitForSelector('.over .wrong:has-text("Only the first 1000 places")');
    await page.fill('.over input[type=search]', 'lip');
    const more = page.locator('.found-more:has-text("OM-3140")');
    await more.waitFor();
    expect((await page.locator('.found li mark').first().innerText()).toLowerCase()).toBe('lip');
    const left = Number(/^(\d+) more place/.exec(await more.innerText())?.[1]);
    expect(left).toBeGreaterThan(0);
    const before = await page.locator('.found li:not(.found-more)').count();
    await more.locator('button').click();
    await expect.poll(() => page.locator('.found li:not(.found-more)').count()).toBe(before + left);
    expect(await more.count()).toBe(0);
    await page.click('.over header button');
  });

  test('remarks on a guide and signs it with all that it binds in', async () => {
    await page.selectOption('.one select[aria-label="Document"]', { value: GUIDE });
    await page.waitForSelector('.to-see:has-text("It binds in 6 procedures")');
    // The text that was signed above, and one that nobody signed.
    await page.waitForSelector('.to-see li li:has-text("OM-3140"):has-text("1 signature holds")');
    await page.waitForSelector('.to-see li li:has-text("OM-3150"):has-text("signed by nobody as it is now")');
    await page.click('.sign button.main');
    await page.waitForSelector('.signatures li:has-text("signed this text")');
    const text = desk.onDisk(LIP);
    writeFileSync(join(desk.folder, LIP), text.replace('Wait 15 min', 'Wait 16 min'));
    await page.waitForSelector('.signatures li:has-text("stale")');
    await page.keyboard.press('Control+1');
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', '[OM-3150]');
    await page.click('.found li:has-text("OM-8010") button');
    await page.click('.over header button');
    await page.keyboard.press('Control+Shift+K');
    await page.fill('.over input[aria-label="What is to be asked or changed"]', 'Is this one for the DL-20 too?');
    await page.click('.over button.main');
    await page.waitForSelector('.note-remark:has-text("Is this one for the DL-20 too?")');
    await page.keyboard.press('Control+2');
    await sheet('Remarks');
    await page.waitForSelector('.remark:has-text("Dock leveller"):has-text("OM-3150")');
    await save(page);
    expect(desk.onDisk('review/OM-8010.yaml')).toMatch(/remarks:[\s\S]*words: "OM-3150"[\s\S]*signatures:/);
    writeFileSync(join(desk.folder, LIP), text);
    await page.selectOption('.one select[aria-label="Document"]', { value: LIP });
  });

  test('sees what the library covers; a cell leads to its text', async () => {
    await sheet('Coverage');
    await page.waitForSelector('.coverage table');
    expect(await page.innerText('.coverage')).toMatch(/Limits by model[\s\S]*lip drift/);
    // What is refuted is not looked for among what is proved: it has a mark of its own, and the colour of an error.
    expect(await page.locator('.coverage td.cell-refuted .mark-refuted').count()).toBe(3);
    const ink = (cell: string) => page.evaluate<string>(`getComputedStyle(document.querySelector('.coverage td.${cell} button')).color`);
    expect(await ink('cell-refuted')).not.toBe(await ink('cell-proved'));
    // One stop for Tab a table; arrows go through its cells.
    const tables = await page.locator('.coverage table:has(button)').count();
    expect(await page.locator('.coverage td button[tabindex="0"]').count()).toBe(tables);
    await page.locator('.coverage td button').first().focus();
    await page.keyboard.press('ArrowDown');
    expect(await page.evaluate('document.activeElement.closest("tr").rowIndex')).toBe(2);
    await page.keyboard.press('Enter');
    await page.waitForSelector('.sheet-text');
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
