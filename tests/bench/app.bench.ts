/**
 * `npm run bench:app`: what a writer feels. Key press to findings and to the repainted page in a 300-line procedure, cold start, and a library of
 * many procedures while it is read; as ratios to the bare Markdown parse and the bare editor component on the same text in the same run.
 *
 *   npm run bench:app -- [keys, 100] [procedures of the long library, 5000]
 */
import { execFileSync } from 'node:child_process';
import { cpSync, createReadStream, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { dirname, extname, join } from 'node:path';
import type { Page } from 'playwright-core';
import remarkDirective from 'remark-directive';
import remarkFrontmatter from 'remark-frontmatter';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { build } from 'vite';
import { buildApp, root } from '../../cli/setup.mjs';
import { PAGE_ENGINE } from '../../electron/page-engine.ts';
import { launch, sitDown } from '../support/desk.ts';
import { startHost } from '../support/host-process.ts';
import { longLibrary } from '../support/long-library.ts';

const KEYS = Number(process.argv[2] ?? 100);
const MANY = Number(process.argv[3] ?? 5000);
const ROUNDS = 5;
const TYPED_AT = 'Send everyone off the platform and out of the pit.';
/** Milliseconds. */
const REST = 40_000;

/** As the desktop shell sets it. */
const browser = await launch([`--${PAGE_ENGINE.name}=${PAGE_ENGINE.value}`]);
const folder = mkdtempSync(join(tmpdir(), 'handsclear-bench-'));
const lines = (of: readonly number[]): string =>
  `median ${at(of, 0.5).toFixed(1)} ms, p95 ${at(of, 0.95).toFixed(1)} ms (${of.length} keys)`;

cpSync(join(root, 'sample-procedures'), folder, { recursive: true });
const { path, text } = threeHundredLines();
writeFileSync(join(folder, path), text);
console.log(
  `${browser.version()}, page 1280 by 800, ${text.split('\n').length} lines, ${(text.length / 1000).toFixed(1)} kB; ${PAGE_ENGINE.value}\n`,
);
const parse = stockParse(text);
console.log(`bare parse of the same text   median ${parse.toFixed(1)} ms (${ROUNDS * 4} rounds, Node)`);
const bare = await bareEditor();
await typing();
await coldStart();
bare.close();
await manyProcedures();
await browser.close();
rmSync(folder, { recursive: true, force: true });

function threeHundredLines(): { readonly path: string; readonly text: string } {
  const [, ...files] = longLibrary(19).filter((file) => file.path.startsWith('procedures/'));
  const lip = files.find((file) => file.path.includes('OM-3140'));
  if (!lip) throw new Error('the sample procedure is gone');
  // Filled up with further prose and steps of its own to the length that is asked for.
  const short = 300 - lip.text.split('\n').length;
  const more = Array.from({ length: Math.max(0, short) }, (_, index) => `${index % 2 === 0 ? 'Keep the pit clean and dry.' : ''}`);
  return { path: lip.path, text: `${lip.text.trimEnd()}\n\n${more.join('\n')}\n` };
}

function stockParse(own: string): number {
  const reader = unified().use(remarkParse).use(remarkGfm).use(remarkFrontmatter).use(remarkDirective);
  const times = Array.from({ length: ROUNDS * 4 }, () => {
    const begun = performance.now();
    reader.parse(own);
    return performance.now() - begun;
  });
  return at(times, 0.5);
}

async function typing(): Promise<void> {
  const desk = await sitDown(browser, { folder });
  const { page } = desk;
  await page.click('.library .entry:has-text("OM-3140")');
  await page.waitForSelector('.proof canvas');
  await page.keyboard.press('Control+Shift+L');
  await page.fill('.over input[type=search]', TYPED_AT);
  await page.click('.found li:has-text("OM-3140") button');
  await page.click('.over header button');
  await page.keyboard.press('End');
  await page.waitForTimeout(1500);
  await watch(page);
  await press(page, KEYS, 260);
  const { paints, findings, pages } = await page.evaluate<Record<'paints' | 'findings' | 'pages', number[]>>('window.seen');
  const plain = await bareTyping();
  console.log(`key to paint, bare editor     ${lines(plain)}`);
  console.log(
    `key to paint                  ${lines(paints)}, ${(at(paints, 0.5) / at(plain, 0.5)).toFixed(2)} times the bare editor at the median, ${(at(paints, 0.95) / at(plain, 0.95)).toFixed(2)} at p95`,
  );
  console.log(
    `key to findings               ${lines(findings)}, ${(at(findings, 0.95) / parse).toFixed(2)} times the bare parse (aim 16 ms)`,
  );
  console.log(`key to the repainted page     ${lines(pages)}, ${(at(pages, 0.95) / parse).toFixed(2)} times the bare parse (aim 50 ms)`);
  await desk.close();
}

/** The same keys at the same place of the same text in the editor component alone. */
async function bareTyping(): Promise<readonly number[]> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, locale: 'en-GB', reducedMotion: 'reduce' });
  const page = await context.newPage();
  await page.goto(bare.address);
  await page.waitForSelector('.view-line span');
  const line = text.split('\n').findIndex((one) => one.includes(TYPED_AT)) + 1;
  await page.evaluate(`editor.revealLineInCenter(${line}); editor.setPosition({ lineNumber: ${line}, column: 1e6 }); editor.focus();`);
  await page.waitForTimeout(1500);
  await watchPaints(page);
  await press(page, KEYS, 260);
  const paints = await page.evaluate<number[]>('window.paints');
  await context.close();
  return paints;
}

