/**
 * What a chain left over: passages not found and words not explained, brought together with less asked the more their places agree. Rounds: a doubtful
 * retake that is really a missing neighbour, near its place or anywhere, in place, and once more beside a take of the same passage.
 */
import type { Candidate, PassageWords } from './candidates.ts';
import { fitEnds } from './fit.ts';

/** Share of its score (hundredths) that a passage must reach: far from its place, beside its place, and where it is the one awaited. */
const FAR = 62;
const NEAR = 32;
const IN_PLACE = 12;
/** Of a passage read again, beside a take of it or of a neighbour. */
const READ_AGAIN = 16;
/** Passages that count as neighbours. */
const BESIDE = 5;
/** A stretch must have this share of the passage's words in number (hundredths). */
const ENOUGH_WORDS = 30;
/** What its own place is worth, in the same hundredths. */
const OWN_PLACE = 20;
/** By which a missing neighbour must fit better (hundredths of its own score) than the passage it replaces as a retake. */
const BETTER = 2;
/** Where the missing one is awaited, it may score this share (hundredths) of what the other does. */
const AWAITED = 75;
/** Words that stand where one passage is awaited are it, however badly heard, if they are as many (hundredths) and one telling word is right. */
const AS_MANY = [50, 170] as const;

/** Share (hundredths) of its telling words that a take hardly heard must still hold. */
const BLURRED = 34;
/** A twin must fit to this share (hundredths) of what the stray did. */
const TWIN = 85;
/** Gain from which on a word tells something. */
const TELLING = 5;

/** The chain with what was found besides, in the order of the recording. */
export function withLeftovers(chain: readonly Candidate[], words: readonly PassageWords[]): readonly Candidate[] {
  return readAgain(inPlace(elsewhere(instead(chain, words), words), words), words);
}

interface Gap {
  readonly from: number;
  readonly to: number;
  /** Index in the chain of the take after it. */
  readonly before: number;
}

function gapsOf(chain: readonly Candidate[], words: readonly PassageWords[]): readonly Gap[] {
  const size = words[0]?.heard.length ?? 0;
  const out: Gap[] = [];
  let at = 0;
  for (let index = 0; index <= chain.length; index += 1) {
    const { from, to } = chain[index] ?? { from: size, to: size };
    if (from > at) out.push({ from: at, to: from, before: index });
    at = Math.max(at, to);
  }
  return out;
}

const missingIn = (chain: readonly Candidate[], words: readonly PassageWords[]): readonly number[] => {
  const found = new Set(chain.map(({ passage }) => passage));
  return words.flatMap((_, passage) => (found.has(passage) ? [] : [passage]));
};

const share = ({ passage, score }: Candidate, words: readonly PassageWords[]): number =>
  (score * 100) / Math.max(1, (words[passage] as PassageWords).most);

/** Of two passages nearly alike, the one that is nowhere else is meant. */
function instead(chain: readonly Candidate[], words: readonly PassageWords[]): readonly Candidate[] {
  const missing = new Set(missingIn(chain, words));
  const count = new Map<number, number>();
  for (const { passage } of chain) count.set(passage, (count.get(passage) ?? 0) + 1);
  return chain.map((one, index) => {
    if ((count.get(one.passage) ?? 0) < 2) return one;
    const fits = [...missing]
      .filter((passage) => Math.abs(passage - one.passage) <= 2 * BESIDE)
      .flatMap((passage) => bestFit(passage, words, one.from, one.to) ?? [])
      .filter((fit) => {
        const awaited = (chain[index - 1]?.passage ?? -1) < fit.passage && fit.passage < (chain[index + 1]?.passage ?? words.length);
        return share(fit, words) >= share(one, words) + BETTER || (awaited && fit.score * 100 >= one.score * AWAITED);
      })
      .sort((a, b) => share(b, words) - share(a, words) || a.passage - b.passage);
    const [best] = fits;
    if (!best) return one;
    missing.delete(best.passage);
    count.set(one.passage, (count.get(one.passage) ?? 0) - 1);
    return best;
  });
}

/** The best first; each stretch and each passage once. */
function elsewhere(chain: readonly Candidate[], words: readonly PassageWords[]): readonly Candidate[] {
  const gaps = gapsOf(chain, words);
  const fits = missingIn(chain, words).flatMap((passage) =>
    gaps.flatMap(({ from, to, before }) => {
      const [left, right] = [chain[before - 1], chain[before]];
      const near = [left, right].some((one) => one !== undefined && Math.abs(one.passage - passage) <= BESIDE);
      const awaited = near && (left?.passage ?? -1) < passage && passage < (right?.passage ?? words.length);
      if (!awaited && (words[passage] as PassageWords).loose) return [];
      const fit = bestFit(passage, words, from, to);
      if (!fit || share(fit, words) < (near ? NEAR : FAR) || !enough(fit, words)) return [];
      return [{ fit, worth: share(fit, words) + (awaited ? OWN_PLACE : 0) }];
    }),
  );
  fits.sort((a, b) => b.worth - a.worth || a.fit.from - b.fit.from || a.fit.passage - b.fit.passage);
  const taken: Candidate[] = [];
  for (const { fit } of fits)
    if (!taken.some((one) => one.passage === fit.passage || (one.from < fit.to && fit.from < one.to))) taken.push(fit);
  return inOrder([...chain, ...taken]);
}

const enough = ({ passage, from, to }: Candidate, words: readonly PassageWords[]): boolean =>
  (to - from) * 100 >= (words[passage] as PassageWords).ids.length * ENOUGH_WORDS;

