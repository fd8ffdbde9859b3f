/** A line that ends or begins inside a word is no wider on paper than it was taken for when the lines were chosen: letters that move together over the break are counted once, and for the right line. */
import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { readFonts } from '../../electron/host/files/index.ts';
import { layoutBook, newFontSource, type PlacedBook } from '../../publishing/layout/index.ts';
import { type Line, linesOf } from '../../publishing/layout/paragraph.ts';
import { StructureBuilder } from '../../publishing/layout/structure.ts';
import { randomBook } from '../support/random-book.ts';

let kit: PlacedBook['kit'];
beforeAll(async () => {
  kit = layoutBook(randomBook(1, 1).book, newFontSource(await readFonts()).shaper).kit;
});

// Long words with pairs that move together (r and a, f and o, v and e, y and w) where they may be divided.
const WORDS = 'accumulator ventilator revolving leverage forwarding supervisory overvoltage workpiece motorway lubricator fastener'.split(
  ' ',
);

const set = (words: readonly string[], width: number): readonly Line[] =>
  linesOf([{ kind: 'text', text: words.join(' ') }], kit.sheet.body, 0, width, { ...kit, structure: new StructureBuilder() });

test('no line is wider than its room', () => {
  const paragraph = fc.array(fc.constantFrom(...WORDS), { minLength: 6, maxLength: 16 });
  // Wide enough for the longest piece of a word; millipoints.
  const room = fc.integer({ min: 60_000, max: 140_000 });
  let tight = 0;
  fc.assert(
    fc.property(paragraph, room, (words, width) => {
      for (const line of set(words, width)) {
        expect(line.width).toBeLessThanOrEqual(width);
        // And again with hardly less room than it takes: it must not be thought to fit.
        const less = line.width - 20;
        if (less < 60_000) continue;
        tight += 1;
        for (const other of set(words, less)) expect(other.width).toBeLessThanOrEqual(less);
      }
    }),
    { numRuns: 400 },
  );
  expect(tight).toBeGreaterThan(300);
});
