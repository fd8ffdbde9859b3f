/** Words to glyphs with kerning, each distinct word once for each face: by what is known of their letters, or by the font library. */
import type { Font } from 'fontkit';
import type { Letters } from './letters/learned-face.ts';
import { lettersOf } from './letters/letters-of.ts';
import { isFixedSpace, PairTable } from './pair-table.ts';
import { type Face, type FaceMetrics, type FontFiles, type FontProgram, faces, type Shaped, type Shaper } from './shaped.ts';
import { metricsOf, openFont, shapeWhole } from './whole-shaper.ts';

/** The fonts of one printing: how words look, and what a file must carry to show them. */
export interface FontSource {
  readonly shaper: Shaper;
  program(face: Face): FontProgram;
}

const fallbackOf: Readonly<Record<Face, readonly Face[]>> = {
  regular: ['fallback'],
  italic: ['regular', 'fallbackItalic', 'fallback'],
  bold: ['fallbackBold', 'fallback'],
  mono: ['fallback'],
  fallback: [],
  fallbackBold: ['fallback'],
  fallbackItalic: ['fallback'],
  boldItalic: ['bold', 'fallbackBoldItalic', 'fallbackBold', 'fallback'],
  fallbackBoldItalic: ['fallbackBold', 'fallback'],
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
  const fontOf = once((face) => openFont(files[face]));
  return {
    shaper: newShaper(
      fontOf,
      once((face) => lettersOf(files[face])),
    ),
    program: (face) => programOf(fontOf(face)),
  };
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

function newShaper(fontOf: (face: Face) => Font, lettersIn: (face: Face) => Letters | undefined): Shaper {
  const caches = new Map<Face, Map<string, readonly Shaped[]>>(faces.map((face) => [face, new Map()]));
  const faceFor = new Map<Face, Map<number, Face>>(faces.map((face) => [face, new Map()]));
  const missing: string[] = [];
  const softened = new Map<Shaped, Shaped>();

  const has = (face: Face, codePoint: number): boolean =>
    lettersIn(face)?.has(codePoint) === true || isFixedSpace(codePoint) || fontOf(face).hasGlyphForCodePoint(codePoint);

  const pick = (face: Face, codePoint: number): Face => {
    const chosen = faceFor.get(face) as Map<number, Face>;
    const known = chosen.get(codePoint);
    if (known !== undefined) return known;
    let found = has(face, codePoint) ? face : fallbackOf[face].find((other) => has(other, codePoint));
    if (found === undefined) {
      const character = String.fromCodePoint(codePoint);
      if (!missing.includes(character)) missing.push(character);
      found = face;
    }
    chosen.set(codePoint, found);
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

  const pairsOf = once((face) => new PairTable(face, lettersIn(face), (text) => shapeWhole(fontOf(face), face, text)));
  const shapeIn = (face: Face, text: string): Shaped => pairsOf(face).shape(text);

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
    metrics: once((face): FaceMetrics => lettersIn(face) ?? metricsOf(fontOf(face))),
    missing: () => missing,
  };
}
