/**
 * What a face does with two letters in a row: known beforehand for common letters, asked of the font library once for other pairs. In plain text with ligatures off a glyph depends on its
 * letter alone, and the pen's step on it and the next; so a word is put together from its pairs. A test compares words with whole shaping, for every face.
 */
import type { Letters } from './letters/learned-face.ts';
import type { Face, Shaped } from './shaped.ts';

/**
 * Latin with its accents, Greek letters of units, punctuation, and signs from money to arrows and boxes; without the soft hyphen, marks that stack, steer or join, and the slash that makes
 * fractions: nothing that joins, turns round or stacks.
 */
const plain =
  /^[ -~\u00a0-\u00ac\u00ae-\u017f\u2000-\u200a\u2010-\u2027\u202f-\u2043\u2045-\u205f\u0391-\u03c9\u2070-\u20cf\u2100-\u27bf]+$/;

interface Single {
  readonly glyph: number;
  readonly width: number;
}

/** Fixed spaces in thousandths of the type size (The Unicode Standard 15, table 6-2). A face without them shows its word space, and the pen moves on. */
const fixedSpaces: ReadonlyMap<number, number> = new Map([
  [0x2002, 500],
  [0x2003, 1000],
  [0x2004, 333],
  [0x2005, 250],
  [0x2006, 167],
]);

export const isFixedSpace = (code: number): boolean => fixedSpaces.has(code);

export class PairTable {
  private readonly singles = new Map<number, Single>();
  /** Step of the pen after the first letter, by both. */
  private readonly steps = new Map<number, number>();
  private readonly face: Face;
  private readonly letters: Letters | undefined;
  private readonly whole: (text: string) => Shaped;

  /** `whole` shapes a text by the font library. */
  constructor(face: Face, letters: Letters | undefined, whole: (text: string) => Shaped) {
    this.face = face;
    this.letters = letters;
    this.whole = whole;
  }

  /** Plain words from their pairs, whatever else as a whole. */
  shape(text: string): Shaped {
    return plain.test(text) ? this.fromPairs(text) : this.whole(text);
  }

  private fromPairs(text: string): Shaped {
    const count = text.length;
    const glyphs = new Array<number>(count);
    const texts = new Array<string>(count);
    const widths = new Array<number>(count);
    const advances = new Array<number>(count);
    let units = 0;
    for (let at = 0; at < count; at += 1) {
      const code = text.charCodeAt(at);
      const { glyph, width } = this.single(code);
      const advance = fixedSpaces.get(code) ?? (at + 1 < count ? this.step(code, text.charCodeAt(at + 1)) : width);
      glyphs[at] = glyph;
      texts[at] = text[at] as string;
      widths[at] = width;
      advances[at] = advance;
      units += advance;
    }
    return { face: this.face, text, glyphs, texts, widths, advances, units };
  }

  private single(code: number): Single {
    let single = this.singles.get(code);
    if (single === undefined) {
      single = isFixedSpace(code) ? this.single(0x20) : (this.letters?.single(code) ?? this.asked(code));
      this.singles.set(code, single);
    }
    return single;
  }

  private asked(code: number): Single {
    const { glyphs, widths } = this.whole(String.fromCharCode(code));
    return { glyph: glyphs[0] as number, width: widths[0] as number };
  }

  private step(left: number, right: number): number {
    const key = left * 65536 + right;
    let step = this.steps.get(key);
    if (step === undefined) {
      if (isFixedSpace(right)) return this.single(left).width;
      step = this.letters?.step(left, right) ?? (this.whole(String.fromCharCode(left, right)).advances[0] as number);
      this.steps.set(key, step);
    }
    return step;
  }
}
