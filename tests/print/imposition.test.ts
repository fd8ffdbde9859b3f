/**
 * Pages on sheets: orders against worked ones, a stack of sheets folded in the mind, creep, places inside the sheet; and real booklets read
 * back by poppler. Worked orders: three public pages on saddle stitching that agree, and `psbook` of Debian's psutils 1.17, run once.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { impose, saddle, signatures } from '../../publishing/imposition/index.ts';
import { guideBook, type PressChoice, printSheets, shortProcedure } from '../../publishing/index.ts';
import { type DrawnPage, layoutBook, newFontSource, numberPages } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';
import { hasTool } from '../support/tools.ts';

const order = (pages: number): readonly string[] =>
  saddle(0, pages).map(({ front, back }) =>
    [front, back].map((pair) => pair.map((page) => (page === undefined ? '-' : page + 1)).join(',')).join(' / '),
  );

describe('the order for folding and stapling', () => {
  test.each([
    [4, ['4,1 / 2,3']],
    [8, ['8,1 / 2,7', '6,3 / 4,5']],
    [12, ['12,1 / 2,11', '10,3 / 4,9', '8,5 / 6,7']],
    [16, ['16,1 / 2,15', '14,3 / 4,13', '12,5 / 6,11', '10,7 / 8,9']],
    [6, ['-,1 / 2,-', '6,3 / 4,5']],
    [1, ['-,1 / -,-']],
  ])('%i pages', (pages, worked) => {
    expect(order(pages)).toEqual(worked);
  });

  test('as psbook has it', () => {
    const flat = (pages: number): string =>
      saddle(0, pages)
        .flatMap(({ front, back }) => [...front, ...back])
        .map((page) => (page ?? -1) + 1)
        .join(' ');
    expect(flat(8)).toBe('8 1 2 7 6 3 4 5');
    expect(flat(16)).toBe('16 1 2 15 14 3 4 13 12 5 6 11 10 7 8 9');
  });

  /** Turned over and folded, right halves of fronts and left halves of backs are leafed through first, then the way back out. */
  const leafed = (signature: ReturnType<typeof saddle>): readonly (number | undefined)[] => [
    ...signature.flatMap(({ front, back }) => [front[1], back[0]]),
    ...[...signature].reverse().flatMap(({ front, back }) => [back[1], front[0]]),
  ];

  test('folded, the pages follow one another, in one signature and in many', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300 }), fc.integer({ min: 1, max: 12 }), (pages, each) => {
        for (const made of [[saddle(0, pages)], signatures(pages, each)]) {
          const read = made.flatMap(leafed);
          expect(read.slice(0, pages)).toEqual(Array.from({ length: pages }, (_, index) => index));
          expect(read.slice(pages).every((page) => page === undefined)).toBe(true);
          expect(read.length - pages).toBeLessThan(4);
        }
        for (const signature of signatures(pages, each)) expect(signature.length).toBeLessThanOrEqual(each);
      }),
    );
  });

  test('of a whole signature, each pair adds up to one more than its pages, and odd pages stand on the right', () => {
    for (const { front, back } of saddle(0, 16)) {
      for (const [left, right] of [front, back]) expect((left ?? 0) + 1 + (right ?? 0) + 1).toBe(17);
      expect([front[1], back[1]].every((page) => (page ?? 0) % 2 === 0)).toBe(true);
    }
  });
});

const page = (width: number, height: number): DrawnPage => ({ width, height, ops: [] });
const a4 = page(595_276, 841_890);
const wide = page(841_890, 595_276);

describe('places on the sheet', () => {
  const sheets = ['a4', 'a3', 'letter', 'legal', 'tabloid'] as const;

  test('pages stay on the sheet, never overlap, and are never enlarged', () => {
    const some = fc.array(fc.constantFrom(a4, wide, page(419_528, 595_276), page(612_000, 792_000)), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(some, fc.constantFrom(...sheets), fc.boolean(), fc.integer({ min: 0, max: 300 }), (pages, sheet, marks, thickness) => {
        const sides = impose(pages, { kind: 'booklet', sheet, marks, thickness });
        const seen = new Set<number>();
        for (const side of sides) {
          const boxes = side.places.map(({ page: index, x, y, scale, turned }) => {
            seen.add(index);
            expect(scale).toBeLessThanOrEqual(1_000_000);
            const { width, height } = pages[index] as DrawnPage;
            const [w, h] = turned ? [height, width] : [width, height];
            return { x, y, right: x + (w * scale) / 1_000_000, foot: y + (h * scale) / 1_000_000 };
          });
          expect(boxes.length).toBeLessThanOrEqual(2);
        }
        expect(seen.size).toBe(pages.length);
      }),
    );
    // Of one size, where every page fits its half.
    for (const sheet of sheets)
      for (const marks of [false, true])
        for (const side of impose(
          Array.from({ length: 8 }, () => a4),
          { kind: 'booklet', sheet, marks },
        )) {
          const boxes = side.places.map(({ x, y, scale }) => [x, y, x + (a4.width * scale) / 1e6, y + (a4.height * scale) / 1e6] as const);
          for (const [x, y, right, foot] of boxes) {
            expect(Math.min(x, y)).toBeGreaterThanOrEqual(-1);
            expect(right).toBeLessThanOrEqual(side.width + 1);
            expect(foot).toBeLessThanOrEqual(side.height + 1);
          }
          expect((boxes[0]?.[2] ?? 0) - (boxes[1]?.[0] ?? 0)).toBeLessThanOrEqual(1);
        }
  });

  test('A4 goes on A3 at its size and on A4 at the root of a half (ISO 216)', () => {
    const scale = (sheet: 'a3' | 'a4'): number => impose([a4], { kind: 'booklet', sheet })[0]?.places[0]?.scale ?? 0;
    expect(scale('a3') / 1e6).toBeCloseTo(1, 4);
    expect(scale('a4') / 1e6).toBeCloseTo(Math.SQRT1_2, 3);
  });

  test('inner pages creep towards the fold, a sheet of paper at a time', () => {
    const pages = Array.from({ length: 16 }, () => a4);
    const plain = impose(pages, { kind: 'booklet', sheet: 'a3' });
    const crept = impose(pages, { kind: 'booklet', sheet: 'a3', thickness: 283 });
    crept.forEach((side, index) => {
      side.places.forEach((place, at) => {
        const moved = place.x - (plain[index]?.places[at]?.x ?? 0);
        expect(at === 0 ? moved : -moved).toBeCloseTo(Math.floor(index / 2) * 283, 6);
      });
    });
    // A new signature begins at its own outermost sheet.
    const sewn = impose(pages, { kind: 'booklet', sheet: 'a3', thickness: 283, signature: 2 });
    expect(sewn[4]?.places[0]?.x).toBe(plain[0]?.places[0]?.x);
  });

  test('a wide page among tall ones is turned', () => {
    const [side] = impose([a4, wide, a4, a4], { kind: 'two-up', sheet: 'a4' });
    expect(side?.places.map(({ turned }) => turned)).toEqual([false, true]);
  });
});

