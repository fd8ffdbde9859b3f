/** Codes in the printed guide, read back by a second library (jsqr, Apache-2.0): from the squares alone, and from a page as a printer shows it. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import readCode from 'jsqr';
import { afterAll, describe, expect, test } from 'vitest';
import { addressAt, type FilmLink } from '../../procedures-schema/narration/index.ts';
import { violationsOf } from '../../procedures-schema/schemas/index.ts';
import { codeSquares } from '../../publishing/film-code.ts';
import { checklistOf, printBook, procedureBook } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource } from '../../publishing/layout/index.ts';
import { assistFixture } from '../support/assist.ts';
import { sample } from '../support/sample.ts';
import { hasTool } from '../support/tools.ts';

const folder = mkdtempSync(join(tmpdir(), 'handsclear-codes-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const ADDRESS = 'https://films.example/ov-3140';
const link = (section: string, start: number, label?: string): FilmLink => ({
  key: `${section} ${label ?? ''}`,
  section,
  ...(label === undefined ? {} : { label }),
  start,
  address: addressAt(ADDRESS, start),
});

/** The squares painted, four pixels each. */
function seen(text: string): string | undefined {
  const { side, path } = codeSquares(text);
  const pixel = 4;
  const size = side * pixel;
  const data = new Uint8ClampedArray(size * size * 4).fill(255);
  for (const [, x, y, width] of path.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g))
    for (let row = Number(y) * pixel; row < (Number(y) + 1) * pixel; row += 1)
      for (let column = Number(x) * pixel; column < (Number(x) + Number(width)) * pixel; column += 1)
        data.fill(0, (row * size + column) * 4, (row * size + column) * 4 + 3);
  return readCode(data, size, size)?.data;
}

describe('the squares', () => {
  test('an address with a time comes back', () => expect(seen(addressAt(ADDRESS, 192.7))).toBe('https://films.example/ov-3140#t=192'));
  test('any address, short or long', () => {
    fc.assert(
      fc.property(fc.webUrl({ withQueryParameters: true, size: 'small' }), fc.nat(20_000), (url, start) => {
        fc.pre(addressAt(url, start).length < 200);
        expect(seen(addressAt(url, start))).toBe(addressAt(url, start));
      }),
      { numRuns: 30 },
    );
  });
});

test('the checklist links each step that the film shows, and keeps to its schema', async () => {
  const { report, input } = await sample();
  const facts = report.facts.procedures.find(({ head }) => head.id === 'OM-3140');
  if (!facts) throw new Error('no sample procedure');
  const films = new Map([['OM-3140', [link('check-the-drift', 90), link('check-the-drift', 134, '3')]]]);
  const made = checklistOf(facts, { ...input, films });
  const steps = made.sections.flatMap(({ items }) => items.filter((item) => item.kind === 'step'));
  expect(steps.filter(({ film }) => film !== undefined).map(({ fullLabel, film }) => `${fullLabel} ${film}`)).toEqual([
    'Check the drift 3 https://films.example/ov-3140#t=134',
  ]);
  expect(violationsOf('checklist', JSON.parse(JSON.stringify(made)))).toEqual([]);
  expect(checklistOf(facts, input).sections).toEqual(checklistOf(facts, { ...input, films: new Map() }).sections);
});

