/** Paper of one's own size: random sizes within the bounds keep all that is printed on the page and in the type area, and the usual sizes come out the same by number. */
import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { guideBook, shortProcedure } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource, type PlacedBook, type Shaper, widthOfAll } from '../../publishing/layout/index.ts';
import { sheetOf } from '../../publishing/layout/style.ts';
import { mm } from '../../publishing/layout/units.ts';
import { randomBook } from '../support/random-book.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
let shaper: Shaper;
beforeAll(async () => {
  it = await sample();
  shaper = newFontSource(it.fonts).shaper;
});

/** A width and a height that is not the shorter one, in hundredths of a millimetre. */
const sizes = fc
  .tuple(fc.integer({ min: 12_000, max: 30_000 }), fc.integer({ min: 17_000, max: 44_000 }))
  .map(([width, height]) => ({ width, height: Math.max(width, height) }))
  .map(({ width, height }) => ({ width, height, paper: `${width / 100} x ${height / 100} mm` as const }));

/** What leaves the type area or the page; the pale words under the text may come near its edges. */
function outside(placed: PlacedBook): string[] {
  const out: string[] = [];
  drawBook(placed).pages.forEach(({ ops, width, height }, index) => {
    const { slabs, geometry } = placed.pages[index] as PlacedBook['pages'][number];
    const { body } = geometry;
    const at = `page ${index + 1} of ${placed.book.paper}`;
    if (body.x < 0 || body.y < 0 || body.x + body.width > width || body.y + body.height > height) out.push(`${at}: no body`);
    for (const { slab, y } of slabs) {
      // A single thing taller than a page is told of by name.
      if (y + slab.height > body.height && slab.height <= body.height) out.push(`${at}: ${slab.of} below`);
      for (const item of slab.items)
        if (item.kind === 'line' && (item.x < 0 || item.x + item.line.width > body.width + 200)) out.push(`${at}: ${slab.of} beside`);
    }
    for (const op of ops) {
      if (op.op !== 'text') continue;
      const right = op.turn === undefined ? op.x + widthOfAll(op.run, op.size) : op.x;
      if (op.x < 0 || op.y < 0 || right > width || op.y > height)
        out.push(`${at}: "${op.run.map(({ text }) => text).join('')}" off the page`);
    }
  });
  return out;
}

test('random documents on random paper keep the type area', () => {
  fc.assert(
    fc.property(sizes, fc.integer({ min: 1, max: 5000 }), ({ width, height, paper }, seed) => {
      const placed = layoutBook({ ...randomBook(seed, 1 + (seed % 9)).book, paper }, shaper);
      const upright = placed.pages.find(({ turned }) => !turned)?.geometry;
      if (upright !== undefined) expect([upright.width, upright.height]).toEqual([mm(width / 100), mm(height / 100)]);
      expect(outside(placed)).toEqual([]);
    }),
    { numRuns: 300 },
  );
});

test.each(['120 x 170 mm', '120 x 440 mm', '6 x 9 in', '300 x 440 mm'] as const)('a guide and its checklists on %s', (paper) => {
  const [guide] = it.report.facts.guides as [Parameters<typeof guideBook>[0]];
  const placed = layoutBook(guideBook(guide, { ...it.input, draft: true }, { paper }), shaper);
  expect(outside(placed)).toEqual([]);
  for (const facts of it.report.facts.procedures.slice(0, 4))
    expect(outside(layoutBook(shortProcedure(facts, it.input, { paper }), shaper))).toEqual([]);
});

test('A4 and A5 by number are A4 and A5', () => {
  const drawn = (book: Parameters<typeof layoutBook>[0]): string => JSON.stringify(drawBook(layoutBook(book, shaper)).pages);
  for (const [name, size] of [
    ['a4', '210 x 297 mm'],
    ['a5', '148 x 210 mm'],
  ] as const) {
    const { book } = randomBook(7, 12);
    expect(drawn({ ...book, paper: size })).toBe(drawn({ ...book, paper: name }));
  }
});

test('type grows with the page from that of A5 to that of A4, in half points, and is never smaller or larger than these', () => {
  const body = (width: number): number => sheetOf(`${width} x 300 mm`).body.size;
  const widths = Array.from({ length: 19 }, (_, index) => 120 + index * 10);
  expect(widths.map(body)).toEqual([...widths.map(body)].sort((a, b) => a - b));
  expect([body(120), body(148), body(210), body(300)]).toEqual([10_500, 10_500, 11_000, 11_000]);
  for (const width of widths) expect(sheetOf(`${width} x 300 mm`).headings[0].size % 500).toBe(0);
});
