/**
 * Third stage: where pages end. The least sum of costs over a whole stretch, not page by page: after Plass, "Optimal Pagination
 * Techniques for Automatic Typesetting Systems" (1981), with slabs for lines. Works on heights and costs only; what stands where: place.ts.
 */
import type { Slab } from './slab.ts';
import { costs } from './style.ts';
import type { Mp } from './units.ts';

export interface PageBreaks {
  /** Index of the first slab of each page; the first is 0. */
  readonly starts: readonly number[];
  /** Slabs before which a page had to end although they should never be parted from what stands above. */
  readonly forced: readonly number[];
}

/** An empty page costs this; part of a page, the square of that part. */
const emptyPage = 10_000;
/** Fewer pages are better where all else is equal. */
const anotherPage = 400;
/** A last page with less than an eighth of it used looks like a mistake. */
const stubPage = 2_500;

export const heightOf = (slabs: readonly Slab[]): Mp => slabs.reduce((sum, slab) => sum + slab.height, 0);

/**
 * What stands again above the first slab of a page: as much of it, the nearest first, as leaves room for the slab itself. Heads of many notices one
 * inside the other can be taller than a page.
 */
export function resumedOn(slab: Slab, height: Mp): readonly Slab[] {
  const all = slab.resume ?? [];
  let room = height - slab.height;
  let from = all.length;
  while (from > 0 && room >= (all[from - 1] as Slab).height) {
    from -= 1;
    room -= (all[from] as Slab).height;
  }
  return from === 0 ? all : all.slice(from);
}

/** Height above the first slab of a page taken by what stands there again. */
export const resumedHeight = (slab: Slab, height: Mp): Mp => (slab.resume === undefined ? 0 : heightOf(resumedOn(slab, height)));

/**
 * `turns` says of each page of the stretch, counted from nought, whether a leaf is turned after it: what a slab asks for a turn above it
 * counts there only. The two pages of an opening lie side by side. `leaf`: what every further leaf costs, where their count is what matters.
 * `give`: how many thousandths of its spaces a page may give up (give-way.ts).
 */
export function breakPages(
  slabs: readonly Slab[],
  height: Mp,
  turns: (page: number) => boolean = () => false,
  leaf = 0,
  give = 0,
): PageBreaks {
  const count = slabs.length;
  if (count === 0) return { starts: [], forced: [] };
  // Two ways to each break, by whether an even or an odd count of pages stands before it: turning alternates at most.
  const [turnsEven, turnsOdd] = [turns(0), turns(1)];
  const alike = turnsEven === turnsOdd;
  // What is turned to is the back of the same leaf, unless no back is printed on.
  const [leafEven, leafOdd] = [alike || !turnsEven ? leaf : 0, alike || !turnsOdd ? leaf : 0];
  const best = [
    new Float64Array(count + 1).fill(Number.POSITIVE_INFINITY),
    new Float64Array(count + 1).fill(Number.POSITIVE_INFINITY),
  ] as const;
  const from = [new Int32Array(count + 1), new Int32Array(count + 1)] as const;
  const [bestEven, bestOdd] = best;
  const facts = factsOf(slabs);
  best[0][0] = 0;
  for (let start = 0; start < count; start += 1) {
    const even = bestEven[start] as number;
    const odd = bestOdd[start] as number;
    if (even === Number.POSITIVE_INFINITY && odd === Number.POSITIVE_INFINITY) continue;
    let used = start === 0 ? 0 : resumedHeight(slabs[start] as Slab, height);
    let gaps = 0;
    for (let end = start + 1; end <= count; end += 1) {
      const gap = end - 1 > start ? (facts.gap[end - 1] as number) : 0;
      gaps += gap;
      used += (facts.height[end - 1] as number) + gap;
      const over = used > height && end > start + 1;
      // A slab taller than a page still has to stand somewhere.
      if (over && used - mayGive(gaps, give) > height) break;
      const base = pageCost(used, height, end < count ? (facts.cost[end] as number) : undefined) + (over ? costs.givesWay : 0);
      const turn = end < count ? (facts.turn[end] as number) : 0;
      if (even !== Number.POSITIVE_INFINITY) {
        const cost = even + base + (turnsEven ? turn : 0) + (end < count ? leafEven : 0);
        const after = alike ? 0 : 1;
        if (cost < (best[after][end] as number)) {
          best[after][end] = cost;
          from[after][end] = start;
        }
      }
      if (odd !== Number.POSITIVE_INFINITY) {
        const cost = odd + base + (turnsOdd ? turn : 0) + (end < count ? leafOdd : 0);
        if (cost < (bestEven[end] as number)) {
          bestEven[end] = cost;
          from[0][end] = start;
        }
      }
    }
  }
  const starts: number[] = [];
  let odd: 0 | 1 = (best[1][count] as number) < (best[0][count] as number) ? 1 : 0;
  for (let end = count; end > 0; ) {
    const start: number = from[odd][end] as number;
    starts.push(start);
    end = start;
    if (!alike) odd = odd === 0 ? 1 : 0;
  }
  starts.reverse();
  return { starts, forced: starts.filter((start) => start > 0 && (slabs[start] as Slab).cost >= costs.hard) };
}

/** Of spaces of this height together. */
export const mayGive = (gaps: Mp, give: number): Mp => Math.floor((gaps * give) / 1000);

/** `next`: what a break above the next slab costs; undefined where none follows. */
function pageCost(used: Mp, room: Mp, next: number | undefined): number {
  const share = Math.min(1000, Math.max(0, Math.round((used * 1000) / Math.max(1, room))));
  if (next === undefined) return anotherPage + (share < 125 ? stubPage : 0);
  const unused = 1000 - share;
  return anotherPage + Math.round((unused * unused * emptyPage) / 1_000_000) + next;
}

/** The numbers of all slabs in columns: each is looked at once for every slab that can begin its page. */
function factsOf(slabs: readonly Slab[]) {
  const height = new Int32Array(slabs.length);
  const gap = new Int32Array(slabs.length);
  const turn = new Int32Array(slabs.length);
  const cost = new Float64Array(slabs.length);
  slabs.forEach((slab, index) => {
    height[index] = slab.height;
    gap[index] = slab.gap;
    cost[index] = slab.cost;
    turn[index] = slab.turn ?? 0;
  });
  return { height, gap, cost, turn };
}
