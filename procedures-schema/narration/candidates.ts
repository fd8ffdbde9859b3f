/** Where in a recording a passage may be spoken: stretches that hold enough of its words, then the best fits in them. */
import { type FitInput, fitEnds } from './fit.ts';

/** A place where a passage fits. Heard words [from, to). */
export interface Candidate {
  readonly passage: number;
  readonly from: number;
  readonly to: number;
  readonly score: number;
}

/** Share of the most a passage can score, in hundredths: below it nobody would say that it was spoken. Short ones must be heard nearly whole. */
const LEAST = 34;
const LEAST_SHORT = 60;
const SHORT = 45;
/** Share of a passage's telling words that a stretch must hold, in hundredths. */
const PRESENT = 28;
/** Places kept for one passage. */
const MOST = 14;

export interface PassageWords extends FitInput {
  readonly ids: readonly number[];
  readonly gain: readonly number[];
  /** The most it can score. */
  readonly most: number;
  /** A title or a remark: no reason to leave the order of the text. */
  readonly loose: boolean;
}

export const leastFor = (most: number): number => (most * (most < SHORT ? LEAST_SHORT : LEAST)) / 100;

export function candidatesFor(passage: number, words: PassageWords, places: ReadonlyMap<number, readonly number[]>): readonly Candidate[] {
  if (words.most === 0) return [];
  const least = leastFor(words.most);
  const found: Candidate[] = [];
  for (const [lo, hi] of stretches(words, places)) {
    const { score, start } = fitEnds(words, lo, hi);
    for (let j = 1; j < score.length; j += 1) {
      const here = score[j] as number;
      // Only where it ends best: a word more or less is worse.
      if (here < least || here < (score[j - 1] as number) || here <= (score[j + 1] ?? -1)) continue;
      found.push({ passage, from: start[j] as number, to: lo + j, score: here });
    }
  }
  found.sort((a, b) => b.score - a.score || a.from - b.from);
  const kept: Candidate[] = [];
  for (const one of found) {
    if (kept.length === MOST) break;
    if (one.to > one.from && !kept.some((other) => overlap(one, other) * 2 > one.to - one.from)) kept.push(one);
  }
  return kept;
}

const overlap = (a: Candidate, b: Candidate): number => Math.min(a.to, b.to) - Math.max(a.from, b.from);

/** [lo, hi) in order, apart from each other. */
function stretches(
  { ids, gain, heard }: PassageWords,
  places: ReadonlyMap<number, readonly number[]>,
): readonly (readonly [number, number])[] {
  const size = heard.length;
  const reach = Math.ceil(ids.length * 1.6) + 4;
  const change = new Int32Array(size + 2);
  let telling = 0;
  const seen = new Set<number>();
  for (const [index, id] of ids.entries()) {
    const worth = gain[index] as number;
    if (worth < 4 || seen.has(id)) continue;
    seen.add(id);
    telling += worth;
    let until = -1;
    for (const at of places.get(id) ?? []) {
      // Two of the same word in one stretch count once.
      const [from, to] = [Math.max(until, at - reach, 0), Math.min(size, at + reach + 1)];
      if (from < to) {
        change[from] = (change[from] as number) + worth;
        change[to] = (change[to] as number) - worth;
      }
      until = to;
    }
  }
  if (telling === 0) return [];
  const wanted = (telling * PRESENT) / 100;
  const out: [number, number][] = [];
  let sum = 0;
  for (let at = 0; at < size; at += 1) {
    sum += change[at] as number;
    if (sum < wanted) continue;
    const [lo, hi] = [Math.max(0, at - reach), Math.min(size, at + reach)];
    const last = out.at(-1);
    if (last && lo <= last[1]) last[1] = hi;
    else out.push([lo, hi]);
  }
  return out;
}
