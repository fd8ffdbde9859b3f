/** What was learned of the common letters against the font library asked now, in the very files that ship. */
import fc from 'fast-check';
import { create } from 'fontkit';
import { beforeAll, describe, expect, test } from 'vitest';
import { readFonts } from '../../electron/host/files/index.ts';
import { type FontFiles, faces, newFontSource } from '../../publishing/layout/index.ts';
import { common } from '../../publishing/layout/letters/learn.ts';
import { lettersOf } from '../../publishing/layout/letters/letters-of.ts';

let fonts: FontFiles;
beforeAll(async () => {
  fonts = await readFonts();
});

describe.each(faces)('%s', (face) => {
  test('every common letter of the shipped file is known, with its glyph and width', () => {
    const font = create(fonts[face]);
    const letters = lettersOf(fonts[face]);
    // Missing: a font package changed; run "npm run letters".
    expect(letters).toBeDefined();
    for (const letter of common) {
      const code = letter.charCodeAt(0);
      expect(letters?.has(code), letter).toBe(font.hasGlyphForCodePoint(code));
      if (!font.hasGlyphForCodePoint(code)) continue;
      const { glyphs } = font.layout(letter, { kern: true, tnum: true, liga: false, clig: false });
      const width = Math.round(((glyphs[0]?.advanceWidth ?? 0) * 1000) / font.unitsPerEm);
      expect(letters?.single(code), letter).toEqual({ glyph: glyphs[0]?.id, width });
    }
  });

  test('the pen moves between two of them as the library says', () => {
    const font = create(fonts[face]);
    const letters = lettersOf(fonts[face]);
    const some = fc.constantFrom(...common.filter((letter) => font.hasGlyphForCodePoint(letter.charCodeAt(0))));
    let kerned = 0;
    fc.assert(
      fc.property(some, some, (left, right) => {
        const { positions, glyphs } = font.layout(left + right, { kern: true, tnum: true, liga: false, clig: false });
        const scale = (value = 0): number => Math.round((value * 1000) / font.unitsPerEm);
        const step = letters?.step(left.charCodeAt(0), right.charCodeAt(0));
        expect(step).toBe(scale(positions[0]?.xAdvance));
        if (step !== scale(glyphs[0]?.advanceWidth)) kerned += 1;
      }),
      { numRuns: 4000, seed: 11 },
    );
    if (face === 'mono') expect(kerned).toBe(0);
    else expect(kerned).toBeGreaterThan(40);
  });

  test('a letter that was not learned is asked of the library, and a file that is not known is asked for all', () => {
    const letters = lettersOf(fonts[face]);
    const code = 'ő'.charCodeAt(0);
    expect(letters?.has(code)).toBe(false);
    expect(letters?.step(code, 65)).toBeUndefined();
    // One byte more after the last table: the same letters in a file of another stamp.
    const strange = new Uint8Array(fonts[face].length + 1);
    strange.set(fonts[face]);
    expect(lettersOf(strange)).toBeUndefined();
    for (const word of ['Toward', 'Öl 5\u202f°C', 'főnök']) {
      const known = newFontSource(fonts).shaper.shape(face, word);
      expect(newFontSource({ ...fonts, [face]: strange }).shaper.shape(face, word)).toEqual(known);
    }
  });

  test('a fixed space is as wide as its name says, in the face of the words around it', () => {
    const { shaper } = newFontSource(fonts);
    for (const [space, units] of [
      ['\u2002', 500],
      ['\u2003', 1000],
      ['\u2005', 250],
    ] as const) {
      const shaped = shaper.shape(face, `5${space}A`);
      expect(shaped).toHaveLength(1);
      expect(shaped[0]?.texts).toEqual(['5', space, 'A']);
      expect(shaped[0]?.advances[1]).toBe(units);
      expect(shaped[0]?.glyphs[1]).toBe(shaper.shape(face, ' ')[0]?.glyphs[0]);
    }
  });
});

test('words of a script that the first family lacks lean in italics and are heavy in bold, where another family has such a face', () => {
  const source = newFontSource(fonts);
  const faceOf = (face: 'regular' | 'italic' | 'bold', word: string) => source.shaper.shape(face, word).map((one) => one.face);
  expect(faceOf('regular', 'Հայ')).toEqual(['fallback']);
  expect(faceOf('italic', 'Հայ')).toEqual(['fallbackItalic']);
  expect(faceOf('bold', 'Հայ')).toEqual(['fallbackBold']);
  // Russian stands in the first family, leaning too; Arabic in no leaning face at hand.
  expect(faceOf('italic', 'мост')).toEqual(['italic']);
  expect(faceOf('italic', 'حذر')).toEqual(['fallback']);
  expect(source.program('fallbackItalic').italicAngle).toBeLessThan(0);
  expect(source.shaper.missing()).toEqual([]);
});
