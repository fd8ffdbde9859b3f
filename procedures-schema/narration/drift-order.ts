/** What was moved: of all main takes in the order of the recording, those outside the longest run in the order of the text. */
import type { Alignment, Take } from './alignment-model.ts';

/** Runs of moved takes that follow each other in both. A passage read twice is in its place when one of its takes is. */
export function movedRuns({ passages, takes }: Alignment): readonly (readonly Take[])[] {
  const own = takes.filter(({ role, passage }) => role !== 'stray' && /^(?:step|branch)$/.test(passages[passage]?.passage.kind ?? ''));
  const kept = new Set(longestRising(own.map(({ passage }) => passage)).map((index) => (own[index] as Take).passage));
  const runs: Take[][] = [];
  own.forEach((take, index) => {
    if (kept.has(take.passage) || take.role !== 'main') return;
    const last = runs.at(-1);
    const before = last?.at(-1);
    if (last && before && own[index - 1] === before && take.passage > before.passage) last.push(take);
    else runs.push([take]);
  });
  return runs;
}

/** Indices of a longest strictly rising subsequence (patience sorting). */
export function longestRising(values: readonly number[]): readonly number[] {
  const tails: number[] = [];
  const before: number[] = [];
  values.forEach((value, index) => {
    let [low, high] = [0, tails.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((values[tails[middle] as number] as number) < value) low = middle + 1;
      else high = middle;
    }
    before[index] = low === 0 ? -1 : (tails[low - 1] as number);
    tails[low] = index;
  });
  const out: number[] = [];
  for (let at = tails.at(-1) ?? -1; at !== -1; at = before[at] as number) out.push(at);
  return out.reverse();
}