let it: Sample;
const folder = mkdtempSync(join(tmpdir(), 'handsclear-sheets-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
beforeAll(async () => {
  it = await sample();
});

const run = (program: string, ...words: string[]): string => {
  const { stdout, stderr, status } = spawnSync(program, words, { encoding: 'utf8', maxBuffer: 1e9 });
  expect(status, stderr).toBe(0);
  return stdout;
};
const press = (name: string, book: Parameters<typeof printSheets>[0], choice: PressChoice) => {
  const made = printSheets(book, it.fonts, choice);
  const file = join(folder, `${name}.pdf`);
  writeFileSync(file, made.bytes);
  return { made, file };
};

describe.skipIf(!hasTool('pdftotext') || !hasTool('qpdf'))('real sheets, read back', () => {
  test('a booklet of a guide has its pages in the worked order, left and right', () => {
    const guide = it.report.facts.guides[0] as (typeof it.report.facts.guides)[number];
    const book = guideBook(guide, it.input);
    const { made, file } = press('booklet', book, { kind: 'booklet', sheet: 'a3', signature: 4, marks: true });
    expect(run('qpdf', '--check', file)).toContain('No syntax or stream encoding errors found');
    const { pages } = layoutBook(book, newFontSource(it.fonts).shaper);
    const numbers = numberPages(pages, book);
    const sides = run('pdftotext', '-layout', file, '-').split('\f').slice(0, made.sides);
    const wanted = signatures(pages.length, 4).flatMap((signature) => signature.flatMap(({ front, back }) => [front, back]));
    expect(sides.length).toBe(wanted.length);
    let compared = 0;
    sides.forEach((text, index) => {
      // Covers carry no page number.
      const shown = wanted[index]?.flatMap((at) => (at === undefined || pages[at]?.cover ? [] : [numbers[at]?.shown]));
      const read = [...text.matchAll(/Page ([ivxl\d]+) of/g)].map((match) => match[1]);
      expect(read, `side ${index + 1}`).toEqual(shown);
      compared += read.length;
    });
    expect(compared).toBeGreaterThan(40);
  });

  test('a test sheet comes first, and two-up reads on', () => {
    const facts = it.report.facts.procedures.find(({ head }) => head.id === 'OM-3140') as (typeof it.report.facts.procedures)[number];
    const { made, file } = press('two-up', shortProcedure(facts, it.input), { kind: 'two-up', sheet: 'a4', test: true });
    const sides = run('pdftotext', '-layout', file, '-').split('\f').slice(0, made.sides);
    expect(sides[0]).toContain('FRONT');
    expect(sides[1]).toContain('BACK');
    expect([...(sides[2] ?? '').matchAll(/Page (\d) of/g)].map((match) => match[1])).toEqual(['1', '2']);
    expect([...(sides[3] ?? '').matchAll(/Page (\d) of/g)].map((match) => match[1])).toEqual(['3', '4']);
    const fonts = run('pdffonts', file).trim().split('\n').slice(2);
    for (const row of fonts) expect(row).toMatch(/ yes yes yes +\d+ +0$/);
  });

  test('same input, same bytes', () => {
    const facts = it.report.facts.procedures[0] as (typeof it.report.facts.procedures)[number];
    const choice: PressChoice = { kind: 'booklet', sheet: 'letter', marks: true, test: true };
    const [one, two] = [1, 2].map(() => printSheets(shortProcedure(facts, it.input, { paper: 'letter' }), it.fonts, choice).bytes);
    expect(Buffer.compare(Buffer.from(one as Uint8Array), Buffer.from(two as Uint8Array))).toBe(0);
  });
});
