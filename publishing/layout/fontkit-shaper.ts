/** Words to glyphs with kerning and ligatures, each distinct word once for each face. The only user of the font library. */
import { create, type Font } from 'fontkit';
import { PairTable } from './pair-table.ts';
import { type Face, type FaceMetrics, type FontFiles, type FontProgram, faces, type Shaped, type Shaper } from './shaped.ts';

/** The fonts of one printing: how words look, and what a file must carry to show them. */
export interface FontSource {
  readonly shaper: Shaper;
  program(face: Face): FontProgram;
}

/** Ligatures stay off: a search for "fill" must find it in every reader, and letters stay apart at arm's length. */
const features = { kern: true, tnum: true, liga: false, clig: false } as const;

const fallbackOf: Readonly<Record<Face, readonly Face[]>> = {
  regular: ['fallback'],
  italic: ['regular', 'fallback'],
  bold: ['fallbackBold', 'fallback'],
  mono: ['fallback'],
  fallback: [],
  fallbackBold: ['fallback'],
};

/** Made at the first asking. */
function once<T>(make: (face: Face) => T): (face: Face) => T {
  const made = new Map<Face, T>();
  return (face) => {
    let one = made.get(face);
    if (one === undefined) {
      one = make(face);
      made.set(face, one);
    }
    return one;
  };
}

export function newFontSource(files: FontFiles): FontSource {
  const fontOf = once((face) => create(files[face]));
  return { shaper: newShaper(fontOf), program: (face) => programOf(fontOf(face)) };
}

/** The program of the glyphs given, which must be sorted: the same set gives the same bytes. */
function programOf(font: Font): FontProgram {
  const scale = (value: number) => Math.round((value * 1000) / font.unitsPerEm);
  const { minX, minY, maxX, maxY } = font.bbox;
  return {
    name: font.postscriptName,
    ascent: scale(font.ascent),
    descent: scale(font.descent),
    // Older font files do not state it: then the height of an H is.
    capHeight: scale(Number.isFinite(font.capHeight) ? font.capHeight : font.glyphForCodePoint(72).bbox.maxY),
    italicAngle: font.italicAngle,
    bounds: [scale(minX), scale(minY), scale(maxX), scale(maxY)],
    weight: font['OS/2'].usWeightClass,
    subset(glyphs) {
      const subset = font.createSubset();
      const places = new Map<number, number>([[0, 0]]);
      for (const glyph of glyphs) places.set(glyph, subset.includeGlyph(glyph));
      return { bytes: subset.encode(), places };
    },
  };
}

function newShaper(fontOf: (face: Face) => Font): Shaper {
  const caches = new Map<Face, Map<string, readonly Shaped[]>>(faces.map((face) => [face, new Map()]));
  const faceFor = new Map<string, Face>();
  const missing: string[] = [];
  const softened = new Map<Shaped, Shaped>();

  const pick = (face: Face, codePoint: number): Face => {
    const key = `${face} ${codePoint}`;
    const known = faceFor.get(key);
    if (known !== undefined) return known;
    let found: Face | undefined;
    if (fontOf(face).hasGlyphForCodePoint(codePoint)) found = face;
    else found = fallbackOf[face].find((other) => fontOf(other).hasGlyphForCodePoint(codePoint));
    if (found === undefined) {
      const character = String.fromCodePoint(codePoint);
      if (!missing.includes(character)) missing.push(character);
      found = face;
    }
    faceFor.set(key, found);
    return found;
  };

  const shapeWord = (face: Face, text: string): readonly Shaped[] => {
    const out: Shaped[] = [];
    let start = 0;
    let current: Face | undefined;
    let at = 0;
    for (const character of text) {
      const codePoint = character.codePointAt(0) ?? 0;
      const next = pick(face, codePoint);
      if (current !== undefined && next !== current) {
        out.push(shapeIn(current, text.slice(start, at)));
        start = at;
      }
      current = next;
      at += character.length;
    }
    if (current !== undefined) out.push(shapeIn(current, text.slice(start)));
    return out;
  };

  const pairsOf = once((face) => new PairTable(face, (text) => shapeWhole(face, text)));
  const shapeIn = (face: Face, text: string): Shaped => pairsOf(face).shape(text);

  const shapeWhole = (face: Face, text: string): Shaped => {
    const font = fontOf(face);
    const run = font.layout(text, features);
    const scale = (value: number) => Math.round((value * 1000) / font.unitsPerEm);
    const glyphs: number[] = [];
    const texts: string[] = [];
    const widths: number[] = [];
    const advances: number[] = [];
    const offsets: [number, number][] = [];
    let units = 0;
    let moved = false;
    // The library hands out one object a glyph, with the character it was first met for: what a glyph stands for here is told by the text itself.
    const characters = Array.from(text);
    if (run.direction === 'rtl') characters.reverse();
    const oneToOne = characters.length === run.glyphs.length;
    run.glyphs.forEach((glyph, index) => {
      const position = run.positions[index];
      const advance = scale(position?.xAdvance ?? glyph.advanceWidth);
      const offset: [number, number] = [scale(position?.xOffset ?? 0), scale(position?.yOffset ?? 0)];
      if (offset[0] !== 0 || offset[1] !== 0) moved = true;
      glyphs.push(glyph.id);
      texts.push(oneToOne ? (characters[index] as string) : String.fromCodePoint(...glyph.codePoints));
      widths.push(scale(glyph.advanceWidth));
      advances.push(advance);
      offsets.push(offset);
      units += advance;
    });
    return { face, text, glyphs, texts, widths, advances, ...(moved ? { offsets } : {}), units };
  };

  return {
    shape(face, text) {
      const cache = caches.get(face) as Map<string, readonly Shaped[]>;
      let shaped = cache.get(text);
      if (shaped === undefined) {
        shaped = shapeWord(face, text);
        cache.set(text, shaped);
      }
      return shaped;
    },
    softHyphen(shaped) {
      let soft = softened.get(shaped);
      if (soft === undefined) {
        soft = { ...shaped, text: `${shaped.text.slice(0, -1)}\u00ad`, texts: [...shaped.texts.slice(0, -1), '\u00ad'] };
        softened.set(shaped, soft);
      }
      return soft;
    },
    metrics: once((face): FaceMetrics => {
      const { ascent, descent, unitsPerEm } = fontOf(face);
      const scale = (value: number) => Math.round((value * 1000) / unitsPerEm);
      return { ascent: scale(ascent), descent: scale(descent) };
    }),
    missing: () => missing,
  };
}
