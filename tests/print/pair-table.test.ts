/** Words put together from pairs against the same words shaped whole by the font library, for every face the pages use. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { readFonts } from '../../electron/host/files/index.ts';
import { type FontFiles, faces, newFontSource } from '../../publishing/layout/index.ts';

let fonts: FontFiles;
beforeAll(async () => {
  fonts = await readFonts();
});

/** What may stand side by side in service text, quotes and signs included. */
const letters = Array.from({ length: 94 }, (_, k) => String.fromCharCode(33 + k)).concat([...'äöüÄÖÜßéèñ°·×½²µ±«»–—‘’“”…']);
const words = fc.array(
  fc.array(fc.constantFrom(...letters), { minLength: 2, maxLength: 9 }).map((list) => list.join('')),
  { minLength: 30, maxLength: 60 },
);

describe.each(faces)('%s', (face) => {
  test('a word from pairs is the word shaped whole', () => {
    // Every shaper learns as it goes; one that has just been made has nothing to put together from but the whole word.
    const learned = newFontSource(fonts).shaper;
    let compared = 0;
    fc.assert(
      fc.property(words, (list) => {
        for (const word of list) {
          learned.shape(face, word);
          learned.shape(face, [...word].reverse().join(''));
        }
        const fresh = newFontSource(fonts).shaper;
        // Made of pairs of two other words: known by now, and never seen as a whole.
        const mixed = `${(list[0] as string).slice(0, 2)}${(list[0] as string).slice(1)}`;
        for (const word of [mixed, ...list.map((one) => one + one)]) {
          expect(learned.shape(face, word)).toEqual(fresh.shape(face, word));
          compared += 1;
        }
      }),
      { numRuns: 6, seed: 7 },
    );
    expect(compared).toBeGreaterThan(150);
  });
});
