/** Words to glyphs with kerning and ligatures, each distinct word once for each face. The only user of the font library. */
import { create, type Font } from 'fontkit';
import { FontTables } from './font-tables.ts';
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

/**
 * Latin with its accents, punctuation, and signs from money to arrows and boxes; without the soft hyphen, marks that stack, steer or join, and the slash that makes
 * fractions: nothing that joins, turns round or stacks.
 */
const plain = /^[ -~\u00a0-\u00ac\u00ae-\u017f\u2000-\u200a\u2010-\u2027\u202f-\u2043\u2045-\u205f\u2070-\u20cf\u2100-\u27bf]+$/;

/** A glyph depends on its letter alone, and the pen's step on it and the next. A test compares such words with whole shaping, for every face. */
function fromTables(face: Face, text: string, tables: FontTables): Shaped {
  const count = text.length;
  const glyphs = new Array<number>(count);
  const texts = new Array<string>(count);
  const widths = new Array<number>(count);
  const advances = new Array<number>(count);
  const { unitsPerEm } = tables;
  let units = 0;
  let glyph = tables.glyphOf(text.charCodeAt(0));
  for (let at = 0; at < count; at += 1) {
    const next = at + 1 < count ? tables.glyphOf(text.charCodeAt(at + 1)) : undefined;
    const width = tables.widthOf(glyph);
    const step = next === undefined ? width : width + tables.kern(glyph, next);
    const advance = Math.round((step * 1000) / unitsPerEm);
    glyphs[at] = glyph;
    texts[at] = text[at] as string;
    widths[at] = Math.round((width * 1000) / unitsPerEm);
    advances[at] = advance;
    units += advance;
    glyph = next ?? 0;
  }
  return { face, text, glyphs, texts, widths, advances, units };
}

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
  const tablesOf = once((face) => new FontTables(files[face]));
  return { shaper: newShaper(fontOf, tablesOf), program: (face) => programOf(fontOf(face), tablesOf(face)) };
}

/** The program of the glyphs given, which must be sorted: the same set gives the same bytes. */
function programOf(font: Font, tables: FontTables): FontProgram {
  const scale = (value: number) => Math.round((value * 1000) / tables.unitsPerEm);
  const facts = tables.facts();
  const [left, low, right, high] = facts.bounds;
  return {
    ...facts,
    ascent: scale(facts.ascent),
    descent: scale(facts.descent),
    capHeight: scale(facts.capHeight),
    bounds: [scale(left), scale(low), scale(right), scale(high)],
    subset(glyphs) {
      const subset = font.createSubset();
      const places = new Map<number, number>([[0, 0]]);
      for (const glyph of glyphs) places.set(glyph, subset.includeGlyph(glyph));
      return { bytes: subset.encode(), places };
    },
  };
}

function newShaper(fontOf: (face: Face) => Font, tablesOf: (face: Face) => FontTables): Shaper {
  const caches = new Map<Face, Map<string, readonly Shaped[]>>(faces.map((face) => [face, new Map()]));
  const faceFor = new Map<string, Face>();
  const missing: string[] = [];
  const softened = new Map<Shaped, Shaped>();

  const pick = (face: Face, codePoint: number): Face => {
    const key = `${face} ${codePoint}`;
    const known = faceFor.get(key);
    if (known !== undefined) return known;
    let found: Face | undefined;
    if (tablesOf(face).glyphOf(codePoint) !== 0) found = face;
    else found = fallbackOf[face].find((other) => tablesOf(other).glyphOf(codePoint) !== 0);
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

  const shapeIn = (face: Face, text: string): Shaped =>
    plain.test(text) ? fromTables(face, text, tablesOf(face)) : shapeWhole(face, text);

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
      const { ascent, descent } = tablesOf(face).facts();
      const scale = (value: number) => Math.round((value * 1000) / tablesOf(face).unitsPerEm);
      return { ascent: scale(ascent), descent: scale(descent) };
    }),
    missing: () => missing,
  };
}