function inPlace(chain: readonly Candidate[], words: readonly PassageWords[]): readonly Candidate[] {
  const missing = new Set(missingIn(chain, words));
  const out: Candidate[] = [];
  for (const { from, to, before } of gapsOf(chain, words)) {
    let lo = from;
    const first = (chain[before - 1]?.passage ?? -1) + 1;
    const last = chain[before]?.passage ?? words.length;
    for (let passage = first; passage < last && lo < to; passage += 1) {
      if (!missing.has(passage)) continue;
      const best = bestFit(passage, words, lo, to);
      const found = best && share(best, words) >= IN_PLACE && enough(best, words) ? best : undefined;
      const fit = found ?? (alone(first, last, missing, words) ? hardlyHeard(passage, words, lo, to) : undefined);
      if (!fit) continue;
      out.push(fit);
      missing.delete(passage);
      lo = fit.to;
    }
  }
  return inOrder([...chain, ...out]);
}

/** Of the passages awaited there, one is no title or remark. */
function alone(first: number, last: number, missing: ReadonlySet<number>, words: readonly PassageWords[]): boolean {
  let count = 0;
  for (let passage = first; passage < last; passage += 1) if (missing.has(passage) && !(words[passage] as PassageWords).loose) count += 1;
  return count === 1;
}

function hardlyHeard(passage: number, words: readonly PassageWords[], from: number, to: number): Candidate | undefined {
  const { ids, gain, heard } = words[passage] as PassageWords;
  const share = ((to - from) * 100) / ids.length;
  if (share < AS_MANY[0] || share > AS_MANY[1]) return undefined;
  const telling = new Set(ids.filter((_, index) => (gain[index] as number) >= TELLING));
  for (let at = from; at < to; at += 1) if (telling.has(heard[at] as number)) return { passage, from, to, score: 0 };
  return undefined;
}

/** A take that was broken off or badly heard. */
function readAgain(chain: readonly Candidate[], words: readonly PassageWords[]): readonly Candidate[] {
  const out: Candidate[] = [];
  const found = [...new Set(chain.map(({ passage }) => passage))]
    .filter((passage) => !(words[passage] as PassageWords).loose)
    .sort((a, b) => a - b);
  for (const gap of gapsOf(chain, words)) {
    const near = [chain[gap.before - 1]?.passage, chain[gap.before]?.passage].flatMap((passage) => passage ?? []);
    const beside = found.filter((passage) => near.some((one) => Math.abs(one - passage) <= BESIDE));
    for (let lo = gap.from; lo < gap.to; ) {
      const from = lo;
      const [best] = beside
        .flatMap((passage) => bestFit(passage, words, from, gap.to) ?? [])
        .filter((fit) => share(fit, words) >= READ_AGAIN && enough(fit, words))
        .sort((a, b) => b.score - a.score || a.from - b.from || a.passage - b.passage);
      if (!best) break;
      out.push(best);
      lo = best.to;
    }
    const blurred = blurredAgain(beside, { ...gap, from: Math.max(gap.from, out.at(-1)?.to ?? 0) }, words);
    if (blurred) out.push(blurred);
  }
  return inOrder([...chain, ...out]);
}

/** Too badly heard to be laid on, but with two and a third of the telling words of a neighbour, and about its length. */
function blurredAgain(beside: readonly number[], { from, to }: Gap, words: readonly PassageWords[]): Candidate | undefined {
  let best: Candidate | undefined;
  let most = 1;
  for (const passage of beside) {
    const { ids, gain, heard } = words[passage] as PassageWords;
    const share = ((to - from) * 100) / ids.length;
    if (share < AS_MANY[0] || share > AS_MANY[1]) continue;
    const telling = new Set(ids.filter((_, index) => (gain[index] as number) >= TELLING));
    const shared = new Set(Array.from({ length: to - from }, (_, n) => heard[from + n] as number).filter((id) => telling.has(id))).size;
    if (shared > most && shared * 100 >= telling.size * BLURRED) [most, best] = [shared, { passage, from, to, score: 0 }];
  }
  return best;
}

/**
 * A take far from its place may be one of a twin nearer by: the same words stand at several places of a procedure. `strays` are indices of such takes.
 */
export function settled(chain: readonly Candidate[], strays: readonly number[], words: readonly PassageWords[]): readonly Candidate[] {
  const out = [...chain];
  for (const index of strays) {
    const one = chain[index] as Candidate;
    const near = [out[index - 1]?.passage, out[index + 1]?.passage].flatMap((passage) => passage ?? []);
    const [twin] = words
      .flatMap(({ loose }, passage) => (!loose && near.some((other) => Math.abs(other - passage) <= BESIDE) ? [passage] : []))
      .flatMap((passage) => bestFit(passage, words, one.from, one.to) ?? [])
      .filter((fit) => share(fit, words) * 100 >= share(one, words) * TWIN)
      .sort((a, b) => share(b, words) - share(a, words) || a.passage - b.passage);
    if (twin) out[index] = { ...twin, from: one.from, to: one.to };
  }
  return out;
}

const inOrder = (chain: readonly Candidate[]): readonly Candidate[] => [...chain].sort((a, b) => a.from - b.from || a.to - b.to);

function bestFit(passage: number, words: readonly PassageWords[], lo: number, hi: number): Candidate | undefined {
  const own = words[passage] as PassageWords;
  if (own.most === 0) return undefined;
  const { score, start } = fitEnds(own, lo, hi);
  let best: Candidate | undefined;
  score.forEach((here, j) => {
    const from = start[j] as number;
    if (lo + j > from && (!best || here > best.score)) best = { passage, from, to: lo + j, score: here };
  });
  return best;
}
