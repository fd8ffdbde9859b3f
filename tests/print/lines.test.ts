/**
 * The chosen line breaks against every possible choice, on short paragraphs: no other set of breaks has fewer demerits. The sum is written down anew
 * here from Knuth and Plass, "Breaking Paragraphs into Lines", Software: Practice and Experience 11 (1981), with the weights of TeX's plain format
 * (10 a line, 10,000 for two hyphens under each other, 5,000 for one before the last line), for ragged text.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type BreakItem, breakLines } from '../../publishing/layout/lines.ts';

const box = (width: number): BreakItem => ({ kind: 'box', width });
const glue: BreakItem = { kind: 'glue', width: 250 };
const hyphen: BreakItem = { kind: 'penalty', width: 300, cost: 280, hyphen: true };

interface Choice {
  readonly at: number;
  readonly from: number;
  readonly extra: number;
  readonly cost: number;
  readonly hyphen: boolean;
}

/** Where a line may end, and where the next one then begins. */
function choices(items: readonly BreakItem[]): readonly Choice[] {
  return items.flatMap((item, at): Choice[] => {
    if (item.kind === 'penalty') return [{ at, from: at + 1, extra: item.width, cost: item.cost, hyphen: item.hyphen }];
    return item.kind === 'glue' && items[at - 1]?.kind === 'box' ? [{ at, from: at + 1, extra: 0, cost: 0, hyphen: false }] : [];
  });
}

const widthOf = (items: readonly BreakItem[], from: number, to: number): number =>
  items.slice(from, to).reduce((sum, item) => sum + (item.kind === 'penalty' ? 0 : item.width), 0);

/** undefined where a line is too wide. */
function demerits(
  items: readonly BreakItem[],
  breaks: readonly Choice[],
  width: number,
  stretch: number,
  stub: number,
): number | undefined {
  let sum = 0;
  let from = 0;
  let hyphenBefore = false;
  for (const one of [...breaks, { at: items.length, from: items.length, extra: 0, cost: 0, hyphen: false }]) {
    const last = one.at === items.length;
    const length = widthOf(items, from, one.at) + one.extra;
    if (length > width) return undefined;
    const ratio = (width - length) / stretch;
    const bad = last ? 0 : Math.min(10_000, 100 * ratio ** 3);
    sum += (10 + bad) ** 2 + one.cost ** 2;
    if (one.hyphen && hyphenBefore) sum += 10_000;
    if (last && hyphenBefore) sum += 5_000;
    if (last && from > 0 && length < stub) sum += (400_000 * (stub - length)) / stub;
    from = one.from;
    hyphenBefore = one.hyphen;
  }
  return sum;
}

function* subsets(all: readonly Choice[]): Iterable<readonly Choice[]> {
  for (let bits = 0; bits < 1 << all.length; bits += 1) yield all.filter((_, index) => (bits >> index) & 1);
}

/** Words of one or two pieces; a piece fits a line in any case. */
const paragraph = fc
  .array(fc.array(fc.integer({ min: 400, max: 2600 }), { minLength: 1, maxLength: 2 }), { minLength: 2, maxLength: 7 })
  .map((words) =>
    words.flatMap((pieces, index): BreakItem[] => [
      ...(index === 0 ? [] : [glue]),
      ...pieces.flatMap((width, piece): BreakItem[] => (piece === 0 ? [box(width)] : [hyphen, box(width)])),
    ]),
  );

test('no other choice of breaks has fewer demerits', () => {
  let several = 0;
  fc.assert(
    fc.property(paragraph, fc.integer({ min: 3000, max: 9000 }), (items, width) => {
      const [stretch, stub] = [1800, 900];
      const all = choices(items);
      const chosen = breakLines(items, width, stretch, stub).ends;
      const own = chosen.slice(0, -1).map((end) => all.find(({ at }) => at === end) as Choice);
      const ours = demerits(items, own, width, stretch, stub);
      let best = Number.POSITIVE_INFINITY;
      let found = 0;
      for (const breaks of subsets(all)) {
        const sum = demerits(items, breaks, width, stretch, stub);
        if (sum === undefined) continue;
        found += 1;
        best = Math.min(best, sum);
      }
      fc.pre(found > 0);
      if (found > 3) several += 1;
      expect(ours).toBeDefined();
      // Badness is counted in whole numbers: each line may be off by the roundings of its ratio and its cube.
      expect(Math.sqrt(ours as number)).toBeLessThanOrEqual(Math.sqrt(best) + 0.02 * Math.sqrt(best) + 2 * (own.length + 1));
    }),
    { numRuns: 600 },
  );
  expect(several).toBeGreaterThan(200);
});
