/** What of a page is painted anew covers every place at which two pages differ, and no more of it than that. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { DrawnPage, Op } from '../../../publishing/index.ts';
import { changedBand } from '../../../renderer/parts/changed-band.ts';

const BLACK = [0, 0, 0] as const;
const pageOf = (ops: readonly Op[], height = 842_000): DrawnPage => ({ width: 595_000, height, ops });
const line = (text: string, y: number): Op => ({
  op: 'text',
  x: 50_000,
  y,
  size: 10_000,
  colour: BLACK,
  run: [{ face: 'regular', glyphs: [...text].map(() => 1), texts: [...text], advances: [...text].map(() => 500) }] as never,
});
const rule = (y: number, width = 500): Op => ({
  op: 'path',
  path: { segments: 'ML', points: [0, y, 500_000, y] },
  stroke: { colour: BLACK, width },
});

test('one line that is another: that line, as far as its letters may reach', () => {
  const band = changedBand(
    pageOf([line('one', 100_000), line('two', 120_000), line('end', 140_000)]),
    pageOf([line('one', 100_000), line('too', 120_000), line('end', 140_000)]),
  );
  expect(band).toEqual({ top: 100_000, bottom: 140_000 });
});

test('what is drawn the same is not painted, wherever its objects come from', () => {
  const ops = [line('one', 100_000), rule(110_000)];
  expect(changedBand(pageOf(ops), pageOf(structuredClone(ops)))).toBeUndefined();
  // Where a link or a name stands is not seen.
  expect(changedBand(pageOf(ops), pageOf([...ops, { op: 'target', name: 'a', y: 3 }]))).toBeUndefined();
});

test('a picture, a clip, another size', () => {
  const picture = (y: number): Op => ({ op: 'image', image: 0, x: 0, y, width: 1000, height: 50_000 });
  expect(changedBand(pageOf([picture(100_000)]), pageOf([picture(200_000)]))).toEqual({ top: 100_000, bottom: 250_000 });
  const whole = { top: Number.NEGATIVE_INFINITY, bottom: Number.POSITIVE_INFINITY };
  expect(changedBand(pageOf([]), pageOf([{ op: 'clip', path: { segments: '', points: [] } }, { op: 'unclip' }]))).toEqual(whole);
  expect(changedBand(pageOf([]), pageOf([], 595_000))).toEqual(whole);
});

test('random pages: every operation that one page has and the other has not lies within', () => {
  const y = fc.integer({ min: 0, max: 84 }).map((tenth) => tenth * 10_000);
  const op = fc.oneof(
    fc.tuple(fc.constantFrom('a', 'bb', 'ccc'), y).map(([text, at]) => line(text, at)),
    fc.tuple(y, fc.constantFrom(500, 2000)).map(([at, width]) => rule(at, width)),
  );
  fc.assert(
    fc.property(fc.array(op, { maxLength: 12 }), fc.array(op, { maxLength: 3 }), fc.nat(12), fc.nat(3), (before, put, at, gone) => {
      const now = [...before.slice(0, at), ...put, ...before.slice(at + gone)];
      const band = changedBand(pageOf(before), pageOf(structuredClone(now)));
      const names = (ops: readonly Op[]): string[] => ops.map((one) => JSON.stringify(one));
      const [old, own] = [names(before), names(now)];
      const only = [
        ...before.filter((_, index) => !own.includes(old[index] as string)),
        ...now.filter((_, index) => !old.includes(own[index] as string)),
      ];
      for (const one of only) {
        const middle = one.op === 'text' ? one.y : one.op === 'path' ? (one.path.points[1] as number) : 0;
        expect(band).toBeDefined();
        expect(band?.top).toBeLessThanOrEqual(middle);
        expect(band?.bottom).toBeGreaterThanOrEqual(middle);
      }
      if (old.join() === own.join()) expect(band).toBeUndefined();
    }),
  );
});
