/**
 * Which step of an earlier text is which step of the later one: by id, else by its words where they are told apart by them, else by likeness in
 * the same order. Knows nothing of what a step means.
 */

/** What pairing needs of a step. */
export interface Pairable {
  readonly id?: string;
  readonly section: string;
  readonly text: string;
}

/** Least share of common words at which two steps are taken for one that was reworded. */
const LIKE = 0.5;

/** For each later step its earlier one, or -1. No earlier step is given twice. */
export function pairUp(earlier: readonly Pairable[], later: readonly Pairable[]): readonly number[] {
  const pairs = later.map(() => -1);
  const taken = new Set<number>();
  const pair = (after: number, before: number): void => {
    pairs[after] = before;
    taken.add(before);
  };
  byKey(earlier, later, ({ id }) => id, pairs, taken, pair);
  byKey(earlier, later, ({ section, text }) => `${section}\n${text}`, pairs, taken, pair);
  byKey(earlier, later, ({ text }) => text, pairs, taken, pair);
  // What is left between two neighbours that are paired is compared in order, so that a reworded step keeps its place.
  const words = (all: readonly Pairable[]) => all.map(({ text }) => new Set(text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []));
  const [before, after] = [words(earlier), words(later)];
  for (const [index, own] of later.entries()) {
    if (pairs[index] !== -1) continue;
    let best = -1;
    let most = LIKE;
    for (const [other, one] of earlier.entries()) {
      if (taken.has(other) || one.section !== own.section) continue;
      const share = likeness(before[other] as Set<string>, after[index] as Set<string>);
      if (share > most || (share === most && best === -1)) [best, most] = [other, share];
    }
    if (best !== -1) pair(index, best);
  }
  return pairs;
}

function byKey(
  earlier: readonly Pairable[],
  later: readonly Pairable[],
  keyOf: (one: Pairable) => string | undefined,
  pairs: readonly number[],
  taken: ReadonlySet<number>,
  pair: (after: number, before: number) => void,
): void {
  const free = new Map<string, number[]>();
  for (const [index, one] of earlier.entries()) {
    const key = keyOf(one);
    if (key === undefined || taken.has(index)) continue;
    const own = free.get(key);
    if (own) own.push(index);
    else free.set(key, [index]);
  }
  for (const [index, one] of later.entries()) {
    const key = keyOf(one);
    const before = key === undefined || pairs[index] !== -1 ? undefined : free.get(key)?.shift();
    if (before !== undefined) pair(index, before);
  }
}

/** Twice the common words over all words: 1 for the same words, 0 for none in common. */
export function likeness(a: ReadonlySet<string>, b: ReadonlySet<string>): number {
  if (a.size + b.size === 0) return 1;
  let common = 0;
  for (const word of a) if (b.has(word)) common += 1;
  return (2 * common) / (a.size + b.size);
}

/** Indices (into `pairs`) of steps that were moved: those outside the longest run that kept its order. */
export function movedIn(pairs: readonly number[]): ReadonlySet<number> {
  const kept = pairs.flatMap((before, index) => (before === -1 ? [] : [{ before, index }]));
  const best: number[] = [];
  const from: number[] = [];
  for (const [at, { before }] of kept.entries()) {
    best[at] = 1;
    from[at] = -1;
    for (let other = 0; other < at; other += 1) {
      if ((kept[other]?.before ?? 0) < before && (best[other] ?? 0) + 1 > (best[at] ?? 0)) {
        best[at] = (best[other] ?? 0) + 1;
        from[at] = other;
      }
    }
  }
  const stays = new Set<number>();
  for (let at = best.indexOf(Math.max(...best, 0)); at !== -1 && at !== undefined; at = from[at] ?? -1) stays.add(kept[at]?.index ?? -1);
  return new Set(kept.flatMap(({ index }) => (stays.has(index) ? [] : [index])));
}
