/** Fonts of a file: the Type 0 fonts that carry the glyphs it shows (ISO 32000-1, 9.7). Which code a glyph has is said by codes.ts. */
import { sha256 } from '@noble/hashes/sha2.js';
import { type PDFContext, type PDFDict, PDFHexString, PDFName, type PDFRef } from 'pdf-lib';
import type { Face, FontSource } from '../layout/index.ts';
import type { FontCodes, Shown } from './codes.ts';
import { hex4 } from './numbers.ts';
import { stream } from './stream.ts';

/** Registers the fonts of all glyphs that were given a code. */
export const embedFonts = (codes: FontCodes, source: FontSource, context: PDFContext): ReadonlyMap<Face, PDFRef> =>
  new Map(codes.shown().map(([face, list]) => [face, embedFace(list, face, source, context)]));

function embedFace(list: readonly Shown[], face: Face, source: FontSource, context: PDFContext): PDFRef {
  const program = source.program(face);
  const wanted = [...new Set(list.map((one) => one.glyph))].filter((glyph) => glyph !== 0).sort((a, b) => a - b);
  const { bytes, places } = program.subset(wanted);
  const name = `${tagOf(bytes)}+${program.name}`;
  const file = context.register(stream(context, bytes, { Length1: bytes.length }));
  const [left, low, right, high] = program.bounds;
  const descriptor = context.register(
    context.obj({
      Type: 'FontDescriptor',
      FontName: name,
      // Symbolic: codes are ours, not those of a standard encoding.
      Flags: 4 + (face === 'mono' ? 1 : 0) + (program.italicAngle === 0 ? 0 : 64),
      FontBBox: [left, low, right, high],
      ItalicAngle: Math.round(program.italicAngle),
      Ascent: program.ascent,
      Descent: program.descent,
      CapHeight: program.capHeight,
      StemV: Math.round(50 + program.weight / 8),
      FontFile2: file,
    }),
  );
  const last = list[list.length - 1]?.code ?? 0;
  const map = new Uint8Array((last + 1) * 2);
  for (const { code, glyph } of list) {
    const place = places.get(glyph) ?? 0;
    map[code * 2] = place >> 8;
    map[code * 2 + 1] = place & 255;
  }
  const system = context.obj({}) as PDFDict;
  system.set(PDFName.of('Registry'), PDFHexString.of('41646F6265'));
  system.set(PDFName.of('Ordering'), PDFHexString.of('4964656E74697479'));
  system.set(PDFName.of('Supplement'), context.obj(0));
  const descendant = context.register(
    context.obj({
      Type: 'Font',
      Subtype: 'CIDFontType2',
      BaseFont: name,
      CIDSystemInfo: system,
      FontDescriptor: descriptor,
      DW: 0,
      W: widthsOf(list),
      CIDToGIDMap: context.register(stream(context, map)),
    }),
  );
  return context.register(
    context.obj({
      Type: 'Font',
      Subtype: 'Type0',
      BaseFont: name,
      Encoding: 'Identity-H',
      DescendantFonts: [descendant],
      ToUnicode: context.register(stream(context, new TextEncoder().encode(toUnicode(list)))),
    }),
  );
}

/** Runs of codes that follow each other, each run with its first. */
function widthsOf(list: readonly Shown[]): (number | number[])[] {
  const out: (number | number[])[] = [];
  let row: number[] = [];
  let next = -1;
  for (const { code, width } of list) {
    if (code !== next) {
      row = [];
      out.push(code, row);
    }
    row.push(width);
    next = code + 1;
  }
  return out;
}

/** Six capitals from the hash of the subset: the same glyphs give the same name on any machine. */
export function tagOf(bytes: Uint8Array): string {
  return Array.from(sha256(bytes).subarray(0, 6), (byte) => String.fromCharCode(65 + (byte % 26))).join('');
}

const utf16 = (text: string): string => {
  let out = '';
  for (let i = 0; i < text.length; i += 1) out += hex4(text.charCodeAt(i));
  return out;
};

function toUnicode(list: readonly Shown[]): string {
  const rows = list.map((one) => [hex4(one.code), utf16(one.text)] as const).filter(([, text]) => text !== '');
  const blocks: string[] = [];
  // A block holds at most a hundred rows (ISO 32000-1, 9.10.3, by way of the CMap format).
  for (let at = 0; at < rows.length; at += 100) {
    const part = rows.slice(at, at + 100);
    blocks.push(`${part.length} beginbfchar\n${part.map(([code, text]) => `<${code}> <${text}>`).join('\n')}\nendbfchar\n`);
  }
  return [
    '/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n',
    '/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n',
    '/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n',
    ...blocks,
    'endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n',
  ].join('');
}
