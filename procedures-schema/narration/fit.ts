/**
 * Lays one passage on a stretch of heard words, free to begin and end anywhere in it: the whole passage is aligned, of the stretch only a part
 * (semi-global alignment; Needleman and Wunsch, J. Mol. Biol. 48, 1970, 443-453, with free ends on one side). Numbers in, numbers out.
 */

/** A heard word that stands between those of the passage. */
const EXTRA = 4;

export interface FitInput {
  /** Worth of each heard id at each place of the passage. */
  readonly rows: readonly Int8Array[];
  /** What leaving out a place costs. */
  readonly loss: readonly number[];
  /** Ids of all heard words. */
  readonly heard: Int32Array;
}

export interface Ends {
  /** Best score of the passage ending before heard word `lo + j`, and where it then begins; j from 0 to hi - lo. */
  readonly score: Int32Array;
  readonly start: Int32Array;
}

/** All ways the passage can end in [lo, hi). */
export function fitEnds({ rows, loss, heard }: FitInput, lo: number, hi: number): Ends {
  const width = hi - lo + 1;
  let score = new Int32Array(width);
  let start = Int32Array.from({ length: width }, (_, j) => lo + j);
  let nextScore = new Int32Array(width);
  let nextStart = new Int32Array(width);
  for (let i = 0; i < rows.length; i += 1) {
    const row = rows[i] as Int8Array;
    const skip = loss[i] as number;
    nextScore[0] = (score[0] as number) - skip;
    nextStart[0] = lo;
    for (let j = 1; j < width; j += 1) {
      let best = (score[j - 1] as number) + (row[heard[lo + j - 1] as number] as number);
      let from = start[j - 1] as number;
      const without = (score[j] as number) - skip;
      if (without > best) {
        best = without;
        from = start[j] as number;
      }
      const extra = (nextScore[j - 1] as number) - EXTRA;
      if (extra > best) {
        best = extra;
        from = nextStart[j - 1] as number;
      }
      nextScore[j] = best;
      nextStart[j] = from;
    }
    [score, nextScore] = [nextScore, score];
    [start, nextStart] = [nextStart, start];
  }
  return { score, start };
}

/** The passage laid on exactly [from, to): for each of its places the heard word, -1 for none. */
export function layOn({ rows, loss, heard }: FitInput, from: number, to: number): readonly number[] {
  const width = to - from + 1;
  const height = rows.length + 1;
  const score = new Int32Array(width * height);
  for (let j = 1; j < width; j += 1) score[j] = -EXTRA * j;
  for (let i = 1; i < height; i += 1) {
    const row = rows[i - 1] as Int8Array;
    const skip = loss[i - 1] as number;
    score[i * width] = (score[(i - 1) * width] as number) - skip;
    for (let j = 1; j < width; j += 1) {
      const on = (score[(i - 1) * width + j - 1] as number) + (row[heard[from + j - 1] as number] as number);
      const without = (score[(i - 1) * width + j] as number) - skip;
      const extra = (score[i * width + j - 1] as number) - EXTRA;
      score[i * width + j] = Math.max(on, without, extra);
    }
  }
  const out = new Array<number>(rows.length).fill(-1);
  let [i, j] = [height - 1, width - 1];
  while (i > 0) {
    const here = score[i * width + j] as number;
    const row = rows[i - 1] as Int8Array;
    if (j > 0 && here === (score[(i - 1) * width + j - 1] as number) + (row[heard[from + j - 1] as number] as number)) {
      out[i - 1] = from + j - 1;
      i -= 1;
      j -= 1;
    } else if (here === (score[(i - 1) * width + j] as number) - (loss[i - 1] as number)) i -= 1;
    else j -= 1;
  }
  return out;
}
