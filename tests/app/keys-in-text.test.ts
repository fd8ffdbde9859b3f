/** Enter while writing, in a real browser: it never takes a word that was not meant, begins the next step with its number, and goes one level in below a key. */
import type { Page } from 'playwright-core';
import { beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser } from '../support/desk.ts';

const LIST = '.suggest-widget.visible .monaco-list-row';

describe.skipIf(!hasBrowser())('keys in the text', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ procedures: /OM-3\d+/, noTour: true }, (own) => {
    ({ desk, page } = own);
  });
  /** What is offered comes late, as on a busy machine. */
  const late = (milliseconds: number) => page.evaluate(`globalThis.late = ${milliseconds}`);
  beforeAll(async () => {
    await desk.context.addInitScript(`
      const send = Worker.prototype.postMessage;
      Worker.prototype.postMessage = function (...all) {
        const wait = all[0]?.query === 'complete' ? globalThis.late : 0;
        if (wait) setTimeout(() => send.apply(this, all), wait);
        else send.apply(this, all);
      };`);
    await page.reload();
    await checked(page);
  });
  /** An empty line above the last section, where a step may begin. */
  beforeEach(async () => {
    await late(0);
    await page.click('.library .entry:has-text("OM-3150")');
    await page.click('.library .entry:has-text("OM-3140")');
    await page.click('.sheet-text');
    await page.keyboard.press('Control+End');
    for (const key of ['Enter', 'Enter']) await page.keyboard.press(key);
    await page.keyboard.type('## Trial');
    for (const key of ['Enter', 'Enter']) await page.keyboard.press(key);
  });
  /** The text from the trial's heading on. */
  const written = async (): Promise<string> => {
    await page.keyboard.press('Control+s');
    await page.waitForSelector('.page[data-unsaved="0"]');
    return desk.onDisk('procedures/OM-3140-lip-cylinder.md').split('## Trial\n\n').at(-1) ?? '';
  };

  test('a unit that was typed stays, where the list beside it is still that of fewer letters', async () => {
    await page.keyboard.type('Wait until it is below 40 ');
    await page.waitForSelector(LIST);
    await late(600);
    await page.keyboard.type('°C.');
    await page.keyboard.press('Enter');
    await page.keyboard.type('Then');
    expect(await written()).toBe('Wait until it is below 40 °C.\nThen');
  });

  test('a word that goes on as the letters begin is taken, though the next answer is still awaited', async () => {
    await page.keyboard.type('Look at the [se');
    await page.waitForSelector(`${LIST}:has-text("service strut")`);
    await late(600);
    await page.keyboard.type('r');
    await page.waitForSelector('.suggest-widget .monaco-list-row.focused:has-text("service strut")');
    await page.keyboard.press('Enter');
    await page.keyboard.type('.');
    expect(await written()).toBe('Look at the [service strut].');
  });

  test('what came up by itself is not taken by Enter, before a letter was typed of it; from the list and by Tab it is', async () => {
    await page.keyboard.type('Wait 40 ');
    await page.waitForSelector(LIST);
    await page.keyboard.press('Enter');
    await page.keyboard.type('Wait 41 ');
    await page.waitForSelector(LIST);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.keyboard.type(' or 42 ');
    await page.waitForSelector(LIST);
    await page.keyboard.press('Tab');
    expect(await written()).toMatch(/^Wait 40 \nWait 41 \S+ or 42 \S+$/);
  });

  test('a step ends in the next one, a step without words ends the list, and a number typed all the same is the number', async () => {
    await page.keyboard.type('1. Clean the lip.');
    await page.keyboard.press('Enter');
    await page.keyboard.type('Clean the edge.');
    await page.keyboard.press('Enter');
    await page.keyboard.type('3. Clean the corner.');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    await page.keyboard.type('Done.');
    expect(await written()).toBe('1. Clean the lip.\n2. Clean the edge.\n3. Clean the corner.\nDone.');
  });

  test('in a register the line below a key is one level in', async () => {
    await page.click('.library .entry:has-text("Tools")');
    await page.click('.sheet-text');
    await page.keyboard.press('Control+End');
    await page.keyboard.type('trial:');
    await page.keyboard.press('Enter');
    await page.keyboard.type('inside:');
    await page.keyboard.press('Enter');
    await page.keyboard.type('x: y');
    await page.keyboard.press('Enter');
    await page.keyboard.type('z: y');
    await page.keyboard.press('Control+s');
    await page.waitForSelector('.page[data-unsaved="0"]');
    expect(desk.onDisk('registers/tools.yaml')).toMatch(/trial:\n {2}inside:\n {4}x: y\n {4}z: y$/);
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
