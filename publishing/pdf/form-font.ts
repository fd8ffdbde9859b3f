/** The font fields are typed in: a plain TrueType font of the Western characters, whole, because nobody knows what will be typed (ISO 32000-1, 9.6.3). */
import type { PDFContext, PDFRef } from 'pdf-lib';
import type { FontSource } from '../layout/index.ts';
import { tagOf } from './fonts.ts';
import { stream } from './stream.ts';
import { characterMap, withTable } from './truetype.ts';

/** Windows code page 1252 where it differs from Latin-1: 0x80 to 0x9f (ISO 32000-1, annex D.2). */
const upper =
  '\u20ac\u0000\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u0000\u017d\u0000\u0000\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u0000\u017e\u0178';

export const characterAt = (code: number): number => (code >= 0x80 && code <= 0x9f ? upper.charCodeAt(code - 0x80) : code);

export function embedFormFont(source: FontSource, context: PDFContext): PDFRef {
  const program = source.program('regular');
  const glyphs = new Map<number, { glyph: number; width: number }>();
  for (let code = 32; code <= 255; code += 1) {
    const character = characterAt(code);
    if (character === 0 || code === 127) continue;
    // In this encoding the soft hyphen is a hyphen that is seen; a shaper may hide it.
    const shaped = source.shaper.shape('regular', character === 0xad ? '-' : String.fromCharCode(character));
    const [first] = shaped;
    if (first?.face !== 'regular' || first.glyphs.length !== 1) continue;
    glyphs.set(code, { glyph: first.glyphs[0] as number, width: first.widths[0] as number });
  }
  const { bytes, places } = program.subset([...new Set([...glyphs.values()].map(({ glyph }) => glyph))].sort((a, b) => a - b));
  const map = new Map([...glyphs].map(([code, { glyph }]) => [characterAt(code), places.get(glyph) ?? 0]));
  const file = withTable(bytes, 'cmap', characterMap(map));
  const name = `${tagOf(file)}+${program.name}`;
  const [left, low, right, high] = program.bounds;
  const descriptor = context.register(
    context.obj({
      Type: 'FontDescriptor',
      FontName: name,
      // Not symbolic: codes are those of the standard encoding named beside it.
      Flags: 32,
      FontBBox: [left, low, right, high],
      ItalicAngle: 0,
      Ascent: program.ascent,
      Descent: program.descent,
      CapHeight: program.capHeight,
      StemV: Math.round(50 + program.weight / 8),
      FontFile2: context.register(stream(context, file, { Length1: file.length })),
    }),
  );
  const widths = Array.from({ length: 224 }, (_, index) => glyphs.get(index + 32)?.width ?? 0);
  return context.register(
    context.obj({
      Type: 'Font',
      Subtype: 'TrueType',
      BaseFont: name,
      FirstChar: 32,
      LastChar: 255,
      Widths: widths,
      Encoding: 'WinAnsiEncoding',
      FontDescriptor: descriptor,
    }),
  );
}
