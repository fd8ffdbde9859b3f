/**
 * `npm run bench:print`: pages a second and peak memory of one generated guide, ours against other ways to a PDF file, all in one run. Ours is the whole
 * of it: optimal breaks of lines and pages, drawing, tags, bookmarks, links. The others are handed our finished lines (same words, fonts, breaks, places)
 * and only draw them. Every figure is the median of the rounds, each in a fresh process; ratios travel between machines. Prints; judges nothing.
 *
 *   npm run bench:print -- [sizes, 50,500,2000] [rounds, 5] [engines, all]
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir, totalmem } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { lean } from '../../cli/build/lean.mjs';
import { requires, root } from '../../cli/setup.mjs';
import { readFonts } from '../../electron/host/files/index.ts';
import { checkLibrary } from '../../procedures-schema/index.ts';
import type { Book } from '../../publishing/book.ts';
import { guideBook, newProof } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource } from '../../publishing/layout/index.ts';
import { generateLibrary } from '../support/generate.ts';
import { hasTool } from '../support/tools.ts';
import type { BenchInput, BenchLine } from './print-engines.ts';

const sizes = (process.argv[2] ?? '50,500,2000').split(',').map(Number);
const rounds = Number(process.argv[3] ?? 5);
const chosen = process.argv[4]?.split(',');
/** The most pages an engine is asked for: past it a run takes hours. */
const most: Readonly<Record<string, number>> = {
  handsclear: 1e9,
  pdfkit: 1e9,
  'pdf-lib drawText': 1e9,
  pdfmake: 1e9,
  'Chromium print': 1e9,
  '@react-pdf/renderer': 60,
};
/** Bundled as the command line is: a loader of TypeScript in each process would count in its memory, and slows what it loads. */
const bundled = join(root, 'dist/bench');
const source = (name: string): string => new URL(name, import.meta.url).pathname;
const folder = mkdtempSync(join(tmpdir(), 'print-bench-'));

const wanted = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as Record<
  'dependencies' | 'devDependencies',
  Record<string, string>
>;
const versionOf = (name: string): string => ({ ...wanted.dependencies, ...wanted.devDependencies })[name] ?? '?';

