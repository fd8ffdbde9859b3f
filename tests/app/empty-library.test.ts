/** A library with nothing in it yet, in a real browser: every view says what it is for and what comes first, and has a button that does it. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/index.ts';
import { atDesk } from '../support/at-desk.ts';
import { type Desk, hasBrowser } from '../support/desk.ts';

const SHEETS = ['Findings', 'Walk', 'Ways', 'Coverage', 'Changes', 'Remarks', 'Film', 'Sign-off'] as const;
const MACHINE = `families:
  lift table:
    energy:
      supply: {kind: electrical, size: 400 V, isolate: {main isolator: off}}
models:
  LT-500: {family: lift table}
`;

describe.skipIf(!hasBrowser())('in an empty library', () => {
  let desk: Desk;
  let page: Page;
  const folder = mkdtempSync(join(tmpdir(), 'handsclear-empty-'));
  beforeAll(async () => {
    mkdirSync(join(folder, 'registers'));
    for (const own of ['procedures', 'guides', 'figures']) mkdirSync(join(folder, own));
    writeFileSync(join(folder, 'registers/equipment.yaml'), 'families: {}\nmodels: {}\n');
    writeFileSync(join(folder, 'library.yaml'), 'publisher: Orrfen Machines\n');
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  atDesk({ folder }, (own) => {
    ({ desk, page } = own);
  });

  /** Goes to each view and gives what it says. */
  async function everyView(look: (name: string, said: string) => void): Promise<void> {
    for (const [key, name] of [
      ['Control+1', 'Write'],
      ['Control+3', 'Print'],
    ] as const) {
      await page.keyboard.press(key);
      await page.waitForSelector('main');
      look(name, await page.innerText('main'));
    }
    await page.keyboard.press('Control+2');
    for (const sheet of SHEETS) {
      await page.click(`.sub button:has-text("${sheet}")`);
      await page.waitForSelector('.nothing-yet');
      look(sheet, await page.innerText('main'));
    }
  }

  test('no view says that it is still reading, and each says what it is for and that a machine comes first', async () => {
    const told = new Set<string>();
    await everyView((name, said) => {
      expect(said, name).not.toMatch(/reading …/);
      expect(said, name).toMatch(/names no machine yet/);
      expect(said, name).toMatch(/Describe a machine/);
      told.add(said.replace(/^[\s\S]*Sign-off\n/, ''));
    });
    // There is nothing to take a lock out of either.
    expect(await page.locator('.tour').count()).toBe(0);
    // What a view is for is its own.
    expect(told.size).toBe(SHEETS.length + 2);
  });

  test('a new procedure says so too, instead of asking for models that there are none of', async () => {
    await page.keyboard.press('Control+F8');
    await page.waitForSelector('.over');
    expect(await page.innerText('.over')).toMatch(/names no machine yet/);
    await page.click('.over button:has-text("Describe a machine")');
    await page.waitForSelector('.sheet-text');
    expect(await page.locator('.over').count()).toBe(0);
    expect((await page.innerText('.sheet-head h1')).trim()).toBe('Equipment');
  });

  test('the blanks of a machine are there to be filled in: each kind of energy is asked for, nothing is guessed, and undo takes them away', async () => {
    const errors = () => page.innerText('.counts');
    await expect.poll(errors).toMatch(/^[1-9]\d* errors/);
    await page.keyboard.press('Control+s');
    await page.waitForSelector('.page[data-unsaved="0"]');
    const text = desk.onDisk('registers/equipment.yaml');
    for (const kind of ['electrical', 'pneumatic', 'hydraulic', 'gravity', 'spring', 'thermal'])
      expect(text).toMatch(new RegExp(`kind: ${kind}\\n +size:\\n +\\w+: \\{\\}`));
    const found = checkLibrary(['library.yaml', 'registers/equipment.yaml'].map((path) => ({ path, text: desk.onDisk(path) }))).findings;
    // Said of every source: how much there is, and what makes it safe.
    expect(found.filter(({ message }) => /"size" .* is empty/.test(message))).toHaveLength(6);
    expect(found.filter(({ message }) => /has nothing that makes it safe/.test(message))).toHaveLength(6);
    await page.keyboard.press('Control+z');
    await expect.poll(errors).toMatch(/^0 errors/);
    await page.keyboard.press('Control+s');
    await page.waitForSelector('.page[data-unsaved="0"]');
    expect(desk.onDisk('registers/equipment.yaml')).toBe('families: {}\nmodels: {}\n');
  });

  test('the page proof of a register says that registers are not printed', async () => {
    await expect.poll(() => page.innerText('.proof-side')).toMatch(/Registers are not printed/);
    expect(await page.innerText('.proof-side')).not.toMatch(/reading …/);
  });

  test('when a machine is described the first procedure comes next, and with it the views are what they are for', async () => {
    writeFileSync(join(folder, 'registers/equipment.yaml'), MACHINE);
    await page.keyboard.press('Control+3');
    await page.click('.nothing-yet button:has-text("New procedure")');
    await page.fill('.over input[aria-label^="Title"]', 'Check the table for drift');
    // The name of the machine ticks its models.
    await page.click('.model-ticks button:has-text("lift table")');
    expect(await page.isChecked('.over label:has-text("LT-500") input')).toBe(true);
    await page.click('.over button:has-text("Create it")');
    await page.waitForSelector('.sheet-head h1:has-text("Check the table for drift")');
    await page.keyboard.press('Control+3');
    await page.waitForSelector('.page-canvas');
    expect(await page.locator('.nothing-yet').count()).toBe(0);
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
