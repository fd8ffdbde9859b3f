/** How pages stand in the window of Print, and which one a typed number means. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  ARRANGEMENTS,
  FOLD,
  GAP,
  nextStep,
  pageAsked,
  percentOf,
  rowsOf,
  STEPS,
  scaleOf,
  zoomOf,
} from '../../../renderer/print/arrange.ts';

const A4 = { width: 595_276, height: 841_890 };
const TURNED = { width: 841_890, height: 595_276 };
const ROOM = { width: 900, height: 600 };
const pages = (count: number) => Array.from({ length: count }, () => A4);

describe('the size of a page', () => {
  test('at 100 percent is that of the paper: A4 is 210 mm wide', () => {
    expect(A4.width * scaleOf([A4], 100, ROOM)).toBeCloseTo((210 / 25.4) * 96, 1);
    expect(percentOf(scaleOf([A4], 150, ROOM))).toBe(150);
  });
  test('whole: neither edge is cut; by its width: both edges are met', () => {
    const whole = scaleOf([A4], 'page', ROOM);
    expect(A4.height * whole).toBeCloseTo(600);
    expect(TURNED.width * scaleOf([TURNED], 'page', ROOM)).toBeLessThanOrEqual(900);
    expect(A4.width * scaleOf([A4], 'width', ROOM)).toBeCloseTo(900);
    expect(2 * A4.width * scaleOf([A4, A4], 'width', ROOM) + FOLD).toBeCloseTo(900);
  });
  test('steps go up and down from what is shown, and end', () => {
    expect(nextStep(100, true)).toBe(125);
    expect(nextStep(100, false)).toBe(75);
    expect(nextStep(113, true)).toBe(125);
    expect(nextStep(113, false)).toBe(100);
    expect(nextStep(300, true)).toBeUndefined();
    expect(nextStep(50, false)).toBeUndefined();
  });
  test('a kept setting is one of the steps or fits', () => {
    for (const step of STEPS) expect(zoomOf(String(step))).toBe(step);
    expect(zoomOf('page')).toBe('page');
    expect(zoomOf('')).toBe(100);
  });
});

describe('facing pages', () => {
  const facing = (count: number, duplex = true) => rowsOf(pages(count), 'facing', duplex, 100, ROOM);
  test('the first stands on the right, and an even page faces the odd one after it', () => {
    expect(facing(4)).toEqual([
      [undefined, 0],
      [1, 2],
      [3, undefined],
    ]);
    expect(facing(5)).toEqual([
      [undefined, 0],
      [1, 2],
      [3, 4],
    ]);
    expect(facing(1)).toEqual([[undefined, 0]]);
  });
  test('what is printed on one side stands on the right, its back blank', () => {
    expect(facing(2, false)).toEqual([
      [undefined, 0],
      [undefined, 1],
    ]);
  });
});

test('every page stands once, in order, and as many as fit fit', () => {
  const size = fc.constantFrom(A4, TURNED);
  const room = fc.record({ width: fc.integer({ min: 1, max: 4000 }), height: fc.integer({ min: 1, max: 3000 }) });
  const zoom = fc.constantFrom('page' as const, 'width' as const, ...STEPS);
  fc.assert(
    fc.property(
      fc.array(size, { maxLength: 40 }),
      fc.constantFrom(...ARRANGEMENTS),
      fc.boolean(),
      zoom,
      room,
      (sizes, how, duplex, large, free) => {
        const rows = rowsOf(sizes, how, duplex, large, free);
        expect(rows.flat().filter((at) => at !== undefined)).toEqual(sizes.map((_, index) => index));
        if (how !== 'many') return;
        for (const row of rows) {
          const wide = row.map((at) => (sizes[at ?? 0] ?? A4).width * scaleOf([sizes[at ?? 0] ?? A4], large, free));
          const used = wide.reduce((sum, one) => sum + one, GAP * (row.length - 1));
          expect(row.length === 1 || used <= free.width + 0.001).toBe(true);
        }
      },
    ),
  );
});

describe('the page meant by', () => {
  const numbers = ['i', 'ii', 'iii', 'iv', '1', '2', '3'];
  const asked = (typed: string, from = 0) => pageAsked(typed, numbers, 'leaf', from);
  test.each([
    ['iv', 3],
    [' IV ', 3],
    ['1', 4],
    ['3', 6],
    ['leaf 3', 2],
    ['Leaf 3', 2],
    ['#7', 6],
    // No page is numbered so, but there are so many leaves.
    ['7', 6],
    ['8', undefined],
    ['leaf 8', undefined],
    ['leaf 0', undefined],
    ['v', undefined],
    ['', undefined],
    ['-1', undefined],
  ])('"%s"', (typed, index) => expect(asked(typed)).toBe(index));
  test('a number that several chapters have is the next of them, and after the last the first', () => {
    const leaves = ['OM-1 p. 1', 'OM-1 p. 2', 'OM-2 p. 1', '', 'OM-2 p. 2'];
    expect(pageAsked('2', leaves, 'leaf', 0)).toBe(1);
    expect(pageAsked('2', leaves, 'leaf', 2)).toBe(4);
    expect(pageAsked('2', leaves, 'leaf', 5)).toBe(1);
    expect(pageAsked('om-2 p. 1', leaves, 'leaf')).toBe(2);
  });
});
