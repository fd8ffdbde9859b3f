/** A word as glyphs, and what the layout asks of a shaper. Leaves the font library to fontkit-shaper.ts. */
import type { Mp } from './units.ts';

export const faces = [
  'regular',
  'italic',
  'bold',
  'mono',
  'fallback',
  'fallbackBold',
  'fallbackItalic',
  'boldItalic',
  'fallbackBoldItalic',
] as const;
export type Face = (typeof faces)[number];

/** TrueType files as bytes, given by the caller: the layout reads no disk. */
export type FontFiles = Readonly<Record<Face, Uint8Array>>;

/** One stretch of one face. Advances are thousandths of the type size, whole numbers, and the same in the PDF's width table. */
export interface Shaped {
  readonly face: Face;
  readonly text: string;
  readonly glyphs: readonly number[];
  /** What each glyph stands for; joined they are the text. */
  readonly texts: readonly string[];
  /** The glyph's own width, before kerning. */
  readonly widths: readonly number[];
  /** How far the pen moves, kerning included. */
  readonly advances: readonly number[];
  /** Marks set off the line: [dx, dy] in thousandths, y upwards; undefined when none is. */
  readonly offsets?: readonly (readonly [number, number])[];
  /** Sum of advances. */
  readonly units: number;
}

export interface FaceMetrics {
  readonly ascent: number;
  readonly descent: number;
}

export interface Shaper {
  /** Shapes once for each face and text; a character the face lacks is taken from the fallback faces. */
  shape(face: Face, text: string): readonly Shaped[];
  /** The same glyphs, the last of which reads as a soft hyphen: a word divided at a line end is still found whole. */
  softHyphen(shaped: Shaped): Shaped;
  metrics(face: Face): FaceMetrics;
  /** Characters no face has, in the order met. */
  missing(): readonly string[];
}

export const widthOf = (shaped: Shaped, size: Mp): Mp => Math.round((shaped.units * size) / 1000);

export function widthOfAll(shaped: readonly Shaped[], size: Mp): Mp {
  let sum = 0;
  for (const one of shaped) sum += widthOf(one, size);
  return sum;
}

/** What a file needs to show glyphs of a face. Lengths are thousandths of the type size. */
export interface FontProgram {
  /** PostScript name. */
  readonly name: string;
  readonly ascent: number;
  readonly descent: number;
  readonly capHeight: number;
  /** Degrees, negative for letters that lean right. */
  readonly italicAngle: number;
  readonly bounds: readonly [number, number, number, number];
  readonly weight: number;
  /** A TrueType file of these glyphs, sorted by id, and where each stands in it. */
  subset(glyphs: readonly number[]): { readonly bytes: Uint8Array; readonly places: ReadonlyMap<number, number> };
}
