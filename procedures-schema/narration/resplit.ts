/** Where one take ends and the next begins: the cut between two neighbours that suits both best, once both are known. */
import type { Candidate, PassageWords } from './candidates.ts';
import { fitEnds, layOn } from './fit.ts';

/** Words between two neighbours that may still belong to one of them. */
const BETWEEN = 6;

/** In the order of the recording; overlaps are settled, near gaps closed where words fit. */
export function resplit(chain: readonly Candidate[], words: readonly PassageWords[]): readonly Candidate[] {
  const out = [...chain];
  for (let index = 0; index + 1 < out.length; index += 1) {
    const [a, b] = [out[index] as Candidate, out[index + 1] as Candidate];
    if (b.from - a.to > BETWEEN || a.to === b.from) continue;
    const cut = bestCut(a, b, words);
    if (cut) [out[index], out[index + 1]] = cut;
  }
  return out;
}

/** A first or last word that was misheard still belongs to its passage, if nobody else has it. */
export function grown(chain: readonly Candidate[], words: readonly PassageWords[]): readonly Candidate[] {
  const size = words[0]?.heard.length ?? 0;
  let end = 0;
  return chain.map((one, index) => {
    const laidOn = layOn(words[one.passage] as PassageWords, one.from, one.to);
    const missed = laidOn.findIndex((at) => at !== -1);
    const after = [...laidOn].reverse().findIndex((at) => at !== -1);
    const from = Math.max(end, one.from - Math.max(0, missed));
    const to = Math.min(chain[index + 1]?.from ?? size, one.to + Math.max(0, after));
    end = Math.max(one.to, to);
    return { ...one, from: Math.min(one.from, from), to: Math.max(one.to, to) };
  });
}

function bestCut(a: Candidate, b: Candidate, words: readonly PassageWords[]): readonly [Candidate, Candidate] | undefined {
  const [own, other] = [words[a.passage] as PassageWords, words[b.passage] as PassageWords];
  const forward = fitEnds(own, a.from, b.to);
  // The second passage backwards: where it may begin, if it must end in its stretch.
  const reversed = { rows: [...other.rows].reverse(), loss: [...other.loss].reverse(), heard: other.heard.slice(a.from, b.to).reverse() };
  const backward = fitEnds(reversed, 0, b.to - a.from);
  let best: readonly [Candidate, Candidate] | undefined;
  let most = Number.NEGATIVE_INFINITY;
  let left = 0;
  for (let cut = 0; cut <= b.to - a.from; cut += 1) {
    // The best end of the first at or before the cut, the best start of the second at or after it.
    if ((forward.score[cut] as number) >= (forward.score[left] as number)) left = cut;
    const right = bestUpTo(backward.score, b.to - a.from - cut);
    const sum = (forward.score[left] as number) + (backward.score[right] as number);
    if (sum <= most) continue;
    const first = { ...a, from: forward.start[left] as number, to: a.from + left, score: forward.score[left] as number };
    const second = {
      ...b,
      from: b.to - right,
      to: b.to - (backward.start[right] as number),
      score: backward.score[right] as number,
    };
    if (first.to <= first.from || second.to <= second.from) continue;
    most = sum;
    best = [first, second];
  }
  return best;
}

function bestUpTo(scores: Int32Array, last: number): number {
  let best = 0;
  for (let at = 1; at <= last; at += 1) if ((scores[at] as number) >= (scores[best] as number)) best = at;
  return best;
}
