/** A browser and a desk for all tests of one `describe`: begun before the first, closed after the last. What is done there is each test's own. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { type Desk, launch, type Options, sitDown } from './desk.ts';

export interface AtDesk {
  readonly browser: Browser;
  readonly desk: Desk;
  readonly page: Page;
}

interface Sitting extends Options {
  /** The tour of the first minute is put off, so that nothing lies beside the page. */
  readonly noTour?: true;
  /** Number of the document that is opened from the list. */
  readonly opens?: string;
}

/** `take` is given what was begun, for the variables of the tests. */
export function atDesk({ noTour, opens, ...options }: Sitting, take: (own: AtDesk) => void): void {
  let browser: Browser | undefined;
  let desk: Desk | undefined;
  beforeAll(async () => {
    browser = await launch();
    desk = await sitDown(browser, options);
    const { page } = desk;
    take({ browser, desk, page });
    if (noTour) await page.click('.tour button:has-text("Not now")');
    if (opens !== undefined) await page.click(`.library .entry:has-text("${opens}")`);
  });
  afterAll(async () => {
    await desk?.close();
    await browser?.close();
  });
}
