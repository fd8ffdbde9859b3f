/** Two lists laid side by side: which of today's stood there before, as they are or in other words, and before which something is gone. Marks nothing. */
import { commonOf } from './common-words.ts';

export interface Aligned<T> {
  /** Of each of today's: the same as before, something like one of before, or new. */
  readonly fates: readonly Fate<T>[];
  /** By the index of what follows: what went there, and nothing new stands for it. */
  readonly gone: ReadonlyMap<number, readonly T[]>;
  /** What stands at the place of another one, in wholly other words. */
  readonly instead: readonly (readonly [now: T, before: T])[];
}

export type Fate<T> = { readonly kind: 'same' | 'altered'; readonly was: T } | { readonly kind: 'new' };

/** Past this many comparisons of a stretch its parts are taken in the order in which they stand. */
const mostCompared = 20_000;

/** `wordsNow` and `wordsBefore`: all that is read of each. `like`: whether two in other words may be the same thing. */
export function align<T>(
  now: readonly T[],
  before: readonly T[],
  wordsNow: readonly string[],
  wordsBefore: readonly string[],
  like: (now: T, before: T) => boolean,
): Aligned<T> {
  const fates: Fate<T>[] = now.map(() => ({ kind: 'new' }));
  const gone = new Map<number, readonly T[]>();
  const instead: (readonly [T, T])[] = [];
  const ends = [...commonOf(wordsNow, wordsBefore), [now.length, before.length] as const];
  let [i, j] = [0, 0];
  const close = (i1: number, j1: number): void => {
    const fresh = now.slice(i, i1);
    const lost = before.slice(j, j1);
    fresh.slice(0, lost.length).forEach((one, index) => {
      instead.push([one, lost[index] as T]);
    });
    if (lost.length > fresh.length) gone.set(i1, lost.slice(fresh.length));
  };
  for (const [i2, j2] of ends) {
    const stretch = [range(i, i2), range(j, j2)] as const;
    for (const [i1, j1] of likest(...stretch, wordsNow, wordsBefore, (a, b) => like(now[a] as T, before[b] as T))) {
      close(i1, j1);
      fates[i1] = { kind: 'altered', was: before[j1] as T };
      [i, j] = [i1 + 1, j1 + 1];
    }
    close(i2, j2);
    if (i2 < now.length) fates[i2] = { kind: 'same', was: before[j2] as T };
    [i, j] = [i2 + 1, j2 + 1];
  }
  return { fates, gone, instead };
}

const range = (from: number, to: number): readonly number[] => Array.from({ length: Math.max(0, to - from) }, (_, index) => from + index);

/** Pairs in order whose words have most in common, taken together. */
function likest(
  a: readonly number[],
  b: readonly number[],
  wordsNow: readonly string[],
  wordsBefore: readonly string[],
  like: (now: number, before: number) => boolean,
): readonly (readonly [number, number])[] {
  if (a.length === 0 || b.length === 0) return [];
  if (a.length * b.length > mostCompared)
    return a.slice(0, b.length).flatMap((one, index) => (like(one, b[index] as number) ? [[one, b[index] as number] as const] : []));
  const own = a.map((index) => counted(wordsNow[index] as string));
  const other = b.map((index) => counted(wordsBefore[index] as string));
  const width = b.length + 1;
  const best = new Uint32Array((a.length + 1) * width);
  const weights = new Uint32Array(a.length * b.length);
  for (let i = a.length - 1; i >= 0; i -= 1)
    for (let j = b.length - 1; j >= 0; j -= 1) {
      const weight = like(a[i] as number, b[j] as number) ? 1 + shared(own[i] as Counted, other[j] as Counted) : 0;
      weights[i * b.length + j] = weight;
      const without = Math.max(best[(i + 1) * width + j] as number, best[i * width + j + 1] as number);
      const paired = weight === 0 ? 0 : weight + (best[(i + 1) * width + j + 1] as number);
      best[i * width + j] = Math.max(without, paired);
    }
  const out: [number, number][] = [];
  let [i, j] = [0, 0];
  while (i < a.length && j < b.length) {
    const weight = weights[i * b.length + j] as number;
    if (weight > 0 && best[i * width + j] === weight + (best[(i + 1) * width + j + 1] as number)) {
      out.push([a[i] as number, b[j] as number]);
      i += 1;
      j += 1;
    } else if (best[i * width + j] === best[(i + 1) * width + j]) i += 1;
    else j += 1;
  }
  return out;
}

type Counted = ReadonlyMap<string, number>;

function counted(text: string): Counted {
  const out = new Map<string, number>();
  for (const word of text.split(/\s+/)) if (word !== '') out.set(word, (out.get(word) ?? 0) + 1);
  return out;
}

/** Thousandths of the words of both that they have in common. */
function shared(a: Counted, b: Counted): number {
  let [all, both] = [0, 0];
  for (const [word, count] of a) {
    all += count;
    both += 2 * Math.min(count, b.get(word) ?? 0);
  }
  for (const count of b.values()) all += count;
  return all === 0 ? 0 : Math.floor((1000 * both) / all);
}
