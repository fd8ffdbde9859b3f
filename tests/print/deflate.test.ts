/** Our deflate against the one every system carries: what is packed comes out as it went in, and is hardly longer than by the other's quick setting. */
import { readFileSync } from 'node:fs';
import { deflateSync, inflateSync } from 'node:zlib';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { deflated } from '../../publishing/pdf/deflate.ts';

const back = (bytes: Uint8Array): Uint8Array => new Uint8Array(inflateSync(deflated(bytes)));

test('nothing, one byte, and runs around the longest repeat', () => {
  for (const length of [0, 1, 2, 3, 4, 5, 257, 258, 259, 260, 32_767, 32_768, 32_769, 70_000]) {
    const bytes = new Uint8Array(length).fill(7);
    expect(back(bytes)).toEqual(bytes);
  }
});

test('random bytes, which no packing makes shorter, grow by a few bytes at most', () => {
  let state = 1;
  const bytes = Uint8Array.from({ length: 200_000 }, () => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
    return state >>> 24;
  });
  expect(back(bytes)).toEqual(bytes);
  expect(deflated(bytes).length).toBeLessThan(bytes.length + 100);
});

/** Few letters, said again from not far back and from as far back as can be: codes short and long, distances of every size. */
const texts = fc
  .array(
    fc.oneof(
      fc.record({ say: fc.uint8Array({ minLength: 1, maxLength: 40, max: 5 }) }),
      fc.record({ say: fc.uint8Array({ minLength: 1, maxLength: 300 }) }),
      fc.record({ again: fc.nat(40_000), length: fc.integer({ min: 1, max: 600 }) }),
    ),
    { minLength: 1, maxLength: 200 },
  )
  .map((pieces) => {
    const out: number[] = [];
    for (const piece of pieces)
      if ('say' in piece) out.push(...piece.say);
      else for (let k = 0; k < piece.length && out.length > 0; k += 1) out.push(out[Math.max(0, out.length - 1 - piece.again)] as number);
    return Uint8Array.from(out);
  });

test('any text comes out as it went in, one after the other with the same tables', () => {
  fc.assert(
    fc.property(texts, (bytes) => {
      expect(back(bytes)).toEqual(bytes);
    }),
    { numRuns: 300 },
  );
});

test('counts like Fibonacci numbers want codes longer than fifteen bits, and get none', () => {
  const out: number[] = [];
  for (let symbol = 0, [a, b] = [1, 1]; symbol < 24; symbol += 1, [a, b] = [b, a + b]) for (let k = 0; k < a; k += 1) out.push(symbol);
  // Shuffled, so that they are not told as repeats.
  let state = 9;
  for (let k = out.length - 1; k > 0; k -= 1) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    const other = Math.floor((state / 4_294_967_296) * (k + 1));
    [out[k], out[other]] = [out[other] as number, out[k] as number];
  }
  const bytes = Uint8Array.from(out);
  expect(back(bytes)).toEqual(bytes);
});

test('text is packed no worse than by the quick setting of zlib', () => {
  for (const file of ['publishing/layout/style.ts', 'package-lock.json', 'DEVELOPERS.md']) {
    const bytes = readFileSync(file);
    expect(deflated(bytes).length, file).toBeLessThan(deflateSync(bytes, { level: 1 }).length * 1.02);
  }
});

test('the same bytes give the same packing, whatever was packed before', () => {
  const bytes = readFileSync('DEVELOPERS.md');
  const first = deflated(bytes);
  deflated(readFileSync('package.json'));
  expect(deflated(bytes)).toEqual(first);
});
