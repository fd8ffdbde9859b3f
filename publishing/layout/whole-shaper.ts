/** A text of one face to glyphs by the font library, all of its rules applied. Slow: most words are put together from what is known of their letters. */
import { create, type Font } from 'fontkit';
import type { Face, FaceMetrics, Shaped } from './shaped.ts';

/** Ligatures stay off: a search for "fill" must find it in every reader, and letters stay apart at arm's length. */
const features = { kern: true, tnum: true, liga: false, clig: false } as const;

export const openFont = (file: Uint8Array): Font => create(file);

const scaleOf =
  ({ unitsPerEm }: Font) =>
  (value: number): number =>
    Math.round((value * 1000) / unitsPerEm);

export function metricsOf(font: Font): FaceMetrics {
  const scale = scaleOf(font);
  return { ascent: scale(font.ascent), descent: scale(font.descent) };
}

export function shapeWhole(font: Font, face: Face, text: string): Shaped {
  const run = font.layout(text, features);
  const scale = scaleOf(font);
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
}
