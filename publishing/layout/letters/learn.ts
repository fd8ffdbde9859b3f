/** Asks a shaper about every pair of common letters, and keeps the answers small: letters that behave alike share a row or a column. */
import type { Face } from '../shaped.ts';
import { metricsOf, openFont, shapeWhole } from '../whole-shaper.ts';
import { type LearnedFace, stampOf } from './learned-face.ts';

/** Printable ASCII and Latin-1 without the soft hyphen, and the typographer's punctuation and signs of service text: where most words end. */
export const common: readonly string[] = [
  ...Array.from({ length: 95 }, (_, k) => String.fromCharCode(0x20 + k)),
  ...Array.from({ length: 96 }, (_, k) => String.fromCharCode(0xa0 + k)).filter((letter) => letter !== '\u00ad'),
  ...'\u2010\u2011\u202f–—‘’‚“”„†‡•…‰′″€™←↑→↓−≈≠≤≥⌀✓□☐●ΔΩμ',
];

/** Takes about two seconds a face. */
export function learnedFrom(face: Face, file: Uint8Array): LearnedFace {
  const font = openFont(file);
  const { ascent, descent } = metricsOf(font);
  const whole = (text: string) => shapeWhole(font, face, text);
  const letters = common.filter((letter) => font.hasGlyphForCodePoint(letter.charCodeAt(0)));
  const singles = letters.map((letter) => whole(letter));
  const widths = singles.map((single) => single.widths[0] as number);
  const kerns = letters.map((left, at) => letters.map((right) => (whole(left + right).advances[0] as number) - (widths[at] as number)));
  const rows = shared(kerns);
  const columns = shared(letters.map((_, at) => rows.different.map((row) => row[at] as number)));
  return {
    name: font.postscriptName,
    stamp: stampOf(file),
    ascent,
    descent,
    letters: letters.join(''),
    glyphs: singles.map((single) => single.glyphs[0]).join(' '),
    widths: widths.join(' '),
    left: rows.of.join(' '),
    right: columns.of.join(' '),
    kerns: rows.different.map((_, row) => columns.different.map((column) => column[row]).join(' ')),
  };
}

/** Equal lists once, and which of them each was. */
function shared(lists: readonly (readonly number[])[]): {
  readonly different: readonly (readonly number[])[];
  readonly of: readonly number[];
} {
  const places = new Map<string, number>();
  const different: (readonly number[])[] = [];
  const of = lists.map((list) => {
    const key = list.join(' ');
    const known = places.get(key);
    if (known !== undefined) return known;
    places.set(key, different.length);
    different.push(list);
    return different.length - 1;
  });
  return { different, of };
}
