/** A writer without a mouse in a real browser: from opening to a text that is mended, accepted and settled, and every key says so where it has nothing to do. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser, save } from '../support/desk.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';

describe.skipIf(!hasBrowser())('a writer without a mouse', () => {
  let desk: Desk;
  let page: Page;
  atDesk({}, (own) => {
    ({ desk, page } = own);
  });

  const press = (keys: string) => page.keyboard.press(keys);
  const status = () => page.innerText('.foot [role=status]');
  const heard = () => page.evaluate<string>('document.querySelector("p.heard").textContent');
  const inText = () => page.evaluate<boolean>('document.querySelector(".sheet-text").contains(document.activeElement)');
  const within = (place: string) => page.evaluate<boolean>(`document.activeElement.matches(${JSON.stringify(place)})`);
  /** By the key that goes from part to part. */
  async function partTo(place: string): Promise<void> {
    for (let times = 0; times < 12 && !(await within(place)); times += 1) await press('F6');
    expect(await within(place), place).toBe(true);
  }
  async function tabTo(place: string, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
    for (let times = 0; times < 60 && !(await within(place)); times += 1) await press(key);
    expect(await within(place), place).toBe(true);
  }
  const shownText = async () => (await page.innerText('.sheet-text .view-lines')).replaceAll('\u00a0', ' ');
  /** As the strip for finding leads there: from the keyboard too. */
  async function toText(text: string): Promise<void> {
    await press('Control+f');
    // Emptied first, and typed in one go: else what is told may still be of other words.
    await press('Delete');
    await page.waitForSelector('.find-strip output:empty', { state: 'attached' });
    await page.keyboard.insertText(text);
    await page.waitForSelector('.find-strip output:has-text(" of ")');
    await press('Escape');
    await press('ArrowRight');
  }
  /** From the text to the list, where Tab is not typed. */
  async function open(number: string): Promise<void> {
    await partTo('.library *');
    await tabTo('.library input', 'Shift+Tab');
    await press('Control+a');
    await page.keyboard.type(number);
    await press('Enter');
    await page.waitForSelector(`.sheet-head h1:has-text("OM-${number}")`);
    await expect.poll(inText).toBe(true);
  }
  const says = async (keys: string, said: RegExp): Promise<void> => {
    await press(keys);
    await expect.poll(status, { message: keys }).toMatch(said);
  };

  test('opens a text from the list, and is told by every key what does not stand at the caret', async () => {
    await open('5110');
    await toText('Tell ');
    await says('Alt+PageDown', /Nothing was found in this text. That does not make a machine safe/);
    await says('F4', /No finding stands here/);
    await says('Shift+F4', /was understood/);
    await says('Shift+F8', /Every name of this text is in a register/);
    // Between two that say the same: else the second would be heard before it has spoken.
    await says('F9', /no place to go back to/);
    await says('Control+Shift+F8', /Every name of this text is in a register/);
    await press('Control+Home');
    await says('F8', /No step stands here/);
    await says('F2', /No name and no reference stands here/);
    expect(await page.locator('.over').count()).toBe(0);
  });

  test('goes to what a name means and back, and has it told', async () => {
    await open('3140');
    await toText('swing the [service strut');
    await press('Shift+F2');
    await page.waitForSelector('.monaco-hover:has-text("service strut")');
    await expect.poll(heard).toMatch(/service strut: /);
    await press('Escape');
    await press('F2');
    await page.waitForSelector('.sheet-head h1:has-text("Equipment")');
    await expect.poll(inText).toBe(true);
    await press('F9');
    await page.waitForSelector('.sheet-head h1:has-text("OM-3140")');
    await expect.poll(shownText).toContain('swing the [service strut]');
  });

  test('goes from finding to finding, hears each, and has one put right', async () => {
    await toText('Wait 10 min');
    await press('Home');
    await page.keyboard.insertText('1. Oil the [stopwach] and frobnicate it.\n');
    await checked(page);
    await press('Control+Home');
    const said: string[] = [];
    for (let times = 0; times < 9 && !/stopwach/.test(said.at(-1) ?? ''); times += 1) {
      const before = said.at(-1) ?? '';
      await press('Alt+PageDown');
      await expect.poll(heard).not.toBe(before);
      said.push(await heard());
    }
    expect(said.join('\n')).toMatch(
      /Error: This step is labelled "1\."[^\n]*Put right: Renumber[\s\S]*Error: "stopwach" is not a registered name/,
    );
    expect(await status()).toMatch(/^Findings? \d( to \d)? of \d$/);
    expect(await page.locator('.note:has-text("stopwach")').isVisible()).toBe(true);
    await press('Alt+PageDown');
    await expect.poll(heard).toMatch(/frobnicate/);
    await says('F4', /in no register: settle it with Shift\+F8/);
    await press('Alt+PageUp');
    await expect.poll(heard).toMatch(/stopwach/);
    await press('Alt+PageUp');
    await expect.poll(heard).toMatch(/labelled "1\."/);
    await says('F4', /Renumber.*Undo takes it back/);
    await checked(page);
    expect(await shownText()).toMatch(/8\. Oil the \[stopwach\]/);
    expect(await shownText()).toMatch(/9\. Wait 10 min/);
  });

  test('settles a name by writing the near one, and another by writing it into a register', async () => {
    await toText('stopwach');
    await press('Shift+F8');
    await page.waitForSelector('.over button:focus:has-text("Write stopwatch")');
    await press('Enter');
    await page.waitForSelector('.over', { state: 'detached' });
    await expect.poll(shownText).toContain('8. Oil the [stopwatch] and frobnicate it.');
    await expect.poll(inText).toBe(true);
    await toText('Wait 10 min');
    await press('End');
    await page.keyboard.insertText(' Look at the [drip plate] and the [spill cup].');
    await checked(page);
    await press('Control+Shift+F8');
    await page.waitForSelector('.over .settle');
    for (const name of ['frobnicate', 'drip plate', 'spill cup']) expect(await page.innerText('.over')).toContain(name);
    await expect.poll(() => within('.over .settle button')).toBe(true);
    for (
      let times = 0;
      times < 40 &&
      !(await page.evaluate<boolean>(
        '/drip plate/.test(document.activeElement.parentElement.textContent) && /a part/.test(document.activeElement.textContent)',
      ));
      times += 1
    )
      await press('ArrowDown');
    await press('Enter');
    await page.waitForSelector('.over:not(:has-text("drip plate"))');
    // The next one is at hand.
    await expect.poll(() => within('.over .settle button')).toBe(true);
    await press('Escape');
    await expect.poll(inText).toBe(true);
  });

  test('accepts readings, and says once who does', async () => {
    await toText('Put your lock');
    await press('F8');
    await page.waitForSelector('.over:has-text("Accept this reading") q:has-text("Put your lock")');
    await expect.poll(() => within('.over .field input')).toBe(true);
    await page.keyboard.type('ab');
    await press('Enter');
    await expect.poll(status).toMatch(/^Accepted by ab: .*lock/);
    await expect.poll(inText).toBe(true);
    await says('F8', /accepted already/);
    await toText('Switch off the [main isolator]');
    await says('F8', /^Accepted by ab: .*main isolator off/);
  });

  test('says outright what a step means that cannot be read', async () => {
    await toText('and frobnicate it');
    await press('Shift+F4');
    await page.waitForSelector('.over select option:nth-child(2)', { state: 'attached' });
    await tabTo('.over select', 'Shift+Tab');
    await press('ArrowDown');
    await tabTo('.over input[aria-label="because"]');
    await page.keyboard.type('the maker calls it so');
    await press('Enter');
    await page.waitForSelector('.over', { state: 'detached' });
    await checked(page);
    expect((await shownText()).replace(/\s+/g, ' ')).toMatch(/8\. \{reads=".+" because="the maker/);
  });

  test('writes a word otherwise that no dictionary has', async () => {
    await toText('Send everyone off the platform');
    await press('End');
    await page.keyboard.insertText(' Keep clear of the platfrom.');
    await checked(page);
    await press('Home');
    await press('F7');
    await page.waitForSelector('.over button:focus:has-text("platform")', { timeout: 30_000 });
    await press('Enter');
    await expect.poll(shownText).toContain('Keep clear of the platform.');
    await expect.poll(inText).toBe(true);
    await checked(page);
  });

  test('does what a note beside the line offers, and has the caret back in the text', async () => {
    await toText('Wait 10 min');
    await press('Home');
    const before = await page.innerText('.counts + .heard');
    await page.keyboard.insertText('1. Send everyone clear.\n');
    await checked(page);
    // Whoever listens hears that more was found, when the hands rest.
    await expect.poll(() => page.innerText('.counts + .heard'), { timeout: 10_000 }).not.toBe(before);
    expect(await page.innerText('.counts + .heard')).toMatch(/^[2-9] errors, /);
    await page.waitForSelector('.note-error button:has-text("Renumber")');
    await partTo('.sheet-right *');
    await tabTo('.note-error button');
    await press('Enter');
    await expect.poll(shownText).toContain('9. Send everyone clear.');
    await expect.poll(inText).toBe(true);
    await partTo('.library *');
    await press('Escape');
    await expect.poll(inText).toBe(true);
  });

  test('hears what the band shows beside the step, and no longer sees what was said of another place', async () => {
    await toText('Press the [stop button]');
    await press('Home');
    await says('Shift+F2', /step Check the drift 5: may be live\./);
    await says('F4', /No finding stands here/);
    await page.waitForTimeout(600);
    await press('ArrowDown');
    await expect.poll(status).toBe('');
  });

  test('goes through the list by arrows', async () => {
    await partTo('.library *');
    await tabTo('.library input', 'Shift+Tab');
    await press('Control+a');
    await press('Delete');
    for (let times = 0; times < 2; times += 1) await press('ArrowDown');
    expect(await page.evaluate<string>('document.activeElement.textContent')).toMatch(/^OM-1120/);
    await press('ArrowUp');
    await press('Escape');
    await expect.poll(inText).toBe(true);
  });

  test('goes through the variants', async () => {
    await says('Control+F2', /^Variant: DL-20, /);
    await says('Control+Shift+F2', /^Variant: worst of all/);
  });

  test('and saves it all', async () => {
    await save(page);
    const text = desk.onDisk(LIP);
    for (const part of ['Keep clear of the platform.', '[stopwatch] and frobnicate', 'because="the maker calls it so"'])
      expect(text).toContain(part);
    expect(desk.onDisk('registers/equipment.yaml')).toContain('drip plate');
    expect(desk.onDisk('review/OM-3140.yaml')).toMatch(/ab/);
    expect(desk.complaints).toEqual([]);
  });
});
