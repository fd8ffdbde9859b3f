/** The one pass over all passages against plain search: on small random recordings both must reach the same worth. */
import { describe, expect, test } from 'vitest';
import { decode, PRICES, type Spoken } from '../../../procedures-schema/narration/decode.ts';
import type { PassageWords } from '../../../procedures-schema/narration/passage-words.ts';
import { randomFrom } from '../../support/random.ts';

interface Case {
  readonly words: readonly PassageWords[];
  readonly heard: Int32Array;
  readonly pauses: readonly boolean[];
}

const VOCABULARY = 6;

function drawnCase(seed: number): Case {
  const random = randomFrom(seed * 7919 + 1);
  const passage = (): PassageWords => {
    const ids = Array.from({ length: 1 + random(4) }, () => random(VOCABULARY));
    return {
      most: 10 * ids.length,
      loss: ids.map(() => 1 + random(5)),
      rows: ids.map((id) => Int8Array.from({ length: VOCABULARY }, (_, heard) => (heard === id ? 6 + random(7) : -1 - random(6)))),
      loose: random(4) === 0,
    };
  };
  const size = 1 + random(9);
  return {
    words: Array.from({ length: 1 + random(4) }, passage),
    heard: Int32Array.from({ length: size }, () => random(VOCABULARY)),
    pauses: Array.from({ length: size }, () => random(2) === 0),
  };
}

/** What the passage is worth in exactly [from, to); its first heard word stands for one of its own. */
function worth({ rows, loss }: PassageWords, heard: Int32Array, from: number, to: number): number {
  const best = (token: number, at: number, begun: boolean): number => {
    if (token === rows.length) return begun ? -PRICES.extra * (to - at) : Number.NEGATIVE_INFINITY;
    const left = best(token + 1, at, begun) - (loss[token] as number);
    if (at === to) return left;
    const on = best(token + 1, at + 1, true) + ((rows[token] as Int8Array)[heard[at] as number] as number);
    const extra = begun ? best(token, at + 1, true) - PRICES.extra : Number.NEGATIVE_INFINITY;
    return Math.max(left, on, extra);
  };
  return best(0, from, false);
}

function step(before: number, after: number, loose: boolean): number {
  if (after === before + 1) return 0;
  const far = (by: number): number => PRICES.each * Math.min(by, PRICES.mostEach);
  if (after > before) return PRICES.forward + far(after - before - 1) + (loose ? PRICES.onToLoose : 0);
  return (after === before ? PRICES.again : PRICES.back + far(before - after)) + (loose ? PRICES.backToLoose : 0);
}

const breath = (pauses: readonly boolean[], at: number): number => (pauses[at] ? 0 : PRICES.breathless);
/** Foreign words from `at` on after a passage; none before the first. */
const foreign = (pauses: readonly boolean[], at: number, before: number): number =>
  PRICES.foreign + (before === -1 ? 0 : breath(pauses, at));

/** Of one account. */
function total({ words, heard, pauses }: Case, path: readonly Spoken[]): number {
  let [sum, at, before] = [0, 0, -1];
  for (const { passage, from, to } of path) {
    if (from > at) sum -= foreign(pauses, at, before);
    const own = words[passage] as PassageWords;
    sum += worth(own, heard, from, to) - step(before, passage, own.loose) - breath(pauses, from);
    [at, before] = [to, passage];
  }
  if (at < heard.length) sum -= foreign(pauses, at, before);
  return sum - (before === words.length - 1 ? 0 : ended(before, words.length));
}

const ended = (before: number, count: number): number =>
  before === -1 ? PRICES.forward + PRICES.each * PRICES.mostEach : PRICES.forward + PRICES.each * (count - 1 - before);

/** Of the best account there is: everything is tried. */
function most(one: Case): number {
  const { words, heard, pauses } = one;
  const known = new Map<string, number>();
  const from = (at: number, before: number, free: boolean): number => {
    const key = `${at} ${before} ${free}`;
    const held = known.get(key);
    if (held !== undefined) return held;
    let best = at === heard.length ? (before === words.length - 1 ? 0 : -ended(before, words.length)) : Number.NEGATIVE_INFINITY;
    if (free)
      for (let to = at + 1; to <= heard.length; to += 1) best = Math.max(best, from(to, before, false) - foreign(pauses, at, before));
    words.forEach((own, passage) => {
      for (let to = at + 1; to <= heard.length; to += 1)
        best = Math.max(best, worth(own, heard, at, to) - step(before, passage, own.loose) - breath(pauses, at) + from(to, passage, true));
    });
    known.set(key, best);
    return best;
  };
  return from(0, -1, true);
}

describe('the best account of a recording', () => {
  test('is as good as the best of all', () => {
    for (let seed = 1; seed <= 400; seed += 1) {
      const one = drawnCase(seed);
      const path = decode(one.words, one.heard, one.pauses);
      expect(total(one, path), `case ${seed}`).toBe(most(one));
    }
  });
  test('lies in the order of the recording, each word once', () => {
    for (let seed = 401; seed <= 700; seed += 1) {
      const { words, heard, pauses } = drawnCase(seed);
      let at = 0;
      for (const { from, to } of decode(words, heard, pauses)) {
        expect(from).toBeGreaterThanOrEqual(at);
        expect(to).toBeGreaterThan(from);
        at = to;
      }
      expect(at).toBeLessThanOrEqual(heard.length);
    }
  });
  test('of nothing heard, and of no passages, is nothing', () => {
    expect(decode(drawnCase(1).words, new Int32Array(0), [])).toEqual([]);
    expect(decode([], Int32Array.from([0, 1]), [true, false])).toEqual([]);
  });
});
