/**
 * The page in a real browser over the loopback host, on a copy of the sample library, for tests of a user's whole day. Says where things
 * lie; does nothing that a user could not.
 */
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { buildApp, root } from '../../cli/setup.mjs';
import { serveLoopback } from '../../electron/host/loopback/index.ts';
import type { WriteDisk } from '../../electron/host/saving/index.ts';
import { hasTool } from './tools.ts';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome'] as const;
const name = NAMES.find((one) => existsSync(`/usr/bin/${one}`)) ?? NAMES[0];

/** Whether there is a browser; where tools are required, its absence is an error. */
export const hasBrowser = (): boolean => hasTool(name);

/** `more`: switches of the browser. */
export async function launch(more: readonly string[] = []): Promise<Browser> {
  // Only tests run as root do without the sandbox; the program itself never does.
  const sandbox = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  return chromium.launch({
    executablePath: `/usr/bin/${name}`,
    args: [...sandbox, '--disable-gpu', '--disable-background-networking', '--disable-dev-shm-usage', ...more],
  });
}

export interface Desk {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly folder: string;
  /** A file of the library as it is on disk. */
  onDisk(path: string): string;
  /** Another window on the same library. */
  another(): Promise<Page>;
  /** What the page complained of in its console. */
  readonly complaints: readonly string[];
  close(): Promise<void>;
}

export interface Options {
  readonly width?: number;
  readonly height?: number;
  readonly data?: string;
  readonly folder?: string;
  /** Takes these of the sample's procedures and no guide: a library that is read in no time, for what does not depend on the others. */
  readonly procedures?: RegExp;
  readonly language?: string;
  readonly forced?: boolean;
  /** Begins while the library is still being read. */
  readonly early?: boolean;
  /** The disk that the host writes to. */
  readonly disk?: WriteDisk;
}

export async function sitDown(browser: Browser, options: Options = {}): Promise<Desk> {
  await buildApp();
  const place = mkdtempSync(join(tmpdir(), 'handsclear-desk-'));
  const folder = options.folder ?? join(place, 'library');
  if (options.folder === undefined) copySample(folder, options.procedures);
  const host = await serveLoopback(join(root, 'dist/renderer'), {
    data: options.data ?? join(place, 'data'),
    sample: folder,
    ...(options.disk === undefined ? {} : { disk: options.disk }),
  });
  const context = await browser.newContext({
    viewport: { width: options.width ?? 1280, height: options.height ?? 800 },
    locale: options.language ?? 'en-GB',
    reducedMotion: 'reduce',
    ...(options.forced ? { forcedColors: 'active' as const } : {}),
  });
  const complaints: string[] = [];
  const open = async (address: string): Promise<Page> => {
    const page = await context.newPage();
    page.setDefaultTimeout(20_000);
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('response', (response) => {
      if (response.status() >= 400) complaints.push(`${response.status()} ${response.url()}`);
    });
    page.on('console', (message) => {
      // A refused request is told with its address above.
      if (message.type() === 'error' && !message.text().startsWith('Failed to load resource')) complaints.push(message.text());
    });
    await page.goto(address);
    await (options.early ? checkedHere(page) : checked(page));
    return page;
  };
  const page = await open(host.address);
  return {
    page,
    context,
    folder,
    complaints,
    onDisk: (path) => readFileSync(join(folder, path), 'utf8'),
    another: () => open(new URL('/', host.address).href),
    async close() {
      await context.close();
      await host.close();
      rmSync(place, { recursive: true, force: true });
    },
  };
}

/** The sample library, or the procedures of it whose file names match, with all that they are read by. */
export function copySample(folder: string, procedures?: RegExp): void {
  const sample = join(root, 'sample-procedures');
  cpSync(sample, folder, {
    recursive: true,
    filter: (file) =>
      procedures === undefined || !file.endsWith('.md') || (basename(dirname(file)) === 'procedures' && procedures.test(file)),
  });
}

/** Until the text that is shown has been checked as it stands. */
async function checkedHere(page: Page): Promise<void> {
  await page.waitForSelector('.page[data-checked=true]', { timeout: 60_000 });
}

/** Until the whole library has been checked as it stands. */
export async function checked(page: Page): Promise<void> {
  await page.waitForSelector('.page[data-checked=true][data-waiting="0"]', { timeout: 60_000 });
}

/** Saves from the keyboard and waits until nothing is left to save. */
export async function save(page: Page): Promise<void> {
  await page.waitForSelector('.page:not([data-unsaved="0"])');
  await page.keyboard.press('Control+s');
  await page.waitForSelector('.page[data-unsaved="0"]');
}

/** Clicks into a line of the text where it can be seen: one that is scrolled away lies under the head of the sheet, and is there all the same. */
export async function clickLine(page: Page, words: string): Promise<void> {
  await page.locator('.sheet-text').scrollIntoViewIfNeeded();
  const found = await page.waitForFunction<{ readonly x: number; readonly y: number } | undefined>(`(() => {
    for (const line of document.querySelectorAll('.sheet-text .view-line')) {
      if (!line.textContent.replaceAll('\u00a0', ' ').includes(${JSON.stringify(words)})) continue;
      const { top, bottom, left } = line.getBoundingClientRect();
      const [x, y] = [left + 30, (top + bottom) / 2];
      if (document.elementFromPoint(x, y)?.closest('.sheet-text')) return { x, y };
    }
    return undefined;
  })()`);
  const { x, y } = (await found.jsonValue()) ?? { x: 0, y: 0 };
  await page.mouse.click(x, y);
}
