/** Two texts line by line: which lines only one of them has. Knows no meaning; what a technician would notice is for `review/compare.ts` of the core. */

export interface DifferingLines {
  /** Counted from 1, in the second text. */
  readonly line: number;
  readonly before: readonly string[];
  readonly after: readonly string[];
}

/** Above this many pairs of lines the middle is told as one piece: finding out more would keep whoever waits for a choice. */
const MOST_PAIRS = 4_000_000;

export function differingLines(before: string, after: string): readonly DifferingLines[] {
  const [a, b] = [linesOf(before), linesOf(after)];
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) head += 1;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail += 1;
  const [own, other] = [a.slice(head, a.length - tail), b.slice(head, b.length - tail)];
  const out: DifferingLines[] = [];
  let [i, j] = [0, 0];
  const piece = (untilOwn: number, untilOther: number): void => {
    if (untilOwn > i || untilOther > j) out.push({ line: head + j + 1, before: own.slice(i, untilOwn), after: other.slice(j, untilOther) });
    [i, j] = [untilOwn + 1, untilOther + 1];
  };
  for (const [x, y] of own.length * other.length > MOST_PAIRS ? [] : common(own, other)) piece(x, y);
  piece(own.length, other.length);
  return out;
}

const linesOf = (text: string): readonly string[] => text.split('\n').map((line) => line.replace(/\r$/, ''));

/** Pairs of lines that both have in the same order, as many as there can be. */
function common(a: readonly string[], b: readonly string[]): readonly (readonly [number, number])[] {
  const width = b.length + 1;
  const most = new Uint32Array((a.length + 1) * width);
  const at = (i: number, j: number): number => most[i * width + j] as number;
  for (let i = a.length - 1; i >= 0; i -= 1)
    for (let j = b.length - 1; j >= 0; j -= 1)
      most[i * width + j] = a[i] === b[j] ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
  const out: [number, number][] = [];
  for (let [i, j] = [0, 0]; i < a.length && j < b.length; )
    if (a[i] === b[j]) out.push([i++, j++]);
    else if (at(i + 1, j) >= at(i, j + 1)) i += 1;
    else j += 1;
  return out;
}