describe.skipIf(!hasTool('pdftoppm'))('a printed page', () => {
  test('shows codes that a reader reads, and none without a film', async () => {
    const { report, input, fonts } = await sample();
    const facts = report.facts.procedures.find(({ head }) => head.id === 'OM-3140');
    if (!facts) throw new Error('no sample procedure');
    const films = new Map([['OM-3140', [link('check-the-drift', 93.4)]]]);
    const plain = printBook(procedureBook(facts, input), fonts);
    const printed = printBook(procedureBook(facts, { ...input, films }), fonts);
    expect(printed.notes).toEqual(plain.notes);
    const read = codesIn(printed.bytes, 'with');
    expect(read).toEqual(['https://films.example/ov-3140#t=93']);
    expect(codesIn(plain.bytes, 'without')).toEqual([]);
  }, 120_000);

  test.each(['a4', 'letter', 'a5'] as const)(
    'on %s a module is 0.4 mm or a little more, and as much as four stay blank around a code',
    async (paper) => {
      const { report, input, fonts } = await sample();
      const facts = report.facts.procedures.find(({ head }) => head.id === 'OM-3140');
      if (!facts) throw new Error('no sample procedure');
      const links = [link('check-the-drift', 93.4), ...[2, 3, 4, 5, 9].map((n) => link('check-the-drift', 100 + n, String(n)))];
      const book = procedureBook(facts, { ...input, films: new Map([['OM-3140', links]]) }, { paper });
      const { pages } = drawBook(layoutBook(book, newFontSource(fonts).shaper));
      let codes = 0;
      for (const { ops } of pages) {
        // Squares of codes are the only paths of many closed rectangles.
        const all = ops.flatMap((op) => (op.op === 'path' && op.path.segments.startsWith('MLLLZMLLLZMLLLZ') ? [op.path.points] : []));
        const texts = ops.flatMap((op) => (op.op === 'text' ? [op] : []));
        for (const points of all) {
          const xs = points.filter((_, k) => k % 2 === 0);
          const ys = points.filter((_, k) => k % 2 === 1);
          const [left, right, top, foot] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
          // Version 3 of the standard: 29 modules a side.
          const module = (right - left) / 29;
          const millimetres = (module * 25.4) / 72_000;
          expect(millimetres).toBeGreaterThanOrEqual(0.399);
          expect(millimetres).toBeLessThan(0.45);
          for (const { x, y } of texts) {
            const near =
              x > left - 4 * module + 10 && x < right + 4 * module - 10 && y > top - 4 * module + 10 && y < foot + 4 * module - 10;
            expect(near).toBe(false);
          }
          codes += 1;
        }
      }
      expect(codes).toBeGreaterThan(1);
    },
  );

  test('a section with one code says so beside it, and the page says nothing of each code', async () => {
    const { report, input, fonts } = await sample();
    const facts = report.facts.procedures.find(({ head }) => head.id === 'OM-3140');
    if (!facts) throw new Error('no sample procedure');
    const said = (links: readonly FilmLink[]): string =>
      drawBook(layoutBook(procedureBook(facts, { ...input, films: new Map([['OM-3140', links]]) }), newFontSource(fonts).shaper))
        .pages.flatMap(({ ops }) => ops.flatMap((op) => (op.op === 'text' ? [op.run.map(({ text }) => text).join('')] : [])))
        .join('|');
    const one = said([link('check-the-drift', 93.4)]);
    expect(one).toContain('Film of this section|start, 1:33');
    expect(one).not.toContain('Each code');
    expect(said([link('check-the-drift', 93.4), link('check-the-drift', 134, '9')])).toContain('Film of this section. Each code opens it');
  });

  test('a long section has a code for each step that measures, in several strips, and all are read', async () => {
    const steps = 30;
    const work = Array.from({ length: steps }, (_, n) => `#. Measure the slack at mark ${n + 1}.`).join('\n');
    const front = 'measurements:\n  slack: {quantity: length, limits: {lower: 1 mm, upper: 3 mm}}';
    const { facts, library } = assistFixture({ front, work });
    const section = facts.tree.sections.find(({ title }) => title === 'Work');
    if (!section) throw new Error('no section');
    const links = [link(section.id, 40), ...Array.from({ length: steps }, (_, n) => link(section.id, 60 + n * 7, String(n + 1)))];
    const { input, fonts } = await sample();
    const films = new Map([[facts.head.id, links]]);
    const { bytes } = printBook(procedureBook(facts, { ...input, library, films }), fonts);
    expect(codesIn(bytes, 'long')).toEqual(links.map(({ address }) => address).sort());
  }, 120_000);
});

const DPI = 200;
/** A code is at least this wide and high, in pixels (8 mm), its blank margin not counted. */
const LEAST = Math.round((8 * DPI) / 25.4);
const MARGIN = Math.round((2 * DPI) / 25.4);

/** Of all pages, sorted. */
function codesIn(bytes: Uint8Array, name: string): string[] {
  const file = join(folder, `${name}.pdf`);
  writeFileSync(file, bytes);
  spawnSync('pdftoppm', ['-r', String(DPI), '-gray', file, join(folder, name)]);
  const pages = readdirSync(folder).filter((one) => one.startsWith(`${name}-`) && one.endsWith('.pgm'));
  return pages.flatMap((page) => codesOn(readFileSync(join(folder, page)))).sort();
}

/**
 * Of a page as grey values (PGM, netpbm: a head, then a byte a pixel). The reader finds one code in a picture, so the page is cut along its blank rows
 * and columns first.
 */
function codesOn(pgm: Uint8Array): string[] {
  const head = /^P5\s(\d+) (\d+)\s255\s/.exec(new TextDecoder('latin1').decode(pgm.subarray(0, 40)));
  if (!head) throw new Error('no grey page');
  const [width, height] = [Number(head[1]), Number(head[2])];
  const grey = pgm.subarray(head[0].length);
  const value = (x: number, y: number): number => grey[y * width + x] ?? 255;
  const rows = runs(height, (y) => grey.subarray(y * width, (y + 1) * width).some((one) => one < 128));
  return rows.flatMap(([top, bottom]) =>
    runs(width, (x) => Array.from({ length: bottom - top }, (_, n) => value(x, top + n)).some((one) => one < 128)).flatMap(
      ([left, right]) => {
        const [wide, high] = [right - left + 2 * MARGIN, bottom - top + 2 * MARGIN];
        const rgba = new Uint8ClampedArray(wide * high * 4).fill(255);
        for (let y = 0; y < bottom - top; y += 1)
          for (let x = 0; x < right - left; x += 1) {
            const at = ((y + MARGIN) * wide + x + MARGIN) * 4;
            rgba.fill(value(left + x, top + y), at, at + 3);
          }
        const found = readCode(rgba, wide, high)?.data;
        return found === undefined || found === '' ? [] : [found];
      },
    ),
  );
}

/** Stretches [from, to) of at least a code's size in which nothing is blank. */
function runs(size: number, marked: (at: number) => boolean): (readonly [number, number])[] {
  const out: (readonly [number, number])[] = [];
  let from = -1;
  for (let at = 0; at <= size; at += 1) {
    const dark = at < size && marked(at);
    if (dark && from === -1) from = at;
    if (!dark && from !== -1) {
      if (at - from >= LEAST) out.push([from, at]);
      from = -1;
    }
  }
  return out;
}
