/** Page breaking against every other way to break: on short runs of slabs no choice of breaks costs less, and nothing leaves a page. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { breakPages } from '../../publishing/layout/break.ts';
import { mostGiven, spacesOf } from '../../publishing/layout/give-way.ts';
import type { Slab } from '../../publishing/layout/slab.ts';

const slab = (height: number, gap: number, cost: number, head: number, turn = 0): Slab => ({
  height,
  items: [],
  gap,
  cost,
  decor: [],
  of: 'text',
  ...(turn > 0 ? { turn } : {}),
  ...(head > 0 ? { resume: [{ height: head, items: [], gap: 0, cost: 0, decor: [], of: 'table-head' as const }] } : {}),
});

const slabs = fc.array(
  fc
    .tuple(
      fc.integer({ min: 1, max: 60 }),
      fc.integer({ min: 0, max: 10 }),
      fc.constantFrom(0, 120, 6000, 1_000_000, 10_000_000),
      fc.constantFrom(0, 0, 8),
      fc.constantFrom(0, 0, 1500),
    )
    .map(([height, gap, cost, head, turn]) => slab(height, gap, cost, head, turn)),
  { minLength: 1, maxLength: 9 },
);

type Turns = (page: number) => boolean;

const used = (all: readonly Slab[], from: number, to: number): number => {
  let sum = from > 0 ? (all[from]?.resume ?? []).reduce((total, one) => total + one.height, 0) : 0;
  for (let k = from; k < to; k += 1) sum += (all[k] as Slab).height + (k > from ? (all[k] as Slab).gap : 0);
  return sum;
};

/** What the spaces of a page give up where they give way as far as they may. */
const given = (all: readonly Slab[], from: number, to: number, give: number): number =>
  Math.floor((all.slice(from + 1, to).reduce((sum, { gap }) => sum + gap, 0) * give) / 1000);

/** The same price list, written out plainly: what a page costs. */
function price(all: readonly Slab[], starts: readonly number[], height: number, turns: Turns = () => false, give = 0): number {
  let sum = 0;
  starts.forEach((from, index) => {
    const to = starts[index + 1] ?? all.length;
    const filled = used(all, from, to);
    if (filled > height && to > from + 1) sum += filled - given(all, from, to, give) > height ? Number.POSITIVE_INFINITY : 1200;
    const share = Math.min(1000, Math.round((filled * 1000) / height));
    sum += 400;
    if (to === all.length) sum += share < 125 ? 2500 : 0;
    else
      sum +=
        Math.round(((1000 - share) ** 2 * 10_000) / 1_000_000) +
        (all[to] as Slab).cost +
        (turns(index) ? ((all[to] as Slab).turn ?? 0) : 0);
  });
  return sum;
}

function cheapest(all: readonly Slab[], height: number, turns: Turns, give: number): number {
  let best = Number.POSITIVE_INFINITY;
  for (let bits = 0; bits < 1 << (all.length - 1); bits += 1) {
    const starts = [0];
    for (let k = 1; k < all.length; k += 1) if (bits & (1 << (k - 1))) starts.push(k);
    best = Math.min(best, price(all, starts, height, turns, give));
  }
  return best;
}

describe('page breaks', () => {
  test('no other way to break costs less', () => {
    fc.assert(
      fc.property(
        slabs,
        fc.constantFrom<Turns>(
          () => true,
          () => false,
          (page) => page % 2 === 0,
          (page) => page % 2 === 1,
        ),
        fc.constantFrom(0, 125, 400),
        (all, turns, give) => {
          const { starts } = breakPages(all, 100, turns, 0, give);
          expect(price(all, starts, 100, turns, give)).toBe(cheapest(all, 100, turns, give));
        },
      ),
      { numRuns: 400 },
    );
  });

  test('every slab stands once, in order, and no page is overfull', () => {
    fc.assert(
      fc.property(slabs, (all) => {
        const { starts } = breakPages(all, 100);
        expect(starts[0]).toBe(0);
        starts.forEach((from, index) => {
          const to = starts[index + 1] ?? all.length;
          expect(to).toBeGreaterThan(from);
          if (to > from + 1) expect(used(all, from, to)).toBeLessThanOrEqual(100);
        });
      }),
    );
  });

  test('a break that should never be is named, and taken only where there is no other', () => {
    const bound = [slab(60, 0, 0, 0), slab(60, 0, 10_000_000, 0)];
    expect(breakPages(bound, 100).forced).toEqual([1]);
    const free = [slab(60, 0, 0, 0), slab(30, 0, 0, 0), slab(60, 0, 10_000_000, 0)];
    expect(breakPages(free, 100)).toEqual({ starts: [0, 1], forced: [] });
  });

  test('at the height, just under, just over', () => {
    const two = (height: number) => breakPages([slab(50, 0, 0, 0), slab(height, 10, 0, 0)], 100).starts.length;
    expect([two(39), two(40), two(41)]).toEqual([1, 1, 2]);
  });

  test('spaces give way for a step that would stand overleaf alone, at an eighth, just under, just over, and never for little', () => {
    const page = (height: number, lone: number) => [slab(50, 0, 0, 0), slab(40, 80, 0, 0), slab(height, 0, lone, 0), slab(100, 0, 0, 0)];
    const second = (height: number, lone: number) => breakPages(page(height, lone), 200, undefined, 0, 125).starts[1];
    expect([second(39, 4000), second(40, 4000), second(41, 4000)]).toEqual([3, 3, 2]);
    expect(second(40, 60)).toBe(2);
  });

  test('what the spaces of a page give up is what it was too tall by, each its share, and a page that is not too tall gives up none', () => {
    fc.assert(
      fc.property(slabs, fc.integer({ min: 40, max: 200 }), (all, height) => {
        const spaces = spacesOf(all, 0, all.length, height);
        const own = all.map(({ gap }, index) => (index === 0 ? 0 : gap));
        const over = used(all, 0, all.length) - height;
        const left = spaces.reduce((sum, space) => sum + space, 0);
        const gaps = own.reduce((sum, gap) => sum + gap, 0);
        const gives = over > 0 && over <= given(all, 0, all.length, mostGiven);
        expect(left).toBe(gives ? gaps - over : gaps);
        spaces.forEach((space, index) => {
          expect(space).toBeLessThanOrEqual(own[index] as number);
          expect(space).toBeGreaterThanOrEqual(Math.floor((own[index] as number) * 0.875) - 1);
        });
      }),
    );
  });
});
