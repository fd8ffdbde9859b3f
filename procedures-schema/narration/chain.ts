/**
 * Picks of all places where passages fit those that make the best recording as a whole: in the order of the text as far as it goes, with a price on leaving
 * out, going back and reading again. Dynamic programming over candidates; it knows no words.
 */
import type { Candidate } from './candidates.ts';

/** Prices in tenths of a telling word. */
const AGAIN = 12;
const BACK = 14;
const FORWARD = 3;
/** For each passage jumped over, up to a bound: a long jump is not less likely than a very long one. */
const EACH_BACK = 2;
const EACH_FORWARD = 1.5;
const MOST_EACH = 30;
/** Out of order a title or a remark is hardly ever meant. */
const LOOSE = 40;
/** Two neighbours may dispute this many words, at a price for each; who gets them is settled later. */
const DISPUTED = 4;
const EACH_DISPUTED = 5;

function price(before: number, after: number): number {
  const step = after - before;
  if (step === 1) return 0;
  if (step === 0) return AGAIN;
  if (step > 1) return FORWARD + EACH_FORWARD * Math.min(step - 1, MOST_EACH);
  return BACK + EACH_BACK * Math.min(-step, MOST_EACH);
}

/** In the order of the recording, overlapping by a few words at most. `loose`: of each passage, whether it is a title or a remark. */
export function bestChain(candidates: readonly Candidate[], loose: readonly boolean[]): readonly Candidate[] {
  const passages = loose.length;
  const byStart = [...candidates].sort((a, b) => a.from - b.from || a.to - b.to || a.passage - b.passage);
  const byEnd = byStart.map((_, index) => index).sort((a, b) => (byStart[a] as Candidate).to - (byStart[b] as Candidate).to || a - b);
  const total = new Float64Array(byStart.length);
  const before = new Int32Array(byStart.length).fill(-1);
  /** Best so far that ends with each passage. */
  const ending = new Int32Array(passages).fill(-1);
  let ended = 0;
  byStart.forEach((one, index) => {
    for (; ended < byEnd.length; ended += 1) {
      const done = byEnd[ended] as number;
      const other = byStart[done] as Candidate;
      // What begins later has not been reckoned yet.
      if (other.to > one.from + DISPUTED || done >= index) break;
      const held = ending[other.passage] as number;
      if (held === -1 || (total[done] as number) > (total[held] as number)) ending[other.passage] = done;
    }
    // To begin a recording late costs as much as to leave passages out.
    let best = -price(-1, one.passage);
    let from = -1;
    for (let passage = 0; passage < passages; passage += 1) {
      const held = ending[passage] as number;
      if (held === -1) continue;
      const disputed = Math.max(0, (byStart[held] as Candidate).to - one.from) * EACH_DISPUTED;
      const sum =
        (total[held] as number) - price(passage, one.passage) - disputed - (one.passage !== passage + 1 && loose[one.passage] ? LOOSE : 0);
      if (sum > best) [best, from] = [sum, held];
    }
    total[index] = best + one.score;
    before[index] = from;
  });
  let last = -1;
  byStart.forEach((_, index) => {
    if (last === -1 || (total[index] as number) > (total[last] as number)) last = index;
  });
  const out: Candidate[] = [];
  for (let at = last; at !== -1; at = before[at] as number) out.push(byStart[at] as Candidate);
  return out.reverse();
}