try {
  settings();
  // Ours as the command line is bundled; the others as they are installed.
  for (const more of [
    { entryPoints: [source('print-own.ts')], plugins: [lean()], banner: requires },
    { entryPoints: [source('print-one.ts')], splitting: true, packages: 'external' as const },
  ])
    await build({
      bundle: true,
      platform: 'node',
      format: 'esm',
      target: 'node20',
      outdir: bundled,
      outExtension: { '.js': '.mjs' },
      logLevel: 'error',
      ...more,
    });
  const fonts = await readFonts();
  if (chosen === undefined || chosen.includes('edits')) edits(fonts);
  for (const size of sizes) {
    const { input, own: book, pages, lines } = makeInput(size, fonts);
    console.log(`\n${pages} pages, ${lines} lines of text (asked for: ${size})`);
    const results = new Map<string, { rate: number; megabytes: number; cpu?: number }>();
    for (const engine of Object.keys(most)) {
      if (size > (most[engine] as number) || (chosen !== undefined && !chosen.includes(engine))) continue;
      const seconds: number[] = [];
      const cpu: number[] = [];
      const memory: number[] = [];
      let counted = '';
      let kilobytes = 0;
      for (let round = 0; round < rounds; round += 1) {
        const out = join(folder, 'out.pdf');
        const { stdout, stderr, status } = spawnSync(
          process.execPath,
          [join(bundled, engine === 'handsclear' ? 'print-own.mjs' : 'print-one.mjs'), engine, engine === 'handsclear' ? book : input, out],
          { encoding: 'utf8', maxBuffer: 1e9 },
        );
        if (status !== 0) {
          console.log(`  ${engine}: failed: ${stderr.split('\n').find((line) => line.includes('Error')) ?? stderr.slice(0, 200)}`);
          break;
        }
        const result = JSON.parse(stdout.trim().split('\n').pop() as string) as {
          seconds: number;
          cpu: number;
          megabytes: number;
          bytes: number;
        };
        seconds.push(result.seconds);
        cpu.push(result.cpu);
        memory.push(result.megabytes);
        kilobytes = Math.round(result.bytes / 1000);
        if (round === 0) counted = pagesOf(out, pages);
      }
      if (seconds.length === 0) continue;
      const rate = pages / median(seconds);
      // What other processes did (a browser) is not in the processor time of this one.
      const own = engine.startsWith('Chromium') ? undefined : pages / median(cpu);
      results.set(engine, { rate, megabytes: median(memory), ...(own === undefined ? {} : { cpu: own }) });
      console.log(
        `  ${engine.padEnd(22)} ${rate.toFixed(rate < 20 ? 1 : 0).padStart(6)} pages/s  ${median(memory).toFixed(0).padStart(5)} MB  ${String(kilobytes).padStart(6)} kB  ${counted}`,
      );
    }
    const own = results.get('handsclear');
    if (own !== undefined)
      for (const [engine, { rate, cpu }] of results) {
        if (engine === 'handsclear') continue;
        const byProcessor = cpu === undefined || own.cpu === undefined ? '' : `, ${(own.cpu / cpu).toFixed(2)} by processor time`;
        console.log(`    ours / ${engine}: ${(own.rate / rate).toFixed(2)} by the clock${byProcessor}`);
      }
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

function settings(): void {
  console.log(
    `Node ${process.version}, ${cpus().length} x ${cpus()[0]?.model ?? 'processor'}, ${(totalmem() / 2 ** 30).toFixed(0)} GB; median of ${rounds}, each in a fresh process`,
  );
  console.log(
    'timed: from the book (ours) or the finished lines (others) and font files to the bytes in memory; loading of modules is not; starting Chromium is',
  );
  console.log(
    'ours: A4, optimal line and page breaks, kerning, tags, bookmarks, links, subset fonts, deflated; bundled like the command line',
  );
  console.log(`pdfkit ${versionOf('pdfkit')}: text(line, x, y, {lineBreak: false}), subset fonts, no tags`);
  console.log(`pdf-lib (fork) ${versionOf('pdf-lib')}: drawText a line, whole fonts (subsets fail with this font library), no tags`);
  console.log(`pdfmake ${versionOf('pdfmake')}: one text node a line with absolutePosition and noWrap, no tags`);
  console.log(`@react-pdf/renderer ${versionOf('@react-pdf/renderer')}: one Text a line, absolute; 50 pages only`);
  console.log('Chromium: one absolutely placed span a line, page.pdf with tagged: true; memory is the sum over its processes');
}

/** A guide of about so many pages, and the lines our engine sets on them. */
function makeInput(
  size: number,
  fonts: Awaited<ReturnType<typeof readFonts>>,
): { input: string; own: string; pages: number; lines: number } {
  let count = Math.max(2, Math.round(size / 5));
  for (let round = 0; ; round += 1) {
    const book = bookOf(count);
    const drawn = drawBook(layoutBook(book, newFontSource(fonts).shaper));
    const pages = drawn.pages.length;
    if (Math.abs(pages - size) / size > 0.08 && round < 3) {
      count = Math.max(1, Math.round((count * size) / pages));
      continue;
    }
    const lines = drawn.pages.map(({ ops }) =>
      ops.flatMap((op): BenchLine[] => {
        if (op.op !== 'text' || op.turn !== undefined) return [];
        const out: BenchLine[] = [];
        let x = op.x;
        for (const run of op.run) {
          const last = out[out.length - 1];
          // Neighbouring words of one face are one string: the others need not be slower than they are.
          if (last?.face === run.face) out[out.length - 1] = { ...last, text: last.text + run.text };
          else out.push({ face: run.face, size: op.size / 1000, x: x / 1000, y: op.y / 1000, text: run.text });
          x += (run.units * op.size) / 1000;
        }
        return out.filter(({ text }) => text.trim() !== '').map((line) => ({ ...line, text: line.text.replace(/\u00ad/g, '-') }));
      }),
    );
    const first = drawn.pages[0] as (typeof drawn.pages)[number];
    const bookFile = join(folder, `book-${size}.json`);
    writeFileSync(bookFile, JSON.stringify(book));
    const input: BenchInput = { width: first.width / 1000, height: first.height / 1000, pages: lines, bookFile };
    const file = join(folder, `lines-${size}.json`);
    writeFileSync(file, JSON.stringify(input));
    // Ours is given the book alone, the others the lines alone: what an engine does not need is not in its memory.
    const own = join(folder, `own-${size}.json`);
    writeFileSync(own, JSON.stringify({ ...input, pages: [] } satisfies BenchInput));
    return { input: file, own, pages, lines: lines.reduce((sum, page) => sum + page.length, 0) };
  }
}

function bookOf(count: number): Book {
  const files = generateLibrary(count);
  const numbers = files.flatMap(({ text }) => /^id: (TS-\d+)$/m.exec(text)?.[1] ?? []);
  const guide = `---\nid: TS-9000\ntitle: Screens and tippers\nrevision: "A"\ndate: 2026-01-05\nmodels: [RS-20]\nduplex: no\n---\n\nA guide for the bench.\n\n## All\n\n${numbers.map((number) => `- [${number}]`).join('\n')}\n`;
  const { facts } = checkLibrary([...files, { path: 'guides/bench.md', text: guide }]);
  return guideBook(facts.guides[0] as (typeof facts.guides)[number], { library: facts, figures: new Map(), draft: false });
}

/** One step of a guide of about 50 pages gets other words, 60 times: from the edited book to the bytes of the pages that changed. */
function edits(fonts: Awaited<ReturnType<typeof readFonts>>): void {
  const book = bookOf(8);
  const proof = newProof(fonts);
  const pages = proof(book).drawn.pages.length;
  const numbered = book.chapters.flatMap(({ number }) => (number === undefined ? [] : [number]));
  const middle = numbered[Math.floor(numbered.length / 2)];
  const times: number[] = [];
  const written: number[] = [];
  let spent = process.cpuUsage();
  for (let round = 0; round < 70; round += 1) {
    if (round === 10) spent = process.cpuUsage();
    const chapters = book.chapters.map((chapter) => {
      if (chapter.number !== middle) return chapter;
      const at = chapter.blocks.findIndex(({ kind }) => kind === 'step') + 5;
      const blocks = chapter.blocks.map((block, index) =>
        block.kind === 'step' && index === at
          ? {
              ...block,
              body: [
                { kind: 'paragraph' as const, inline: [{ kind: 'text' as const, text: `Wipe the seat along ${100 + round * 7} mm.` }] },
              ],
            }
          : block,
      );
      return { ...chapter, blocks };
    });
    const edited = { ...book, chapters };
    const start = performance.now();
    const { changed } = proof(edited);
    times.push(performance.now() - start);
    written.push(changed.length);
  }
  const { user, system } = process.cpuUsage(spent);
  const warm = times.slice(10).sort((a, b) => a - b);
  console.log(
    `\none edit in a guide of ${pages} pages, to the bytes of the ${median(written)} pages drawn anew: median ${median(warm).toFixed(1)} ms, 95 of 100 below ${(warm[Math.floor(warm.length * 0.95)] ?? 0).toFixed(1)} ms (aim 50 ms; ${((user + system) / 60_000).toFixed(1)} ms of processor time; ${warm.length} edits, the first 10 left out)`,
  );
}

/** Counted by an outside program where there is one. */
function pagesOf(file: string, wanted: number): string {
  if (!hasTool('pdfinfo')) return 'pages not counted';
  const found = Number(/^Pages:\s+(\d+)$/m.exec(spawnSync('pdfinfo', [file], { encoding: 'utf8' }).stdout)?.[1] ?? 0);
  const off = Math.abs(found - wanted) / wanted;
  return `${found} pages${off > 0.02 ? ', MORE THAN 2 PERCENT OFF' : ''}`;
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
}
