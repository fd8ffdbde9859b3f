/** What stands below each other stands on one edge: boxes to write in, whatever their labels, and the columns of tables that are one list. */
import { beforeAll, expect, test } from 'vitest';
import { guideBook, procedureBook } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource, type Shaper } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
let shaper: Shaper;
beforeAll(async () => {
  it = await sample();
  shaper = newFontSource(it.fonts).shaper;
});

test.each(['en', 'de'])('boxes for what to have at hand, in "%s"', (language) => {
  const guide = it.report.facts.guides[0] as Parameters<typeof guideBook>[0];
  const placed = layoutBook(guideBook(guide, it.input, { language }), shaper);
  const at = placed.pages.findIndex(({ chapter }) => chapter?.anchor === 'ask');
  const boxes = (drawBook(placed).pages[at]?.ops ?? []).flatMap((op) => (op.op === 'field' ? [op.x] : []));
  expect(boxes).toHaveLength(5);
  expect(new Set(boxes).size).toBe(1);
});

test.each([
  ['a4', false],
  ['a5', true],
] as const)('tables of what is needed, on %s', (paper, large) => {
  let tables = 0;
  for (const facts of it.report.facts.procedures) {
    const { pages } = layoutBook(procedureBook(facts, it.input, { paper, large }), shaper);
    const heads = pages.flatMap(({ slabs }) =>
      slabs.flatMap(({ slab }) => {
        const lines = slab.items.flatMap((item) => (item.kind === 'line' ? [item] : []));
        const last = lines.at(-1)?.line.parts.map((part) => (part.kind === 'text' ? part.shaped.map(({ text }) => text).join('') : ''));
        return slab.of === 'table-head' && last?.join('') === 'Quantity' ? [[...new Set(lines.map(({ x }) => x))].join(' ')] : [];
      }),
    );
    tables += heads.length;
    expect(new Set(heads).size, facts.head.id).toBe(1);
  }
  expect(tables).toBeGreaterThan(50);
});
