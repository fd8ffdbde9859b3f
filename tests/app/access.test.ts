/** Whether everyone can use the page: axe-core in each view, contrast of the inks, the keyboard alone, 200 percent, forced colours. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { atDesk } from '../support/at-desk.ts';
import { checked, clickLine, type Desk, hasBrowser, save, sitDown } from '../support/desk.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
/** WCAG 2.2 levels A and AA by the names axe-core gives them. */
const LEVELS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

const LIP = 'procedures/OM-3140-lip-cylinder.md';

/** The keys of every sheet that is laid over the page, but for saying outright, which is of a sentence. */
const SHEETS = [
  'Control+o',
  'Control+F8',
  'Control+Shift+l',
  'Control+Shift+r',
  'Control+Shift+f',
  'Control+Shift+m',
  'Control+F6',
  'Control+Shift+g',
  'Control+Shift+k',
  'Control+k',
] as const;

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

async function faults(page: Page): Promise<readonly string[]> {
  // Evaluated through the debugger, so that the page's own policy stays as strict as it is for users.
  await page.evaluate(`(() => { ${axe} })()`);
  const found = await page.evaluate<{ violations: readonly Violation[] }>(
    `axe.run(document, { runOnly: { type: 'tag', values: ${JSON.stringify(LEVELS)} } })`,
  );
  return found.violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)} ${failureSummary}`),
  );
}

describe.skipIf(!hasBrowser())('for everyone', () => {
  let browser: Browser;
  let desk: Desk;
  let page: Page;
  atDesk({}, (own) => {
    ({ browser, desk, page } = own);
  });

  /** All of a test is looked at before it fails, so that one run tells of every place. */
  const expectNone = async (state: string): Promise<void> => expect.soft(await faults(page), state).toEqual([]);

  /** The caret to words of the lip cylinder's procedure, as a user finds them. */
  async function toText(words: string): Promise<void> {
    await page.keyboard.press('Control+Shift+L');
    await page.fill('.over input[type=search]', words);
    await page.click('.found li:has-text("OM-3140") button');
    await page.click('.over > header button');
  }

  /** A step of its own in the middle of the others. */
  async function typeLine(line: string): Promise<void> {
    await toText('Wait 10 min');
    await page.keyboard.press('Home');
    await page.keyboard.insertText(`${line}\n`);
    await page.keyboard.press('ArrowUp');
    await checked(page);
  }

  async function takeBack(): Promise<void> {
    while ((await page.getAttribute('.page', 'data-unsaved')) !== '0') await page.keyboard.press('Control+z');
    await checked(page);
  }

  test('Write', async () => {
    await page.click('.library .entry:has-text("OM-3140")');
    await page.waitForSelector('.notes .reading');
    expect(await faults(page)).toEqual([]);
  });

  test('Write as it is heard: number and title apart, and beside each step its label, what may be live, and how it was read', async () => {
    const heard = await page.locator('.write').ariaSnapshot();
    expect(heard).toContain('button "OM-3140 Check the lip cylinder for drift and renew its seal (proved, nobody has signed)"');
    expect(heard).toMatch(/heading "OM-3140 Check the lip cylinder for drift and renew its seal\sproved"/);
    expect(heard).toContain('listitem: "2 may be live: sends people clear"');
    expect(heard).toMatch(/textbox "[^"]*F6 leads out of the text\."/);
  });

  test('every menu, open', async () => {
    const menus = page.locator('.menus .menu > button');
    expect(await menus.count()).toBeGreaterThan(4);
    for (let index = 0; index < (await menus.count()); index += 1) {
      await menus.nth(index).click();
      await page.waitForSelector('[role=menu]');
      await expectNone(`menu ${index}`);
      await page.keyboard.press('Escape');
    }
  });

  test('every sheet that is laid over the page', async () => {
    for (const keys of SHEETS) {
      await clickLine(page, '1.');
      await page.keyboard.press(keys);
      await page.waitForSelector('.over');
      await page.waitForTimeout(300);
      await expectNone(keys);
      if (keys === 'Control+o' && (await page.click('.over button:has-text("Open a folder")').then(() => true))) {
        await page.waitForSelector('.over .folders li');
        await page.waitForTimeout(300);
        await expectNone('a folder to choose');
      }
      await page.click('.over > header button');
    }
  });

  test('finding and renaming, with what would change shown', async () => {
    await page.keyboard.press('Control+Shift+L');
    await page.keyboard.type('isolator');
    await page.waitForSelector('.found li');
    await expectNone('found');
    await page.fill('.over input[aria-label="Replace with"]', 'switch');
    await page.click('.over button:has-text("Replace all")');
    await page.waitForSelector('.changed');
    await expectNone('what would change');
    await page.click('.over > header button');
  });

  test('Write with the strip for finding and its marks', async () => {
    await page.click('.sheet-text');
    await page.keyboard.press('Control+h');
    await page.keyboard.type('isolator');
    await page.waitForSelector('.sheet-text .found-here');
    expect(await faults(page)).toEqual([]);
    await page.keyboard.press('Escape');
  });

  test('Write where a name is in no register and a step is not understood, with the caret on it', async () => {
    await typeLine('1. Oil the [flange bearng] and frobnicate it.');
    await page.waitForSelector('.settle button');
    await expectNone('to settle');
    await page.keyboard.press('Control+Shift+F8');
    await page.waitForSelector('.over .settle');
    await expectNone('all names to settle');
    await page.keyboard.press('F7');
    await page.waitForSelector('.over:has-text("Spelling: ")', { timeout: 30_000 });
    await expectNone('a word in no dictionary');
    await page.keyboard.press('Escape');
    await page.click('.unread button');
    await page.waitForSelector('.over');
    await page.waitForTimeout(300);
    await expectNone('said outright');
    await page.click('.over > header button');
    await takeBack();
  });

  test('Write with a text that was refuted, and with a remark beside it', async () => {
    await toText('Put your lock');
    for (const key of ['Home', 'Shift+End', 'Delete', 'Delete']) await page.keyboard.press(key);
    await page.waitForSelector('.note-error');
    await expectNone('refuted');
    await page.keyboard.press('Control+Shift+K');
    await page.fill('.over label:has-text("Initials") input', 'ab');
    await page.fill('.over input[aria-label="What is to be asked or changed"]', 'Which lock?');
    await page.click('.over button.main');
    await page.waitForSelector('.note-remark');
    await expectNone('a remark');
  });

  test('Review of it, each of its parts, with all that unfolds', async () => {
    await page.keyboard.press('Control+2');
    const parts = await page.locator('.sub button').count();
    expect(parts).toBeGreaterThan(2);
    for (let index = 0; index < parts; index += 1) {
      const part = page.locator('.sub button').nth(index);
      await part.click();
      await page.waitForTimeout(300);
      for (const folded of await page.locator('main details:not([open]) > summary').all()) await folded.click();
      await expectNone(await part.innerText());
    }
  });

  test('the film of it, beside a recording', async () => {
    const vtt = 'WEBVTT\n\n00:00.000 --> 00:04.000\nTighten the ring to nine newton metres.\n';
    await page.click('.sub button:has-text("Film")');
    await page.setInputFiles('.one input[type=file]', { name: 'take.vtt', mimeType: 'text/vtt', buffer: Buffer.from(vtt) });
    await page.waitForSelector('.strip');
    await expectNone('a recording');
  });

  test('Print of it, with what is in the way, sheets, many documents, and their report', async () => {
    await page.keyboard.press('Control+3');
    await page.waitForSelector('#blocked');
    await page.waitForSelector('.page-canvas');
    await expectNone('blocked');
    await page.locator('.settings label:has-text("On the sheet") select').selectOption('booklet');
    await page.waitForSelector('.printed-sheet');
    await expectNone('a booklet');
    await page.locator('.settings label:has-text("On the sheet") select').selectOption('single');
    await page.click('.batch summary');
    for (const number of ['OM-1110', 'OM-3140']) await page.check(`.batch li:has-text("${number}") input`);
    await expectNone('many to choose');
    await page.click('.batch button.main');
    await page.waitForSelector('.writing-line progress');
    await expectNone('being written');
    await page.waitForSelector('.writing-line button:has-text("Dismiss")', { timeout: 60_000 });
    await page.click('.writing-line summary');
    await expectNone('the report');
    await page.click('.writing-line button:has-text("Dismiss")');
    await page.keyboard.press('Control+1');
    await save(page);
  });

  test('a text that changed on disk meanwhile, and one found again after the window was lost', async () => {
    await typeLine('1. Send everyone clear.');
    writeFileSync(join(desk.folder, LIP), `${desk.onDisk(LIP)}\n`);
    await page.waitForSelector('.band-message');
    await expectNone('changed on disk');
    await page.click('.band-message button:has-text("Take the text on disk")');
    await typeLine('1. Send everyone clear.');
    await page.waitForTimeout(800);
    await page.close();
    page = await desk.another();
    await page.waitForSelector('.band-message[role=alert]');
    await expectNone('found again');
    await page.click('.band-message button:has-text("Throw it away")');
    await page.waitForSelector('.library .entry[aria-current=true]');
    await page.click('.library .entry:has-text("Equipment")');
    await page.waitForSelector('.sheet-entries');
    await expectNone('a register');
    await page.click('.library .entry:has-text("OM-8010")');
    await page.waitForSelector('.proof canvas');
    await expectNone('a guide');
  });

  test('an empty library', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'handsclear-access-'));
    writeFileSync(join(folder, 'library.yaml'), 'publisher: Orrfen Machines\n');
    const other = await sitDown(browser, { folder });
    try {
      for (const keys of ['Control+1', 'Control+2', 'Control+3']) {
        await other.page.keyboard.press(keys);
        await other.page.waitForSelector('.nothing-yet button');
        expect(await faults(other.page), keys).toEqual([]);
      }
    } finally {
      await other.close();
      rmSync(folder, { recursive: true, force: true });
    }
  });

  test('the three views and every menu are reached from the keyboard, and the caret is never trapped', async () => {
    await page.keyboard.press('Control+1');
    const seen = new Set<string>();
    await page.locator('.menu button').first().focus();
    for (let times = 0; times < 14; times += 1) {
      seen.add(await page.evaluate<string>('document.activeElement.textContent'));
      await page.keyboard.press('Tab');
    }
    for (const name of ['File', 'Edit', 'Insert', 'Write', 'Review', 'Print']) expect([...seen]).toContain(name);
  });

  describe('at 200 percent (a window half as wide and high)', () => {
    let small: Desk;
    let own: Page;
    beforeAll(async () => {
      small = await sitDown(browser, { width: 640, height: 400 });
      own = small.page;
    });
    afterAll(async () => small?.close());

    /** Scrolled to as a user would, it is in the window and nothing lies over its middle. */
    async function reached(place: string): Promise<void> {
      const found = own.locator(place).first();
      await found.scrollIntoViewIfNeeded();
      const box = await found.boundingBox();
      expect(box, place).not.toBeNull();
      const { x, y, width, height } = box ?? { x: 0, y: 0, width: 0, height: 0 };
      const [left, top, right, bottom] = [Math.max(0, x), Math.max(0, y), Math.min(640, x + width), Math.min(400, y + height)];
      expect(right - left, `${place}: width in sight`).toBeGreaterThan(10);
      expect(bottom - top, `${place}: height in sight`).toBeGreaterThan(5);
      const over = await own.evaluate<string>(`(() => {
        const wanted = document.querySelector(${JSON.stringify(place)});
        const hit = document.elementFromPoint(${(left + right) / 2}, ${(top + bottom) / 2});
        return hit && (wanted.contains(hit) || hit.contains(wanted)) ? '' : (hit?.outerHTML.slice(0, 120) ?? 'nothing');
      })()`);
      expect(over, `${place} lies under`).toBe('');
    }

    /** What is wider than its frame; drawings, printed pages and tables are two-dimensional by nature. */
    const sideways = () =>
      own.evaluate<string[]>(
        `[...document.querySelectorAll('*')]
          .filter((one) => !one.closest('.pages, .wide, .panned, .strip, .monaco-editor'))
          .filter((one) => one === document.documentElement || /auto|scroll/.test(getComputedStyle(one).overflowX))
          .filter((one) => one.scrollWidth > one.clientWidth + 1)
          .map((one) => one.tagName + '.' + one.className)`,
      );

    test('Write is one column, with the first minute, the notes, the page proof and the cautions', async () => {
      expect(await sideways()).toEqual([]);
      for (const place of ['.tour button.main', '.library .entry', '.sheet-text .view-line', '.sheet-right .reading', '.foot .cautions'])
        await reached(place);
      // Several lines of the list are to be seen at a time.
      expect((await own.locator('.library-lines').boundingBox())?.height ?? 0).toBeGreaterThan(120);
      let below = 0;
      for (const place of ['.library', '.sheet-text', '.sheet-right', '.proof']) {
        const box = await own.evaluate<{ top: number; bottom: number; width: number }>(`(() => {
          const { top, bottom, width } = document.querySelector(${JSON.stringify(place)}).getBoundingClientRect();
          return { top: top + scrollY, bottom: bottom + scrollY, width };
        })()`);
        expect(box.width, place).toBeGreaterThan(500);
        expect(box.top, place).toBeGreaterThanOrEqual(below - 1);
        below = box.bottom;
      }
    });

    test('the page proof is painted, and leafed through', async () => {
      await reached('.proof figcaption button:last-child');
      const said = await own.innerText('.proof figcaption');
      await own.click('.proof figcaption button:last-child');
      await expect.poll(() => own.innerText('.proof figcaption')).not.toBe(said);
      await reached('.proof canvas');
      const inked = `(() => {
        const canvas = document.querySelector('.proof canvas');
        const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
        return data.some((value, at) => at % 4 === 0 && data[at + 3] > 0 && value < 100);
      })()`;
      await expect.poll(() => own.evaluate<boolean>(inked)).toBe(true);
    });

    test('the note of the step at the caret is brought into sight among the notes', async () => {
      await own.click('.library .entry:has-text("OM-3140")');
      await own.waitForSelector('.sheet-right .reading');
      await own.keyboard.press('Control+Shift+L');
      await own.fill('.over input[type=search]', 'Wait 10 min');
      await own.click('.found li:has-text("OM-3140") button');
      await own.click('.over > header button');
      await own.waitForSelector('.reading-here');
      await expect
        .poll(() =>
          own.evaluate<boolean>(`(() => {
            const [list, here] = ['.sheet-right', '.reading-here'].map((one) => document.querySelector(one).getBoundingClientRect());
            return here.top >= list.top - 1 && here.top < list.bottom;
          })()`),
        )
        .toBe(true);
    });

    test('every menu and every sheet fits in the window', async () => {
      for (const menu of await own.locator('.menus .menu > button').all()) {
        await menu.click();
        await reached('[role=menuitem]:last-child');
        expect(await sideways()).toEqual([]);
        await own.keyboard.press('Escape');
      }
      for (const keys of SHEETS) {
        await own.keyboard.press(keys);
        await own.waitForSelector('.over');
        expect(await sideways(), keys).toEqual([]);
        await reached('.over > header button');
        await own.click('.over > header button');
      }
    });

    test('Review is one column in each of its parts, and Print is, with its pages and buttons', async () => {
      await own.keyboard.press('Control+2');
      for (const part of await own.locator('.sub button').all()) {
        await part.click();
        await own.waitForTimeout(300);
        expect(await sideways(), await part.innerText()).toEqual([]);
        await reached('.foot .cautions');
      }
      await own.keyboard.press('Control+3');
      await own.waitForSelector('.page-canvas');
      // No page is cut off at both sides before somebody has asked for a size.
      expect(await own.inputValue('select[aria-label="Size of the pages"]')).toBe('width');
      expect(await sideways()).toEqual([]);
      for (const place of ['.write-foot button.main', '.batch summary', '.pages-bar select', '.pages .page-canvas', '.foot .cautions'])
        await reached(place);
    });

    test('what was done is said where it is seen, and does not lie over the cautions', async () => {
      await own.click('.settings button:has-text("Write the checklist")');
      await own.waitForSelector('.foot [role=status]:has-text("Written")');
      await own.evaluate('scrollTo(0, 0)');
      const box = await own.locator('.foot [role=status]').boundingBox();
      expect((box?.y ?? 400) + (box?.height ?? 0)).toBeLessThanOrEqual(400);
      await reached('.foot .cautions');
    });
  });

  test('where the page proof has no room beside the text it stands below, and the first minute above', async () => {
    const other = await sitDown(browser, { width: 1100, height: 800 });
    try {
      await other.page.waitForSelector('.tour-line button.main');
      await other.page.locator('.proof canvas').scrollIntoViewIfNeeded();
      const box = await other.page.locator('.proof canvas').boundingBox();
      expect(box?.width).toBeGreaterThan(330);
      expect(box?.y).toBeLessThan(800);
    } finally {
      await other.close();
    }
  });

  test('in forced colours (high contrast) the views still stand and grades keep their shapes', async () => {
    const other = await sitDown(browser, { forced: true });
    try {
      await checked(other.page);
      await other.page.keyboard.press('Control+2');
      await other.page.waitForSelector('.list .entry');
      expect(await other.page.innerText('.list')).toMatch(/[■▲○]/);
      expect(await faults(other.page)).toEqual([]);
      // Only what is chosen has a bar: borders that are not seen elsewhere are drawn here.
      const bar = (entry: string) =>
        other.page.evaluate<string>(`getComputedStyle(document.querySelector('.list ${entry}')).borderLeftColor`);
      expect(await bar('.entry[aria-current=true]')).not.toBe(await bar('.entry:not([aria-current=true])'));
      // A tick is seen, as without forced colours.
      for (const one of [other.page, page]) {
        await one.keyboard.press('Control+Shift+L');
        const box = one.locator('.over').getByRole('checkbox', { name: 'Match case' });
        const empty = await box.screenshot();
        await box.check();
        await one.click('.over input[type=search]');
        expect((await box.screenshot()).equals(empty)).toBe(false);
        await one.keyboard.press('Escape');
      }
    } finally {
      await other.close();
    }
  });

  test('the second language is there whole', async () => {
    const other = await sitDown(browser, { language: 'de-DE' });
    try {
      expect(await other.page.innerText('.views')).not.toMatch(/Write/);
      expect(await other.page.getAttribute('.page', 'lang')).toBe('de');
      await other.page.click('.menus button:has-text("Bearbeiten")');
      const items = (await other.page.locator('[role=menu] [role=menuitem]').allInnerTexts()).map((one) => one.replace(/\s+/g, ' '));
      expect(items).toContain('Kopieren Strg+C');
      expect(items).toContain('Vorige Fundstelle Umschalt+F3');
      await other.page.keyboard.press('Escape');
      // What a machine is, a text is not.
      await other.page.click('.sheet-text');
      await other.page.keyboard.type('x');
      await other.page.waitForSelector('.head :text-is("1 Text nicht gespeichert")');
      // What the host says no with is told in it too.
      const refused = { ok: false, refused: true, error: { message: 'english', said: [['unwritten', 'ENOSPC'], ['textKept']] } };
      await other.page.route('**/call/file.save', (route) => route.fulfill({ status: 400, json: refused }));
      await other.page.keyboard.press('Control+s');
      await expect
        .poll(() => other.page.innerText('.foot [role=status]'))
        .toContain('Es konnte nicht geschrieben werden: die Platte ist voll. Sonst wurde nichts geschrieben.');
    } finally {
      await other.close();
    }
  });
});
