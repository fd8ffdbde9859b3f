/** Plain words put together from their pairs against the same words shaped whole by the font library, for every face the pages use. */
import fc from 'fast-check';
import { create, type Font } from 'fontkit';
import { beforeAll, describe, expect, test } from 'vitest';
import { readFonts } from '../../electron/host/files/index.ts';
import { type FontFiles, faces, newFontSource } from '../../publishing/layout/index.ts';

let fonts: FontFiles;
beforeAll(async () => {
  fonts = await readFonts();
});

/** What may stand side by side in service text: printable ASCII with its space, quotes and signs included. */
const letters = Array.from({ length: 95 }, (_, k) => String.fromCharCode(32 + k)).concat([
  ...'äöüÄÖÜßéèñçøæ°·×½¼²µ±«»§¶¿¡–—‘’‚“”…•€→−≈≠≤≥\u00a0\u202f',
]);

/** Glyphs, their own widths and the steps of the pen, in thousandths, as the library gives them. */
function whole(font: Font, text: string) {
  const scale = (value: number) => Math.round((value * 1000) / font.unitsPerEm);
  const { glyphs, positions } = font.layout(text, { kern: true, tnum: true, liga: false, clig: false });
  return {
    glyphs: glyphs.map(({ id }) => id),
    widths: glyphs.map(({ advanceWidth }) => scale(advanceWidth)),
    advances: positions.map(({ xAdvance }) => scale(xAdvance)),
    moved: positions.some(({ xOffset, yOffset }) => xOffset !== 0 || yOffset !== 0),
  };
}

describe.each(faces)('%s', (face) => {
  test('a word from its pairs is the word shaped whole', () => {
    const font = create(fonts[face]);
    const known = letters.filter((letter) => font.hasGlyphForCodePoint(letter.codePointAt(0) as number));
    expect(known.length).toBeGreaterThan(110);
    const { shaper } = newFontSource(fonts);
    const words = fc.array(fc.constantFrom(...known), { minLength: 1, maxLength: 9 }).map((list) => list.join(''));
    let kerned = 0;
    fc.assert(
      fc.property(words, (word) => {
        const shaped = shaper.shape(face, word);
        expect(shaped).toHaveLength(1);
        const { glyphs, widths, advances, texts, units, offsets } = shaped[0] as (typeof shaped)[number];
        expect({ glyphs, widths, advances, moved: offsets !== undefined }).toEqual(whole(font, word));
        expect(texts.join('')).toBe(word);
        expect(units).toBe(advances.reduce((sum, one) => sum + one, 0));
        if (advances.some((step, index) => step !== widths[index])) kerned += 1;
      }),
      { numRuns: 1500, seed: 7 },
    );
    // The typewriter face has no kerning; all others do.
    if (face === 'mono') expect(kerned).toBe(0);
    else expect(kerned).toBeGreaterThan(40);
  });
});