/** Sets down in the page when the next frame came after each key. */
async function watchPaints(page: Page): Promise<void> {
  await page.evaluate(`(() => {
    const paints = window.paints = [];
    addEventListener('keydown', () => {
      const at = performance.now();
      requestAnimationFrame(() => { const channel = new MessageChannel(); channel.port1.onmessage = () => paints.push(performance.now() - at); channel.port2.postMessage(0); });
    }, true);
  })()`);
}

/** Sets down in the page when the next frame, the findings and the repainted page came after each key. */
async function watch(page: Page): Promise<void> {
  await page.evaluate(`(() => {
    const seen = { paints: [], findings: [], pages: [] };
    window.seen = seen;
    let pressed = 0, checking = false;
    let repainted = 0;
    addEventListener('keydown', () => {
      if (repainted > pressed) seen.pages.push(repainted - pressed);
      const at = performance.now();
      pressed = at; checking = true;
      requestAnimationFrame(() => { const channel = new MessageChannel(); channel.port1.onmessage = () => seen.paints.push(performance.now() - at); channel.port2.postMessage(0); });
    }, true);
    const page = document.querySelector('.page');
    let was = page.dataset.checked;
    new MutationObserver(() => {
      const is = page.dataset.checked;
      if (checking && was === 'false' && is === 'true') { checking = false; seen.findings.push(performance.now() - pressed); }
      was = is;
    }).observe(page, { attributes: true, attributeFilter: ['data-checked'] });
    const fill = CanvasRenderingContext2D.prototype.fillRect;
    CanvasRenderingContext2D.prototype.fillRect = function (...words) {
      // The editor paints canvases of its own; a page is cleared, then painted; the last one before the next key is of the new text.
      if (this.canvas.className === 'page-canvas' && words[0] === 0 && words[1] === 0)
        queueMicrotask(() => { repainted = performance.now(); });
      return fill.apply(this, words);
    };
  })()`);
}

async function press(page: Page, keys: number, pause: number): Promise<void> {
  for (let key = 0; key < keys; key += 1) {
    await page.keyboard.press(key % 10 === 9 ? 'Backspace' : 'a');
    await page.waitForTimeout(pause);
  }
}

/** A page with nothing but the editor component and the text. */
async function bareEditor(): Promise<{ readonly address: string; close(): void }> {
  const out = mkdtempSync(join(tmpdir(), 'handsclear-bare-'));
  await build({
    root: join(root, 'tests/bench/bare-editor'),
    base: './',
    logLevel: 'error',
    worker: { format: 'es' },
    build: { outDir: out, emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 8000 },
  });
  writeFileSync(join(out, 'text.md'), text);
  const server = createServer((request, response) => {
    const file = join(out, request.url === '/' ? 'index.html' : (request.url ?? ''));
    if (!existsSync(file)) return response.writeHead(404).end();
    const types: Record<string, string> = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.ttf': 'font/ttf' };
    response.writeHead(200, { 'content-type': types[extname(file)] ?? 'text/plain' });
    createReadStream(file).pipe(response);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  return {
    address: `http://127.0.0.1:${typeof address === 'object' ? address?.port : 0}/`,
    close: () => {
      server.close();
      rmSync(out, { recursive: true, force: true });
    },
  };
}

async function coldStart(): Promise<void> {
  const plainly: Begun[] = [];
  const ours: Begun[] = [];
  const hosts: number[] = [];
  await buildApp();
  for (let round = 0; round < ROUNDS; round += 1) {
    plainly.push(await begun(bare.address, '.view-line span'));
    const before = performance.now();
    const data = mkdtempSync(join(tmpdir(), 'handsclear-data-'));
    // A process of its own, as it is for a user; in this one it would be kept waiting by what measures it.
    const host = await startHost(folder, data);
    hosts.push(performance.now() - before);
    ours.push(await begun(host.address, '.notes .reading'));
    host.child.removeAllListeners('exit');
    host.child.kill('SIGKILL');
    rmSync(data, { recursive: true, force: true });
  }
  const [typed, plain, host] = [
    at(
      ours.map(({ usable }) => usable),
      0.5,
    ),
    at(
      plainly.map(({ usable }) => usable),
      0.5,
    ),
    at(hosts, 0.5),
  ];
  const margin = at(
    ours.map(({ shown }) => shown),
    0.5,
  );
  console.log(`cold start: bare editor, a key typed and painted       median ${plain.toFixed(0)} ms`);
  console.log(
    `cold start: page with its text, a key typed and painted   median ${typed.toFixed(0)} ms, ${(typed / plain).toFixed(2)} times the bare editor (aim 1.5); with the host's own start of ${host.toFixed(0)} ms ${((typed + host) / plain).toFixed(2)} times`,
  );
  console.log(`cold start: and margin shown   median ${margin.toFixed(0)} ms, ${(margin / plain).toFixed(2)} times`);
}

interface Begun {
  /** Milliseconds from asking for the page until the text is there, the caret in it, and a key that is pressed then is painted. */
  readonly usable: number;
  /** Until `last` is there. */
  readonly shown: number;
}

async function begun(address: string, last: string): Promise<Begun> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, locale: 'en-GB', reducedMotion: 'reduce' });
  const page = await context.newPage();
  await page.addInitScript(`(() => {
    const look = () => {
      if (![...document.querySelectorAll('.view-line')].some((line) => line.textContent.includes('Q'))) return;
      watcher.disconnect();
      requestAnimationFrame(() => { const channel = new MessageChannel(); channel.port1.onmessage = () => { window.painted = performance.timeOrigin + performance.now(); }; channel.port2.postMessage(0); });
    };
    const watcher = new MutationObserver(look);
    watcher.observe(document, { subtree: true, childList: true, characterData: true });
  })()`);
  const from = performance.timeOrigin + performance.now();
  await page.goto(address, { waitUntil: 'commit' });
  await page.waitForSelector('.view-line span');
  await page.waitForSelector('.cursors-layer .cursor', { state: 'attached' });
  await page.keyboard.press('Q');
  let painted: number | null = null;
  while (painted === null) painted = await page.evaluate<number | null>('window.painted ?? null');
  await page.keyboard.press('Backspace');
  await page.waitForSelector(last);
  const shown = performance.timeOrigin + performance.now() - from;
  await context.close();
  return { usable: painted - from, shown };
}

