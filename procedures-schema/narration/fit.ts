/**
 * Lays one passage on the very words it was said in: which heard word stands for which of its own (global alignment; Needleman and Wunsch,
 * J. Mol. Biol. 48, 1970, 443-453). Numbers in, numbers out.
 */
import { PRICES, type Spoken } from './decode.ts';
import type { PassageWords } from './passage-words.ts';

export interface LaidTake extends Spoken {
  readonly score: number;
  /** For each place of the passage the heard word, -1 for none. */
  readonly laidOn: readonly number[];
}

/** One place of a passage with what it is worth there. */
export function laid({ passage, from, to }: Spoken, words: readonly PassageWords[], heard: Int32Array): LaidTake {
  return { passage, from, to, ...layOn(words[passage] as PassageWords, heard, from, to) };
}

/** On exactly [from, to). */
function layOn({ rows, loss }: PassageWords, heard: Int32Array, from: number, to: number): Pick<LaidTake, 'score' | 'laidOn'> {
  const width = to - from + 1;
  const height = rows.length + 1;
  const score = new Int32Array(width * height);
  for (let j = 1; j < width; j += 1) score[j] = -PRICES.extra * j;
  for (let i = 1; i < height; i += 1) {
    const row = rows[i - 1] as Int8Array;
    const skip = loss[i - 1] as number;
    score[i * width] = (score[(i - 1) * width] as number) - skip;
    for (let j = 1; j < width; j += 1) {
      const on = (score[(i - 1) * width + j - 1] as number) + (row[heard[from + j - 1] as number] as number);
      const without = (score[(i - 1) * width + j] as number) - skip;
      const extra = (score[i * width + j - 1] as number) - PRICES.extra;
      score[i * width + j] = Math.max(on, without, extra);
    }
  }
  const laidOn = new Array<number>(rows.length).fill(-1);
  let [i, j] = [height - 1, width - 1];
  while (i > 0) {
    const here = score[i * width + j] as number;
    const row = rows[i - 1] as Int8Array;
    if (j > 0 && here === (score[(i - 1) * width + j - 1] as number) + (row[heard[from + j - 1] as number] as number)) {
      laidOn[i - 1] = from + j - 1;
      i -= 1;
      j -= 1;
    } else if (here === (score[(i - 1) * width + j] as number) - (loss[i - 1] as number)) i -= 1;
    else j -= 1;
  }
  return { score: score[width * height - 1] as number, laidOn };
}
