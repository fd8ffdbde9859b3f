/** How the ways are laid: on the sample library's graphs and on random ones nothing lies on what must be read. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type GraphEdge, graphOf, type LaidWays, layWays, shortened, waysPath } from '../../../procedures-schema/review/index.ts';
import { sample } from '../../support/sample.ts';

const SIZE = { line: 18, pad: 10, lane: 13, answer: 240, broad: (text: string) => 6 * text.length };

/** What is wrong with it, in words; empty: nothing. */
function faultsOf(laid: LaidWays, count: number): readonly string[] {
  const out: string[] = [];
  const boxes = laid.edges.flatMap(({ answer }) =>
    answer ? [{ text: answer.text, left: answer.x, right: answer.x + answer.width, top: answer.y - 9, foot: answer.y + 9 }] : [],
  );
  // Steps lie left of nought, on their own rows.
  for (const box of boxes) {
    if (box.left <= 0) out.push(`${box.text} lies on a step`);
    if (box.right > laid.width || box.foot > laid.height || box.top < 0) out.push(`${box.text} leaves the drawing`);
    if (box.right - box.left > SIZE.answer) out.push(`${box.text} is too long`);
  }
  boxes.forEach((one, index) => {
    for (const other of boxes.slice(index + 1))
      if (one.left < other.right && other.left < one.right && one.top < other.foot && other.top < one.foot)
        out.push(`${one.text} lies on ${other.text}`);
  });
  const upright: { x: number; from: number; to: number; target: string }[] = [];
  const level: { y: number; from: number; to: number; target: string }[] = [];
  for (const { edge, back, points } of laid.edges) {
    const target = `${back} ${edge.to ?? count}`;
    points.slice(1).forEach(([x, y], index) => {
      const [px, py] = points[index] ?? [0, 0];
      if (x !== px && y !== py) out.push(`an arrow to ${target} runs askew`);
      const [left, right, top, foot] = [Math.min(x, px), Math.max(x, px), Math.min(y, py), Math.max(y, py)];
      if (x === px) upright.push({ x, from: top, to: foot, target });
      else level.push({ y, from: left, to: right, target });
      for (const box of boxes)
        if (left < box.right && right > box.left && top < box.foot && foot > box.top)
          out.push(`an arrow to ${target} runs through ${box.text}`);
    });
  }
  for (const lines of [upright.map(({ x, ...rest }) => ({ at: x, ...rest })), level.map(({ y, ...rest }) => ({ at: y, ...rest }))])
    lines.forEach((one, index) => {
      for (const other of lines.slice(index + 1))
        if (one.target !== other.target && one.at === other.at && one.from <= other.to && other.from <= one.to)
          out.push(`arrows to ${one.target} and ${other.target} run in one line`);
    });
  // Those that lead back keep outside of all that lead on.
  const lanes = (back: boolean): number[] => laid.edges.filter((one) => one.back === back).map(({ points }) => points[1]?.[0] ?? 0);
  if (Math.min(...lanes(true)) <= Math.max(...lanes(false))) out.push('a way back runs among the ways on');
  laid.rows.forEach(({ top, height }, row) => {
    const next = laid.rows[row + 1];
    if (next !== undefined && next.top !== top + height) out.push(`row ${row} does not end where the next begins`);
  });
  return out;
}

describe('ways', () => {
  test('of every procedure of the sample library', async () => {
    const { facts } = (await sample()).report;
    let told = 0;
    for (const procedure of facts.procedures) {
      const { steps, edges } = graphOf(procedure, facts);
      const laid = layWays(steps.length, edges, SIZE);
      expect(faultsOf(laid, steps.length), procedure.head.id).toEqual([]);
      expect(laid.rows).toHaveLength(steps.length + 1);
      told += laid.edges.filter(({ answer }) => answer !== undefined).length;
      // Every answer is told, and every way that is not simply the next step.
      expect(laid.edges.map(({ edge }) => edge)).toEqual(
        edges.filter(({ from, to, note }) => note !== '' || (to ?? steps.length) !== from + 1),
      );
    }
    expect(told).toBeGreaterThan(50);
  });

  test('of random graphs, crowded ones among them', () => {
    const graph = fc.integer({ min: 1, max: 30 }).chain((count) =>
      fc.tuple(
        fc.constant(count),
        fc.uniqueArray(
          fc.record({
            from: fc.nat(count - 1),
            to: fc.nat(count),
            note: fc.oneof(fc.constant(''), fc.string({ maxLength: 80 }), fc.lorem({ maxCount: 12 })),
          }),
          { maxLength: 60, selector: ({ from, to }) => `${from} ${to}` },
        ),
      ),
    );
    fc.assert(
      fc.property(graph, ([count, drawn]) => {
        const edges = drawn.map(({ from, to, note }): GraphEdge => (to === count ? { from, note } : { from, to, note }));
        expect(faultsOf(layWays(count, edges, SIZE), count)).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });

  test('a step that leads nowhere else takes one line; each answer one more, and so does what comes in', () => {
    const heights = layWays(
      3,
      [
        { from: 0, to: 2, note: 'yes' },
        { from: 0, to: 1, note: 'no' },
        { from: 2, to: 0, note: 'again' },
      ],
      SIZE,
    ).rows;
    // In: the way back to 0; out: two answers. In: "no". In: "yes"; out: "again". The end.
    expect(heights.map(({ height }) => height)).toEqual([64, 28, 46, 28]);
  });
});

test('an answer is cut between words, and a word that is too long within', () => {
  const room = (text: string, letters: number) => shortened(text, letters, ({ length }) => length);
  expect(room('it is over the limit', 20)).toBe('it is over the limit');
  expect(room('it is over the limit', 19)).toBe('it is over the…');
  expect(room('overpressure', 6)).toBe('overp…');
});

test('a path goes through its corners, rounded', () => {
  expect(
    waysPath(
      [
        [0, 0],
        [20, 0],
        [20, 30],
        [2, 30],
      ],
      5,
    ),
  ).toBe('M0 0 L15 0 Q20 0 20 5 L20 25 Q20 30 15 30 L2 30');
});
