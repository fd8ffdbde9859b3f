/** Columns of a table: no word is cut while there is room for it, whatever widths were wished for. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { atLeast, type Extent, shareColumns } from '../../publishing/layout/columns.ts';

const column: fc.Arbitrary<Extent> = fc
  .tuple(fc.integer({ min: 1, max: 200_000 }), fc.integer({ min: 0, max: 400_000 }))
  .map(([least, more]) => ({ least, most: least + more }));
const sum = (widths: readonly number[]): number => widths.reduce((all, width) => all + width, 0);

test('wished widths give way to words that cannot break, and stay as they are where none must', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(column, fc.integer({ min: 1, max: 300_000 })), { minLength: 1, maxLength: 8 }), (all) => {
      const columns = all.map(([one]) => one);
      const wished = all.map(([, width]) => width);
      const widths = atLeast(wished, columns);
      expect(sum(widths)).toBeLessThanOrEqual(sum(wished));
      if (sum(columns.map(({ least }) => least)) > sum(wished)) return;
      for (const [index, width] of widths.entries()) expect(width).toBeGreaterThanOrEqual(columns[index]?.least ?? 0);
      if (columns.every(({ least }, index) => least <= (wished[index] ?? 0))) expect(widths).toEqual(wished);
    }),
  );
});

test('shared widths fill no more than the room, and cut no word that fits', () => {
  fc.assert(
    fc.property(fc.array(column, { minLength: 1, maxLength: 8 }), fc.integer({ min: 1000, max: 900_000 }), (columns, room) => {
      const widths = shareColumns(columns, room);
      expect(sum(widths)).toBeLessThanOrEqual(room);
      if (sum(columns.map(({ least }) => least)) <= room)
        for (const [index, width] of widths.entries()) expect(width).toBeGreaterThanOrEqual(columns[index]?.least ?? 0);
    }),
  );
});
