/** Two lists of words compared: which are the same in both, in order. Knows no blocks. */

/** Index pairs of a longest common subsequence, by the table of suffix lengths (Hirschberg 1975 has the recurrence; runs here are short). */
export function commonOf(a: readonly string[], b: readonly string[]): readonly (readonly [number, number])[] {
  const width = b.length + 1;
  const lengths = new Uint32Array((a.length + 1) * width);
  for (let i = a.length - 1; i >= 0; i -= 1)
    for (let j = b.length - 1; j >= 0; j -= 1)
      lengths[i * width + j] =
        a[i] === b[j]
          ? (lengths[(i + 1) * width + j + 1] as number) + 1
          : Math.max(lengths[(i + 1) * width + j] as number, lengths[i * width + j + 1] as number);
  const out: [number, number][] = [];
  let [i, j] = [0, 0];
  while (i < a.length && j < b.length) {
    if (a[i] === b[j]) {
      out.push([i, j]);
      i += 1;
      j += 1;
    } else if ((lengths[(i + 1) * width + j] as number) >= (lengths[i * width + j + 1] as number)) i += 1;
    else j += 1;
  }
  return out;
}

/** For each word of `now` whether it is new, or stands where words went. undefined: less than half is common, so that it is another text. */
export function newWords(now: readonly string[], before: readonly string[]): readonly boolean[] | undefined {
  const pairs = commonOf(now, before);
  if (pairs.length * 2 < Math.max(now.length, before.length)) return undefined;
  const marked = now.map(() => true);
  for (const [index] of pairs) marked[index] = false;
  // Words that went are marked at the next one; at the last where none follows.
  let reached = 0;
  for (const [index, old] of pairs) {
    if (old > reached && !(index > 0 && marked[index - 1])) marked[index] = true;
    reached = old + 1;
  }
  if (reached < before.length && marked.length > 0) marked[marked.length - 1] = true;
  return marked;
}