async function manyProcedures(): Promise<void> {
  if (MANY === 0) return;
  const long = mkdtempSync(join(tmpdir(), 'handsclear-many-'));
  for (const file of longLibrary(MANY)) {
    mkdirSync(dirname(join(long, file.path)), { recursive: true });
    writeFileSync(join(long, file.path), file.text);
  }
  cpSync(join(root, 'sample-procedures/figures'), join(long, 'figures'), { recursive: true });
  await readWhileTyping(browser, long);
  // A page in a browser of one's own cannot set the engine.
  const plain = await launch();
  console.log('\nthe same in a browser with its engine as it comes:');
  await readWhileTyping(plain, long);
  await plain.close();
  rmSync(long, { recursive: true, force: true });
}

async function readWhileTyping(where: typeof browser, long: string): Promise<void> {
  const begun = performance.now();
  const desk = await sitDown(where, { folder: long, early: true });
  const usable = performance.now() - begun;
  const { page } = desk;
  await page.click('.sheet-text');
  await page.keyboard.press('Control+End');
  await watch(page);
  await press(page, KEYS, 90);
  const { paints } = await page.evaluate<{ paints: number[] }>('window.seen');
  const waiting = Number(await page.getAttribute('.page', 'data-waiting'));
  console.log(`\n${MANY} procedures: usable after  ${usable.toFixed(0)} ms`);
  console.log(`key to paint while it is read ${lines(paints)}; ${waiting} still to be read (aim 32 ms at p95)`);
  await page.waitForSelector('.page[data-waiting="0"]', { timeout: 1_200_000 });
  console.log(
    `all read after                ${((performance.now() - begun) / 1000).toFixed(0)} s; memory of the page's process ${memory()} (aim 600 MB)`,
  );
  // The engine of the browser leaves what is no longer needed lying about until it has time.
  await page.waitForTimeout(REST);
  console.log(`after ${REST / 1000} s at rest            ${memory()}`);
  await desk.close();
}

/**
 * Of the largest renderer process there is, the page with its workers: resident megabytes, and those that it has to itself, where the system says
 * so. The rest is the browser's program, which all its processes share.
 */
function memory(): string {
  const table = execFileSync('ps', ['-eo', 'rss=,pid=,args='], { encoding: 'utf8' });
  const pages = table.split('\n').flatMap((line) => {
    const [rss, pid] = line.trim().split(/\s+/).map(Number);
    return line.includes('--type=renderer') && rss !== undefined ? [{ rss, pid }] : [];
  });
  const largest = pages.sort((a, b) => b.rss - a.rss)[0];
  if (largest === undefined) return 'unknown';
  const rollup = `/proc/${largest.pid}/smaps_rollup`;
  const own = existsSync(rollup)
    ? [...readFileSync(rollup, 'utf8').matchAll(/^Private_(?:Clean|Dirty):\s+(\d+)/gm)].reduce((sum, [, size]) => sum + Number(size), 0)
    : undefined;
  return `${(largest.rss / 1024).toFixed(0)} MB resident${own === undefined ? '' : `, ${(own / 1024).toFixed(0)} MB its own`}`;
}

function at(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? 0;
}
