/** What is offered while somebody writes, in a real browser: it is never taken in place of what was typed. */
import type { Page } from 'playwright-core';
import { beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, type Desk, hasBrowser } from '../support/desk.ts';

const LIST = '.suggest-widget.visible .monaco-list-row';

describe.skipIf(!hasBrowser())('what is offered', () => {
  let desk: Desk;
  let page: Page;
  atDesk({ procedures: /OM-3\d+/, noTour: true }, (own) => {
    ({ desk, page } = own);
  });
  /** It comes late, as on a busy machine. */
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
  /** An empty line below a heading of its own, at the end of the text. */
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

  test('a unit that was typed stays, however late the list of fewer letters is', async () => {
    await page.keyboard.type('Wait until it is below 40 ');
    await page.waitForSelector(LIST);
    await late(600);
    await page.keyboard.type('°C.');
    await page.keyboard.press('Enter');
    await page.keyboard.type('Then');
    expect(await written()).toBe('Wait until it is below 40 °C.\nThen');
  });

  test('so does a name', async () => {
    await page.keyboard.type('Look at the [');
    await page.waitForSelector(LIST);
    await late(600);
    await page.keyboard.type('old lamp');
    await page.keyboard.press('Enter');
    await page.keyboard.type('Then');
    expect(await written()).toBe('Look at the [old lamp\nThen');
  });

  test('what came up by itself is not taken by Enter before a letter was typed of it; from the list, and by Tab, it is', async () => {
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

  test('a word of which letters were typed is taken by Enter', async () => {
    await page.keyboard.type('Wait 40 ');
    await page.waitForSelector(LIST);
    await page.keyboard.type('mi');
    await page.waitForSelector(`${LIST}.focused:has-text("min")`);
    await page.keyboard.press('Enter');
    expect(await written()).toBe('Wait 40 min');
  });

  test('and the page had nothing to complain of', () => expect(desk.complaints).toEqual([]));
});
