/**
 * What a face does with two letters in a row, learned from words the font library has shaped. In plain Latin text with ligatures off a glyph depends on
 * its letter alone, and the pen's step on it and the next; so a word whose pairs were all met is put together without asking the library again.
 * A test compares such words with whole shaping, for every face.
 */
import type { Face, Shaped } from './shaped.ts';

/** Printable ASCII, Latin-1 without its soft hyphen, dashes, quotes, ellipsis: nothing that joins, turns round or stacks. */
const plain = /^[!-~\u00a1-\u00ac\u00ae-\u00ff\u2013\u2014\u2018-\u201d\u2026]{2,}$/;

interface Single {
  readonly glyph: number;
  readonly text: string;
  readonly width: number;
}

export class PairTable {
  private readonly singles = new Map<number, Single>();
  /** Step of the pen after the first letter, by both letters; the second is 0 at the end of a word. */
  private readonly steps = new Map<number, number>();

  /** undefined while a pair of the word is not known. */
  shape(face: Face, text: string): Shaped | undefined {
    if (!plain.test(text)) return undefined;
    const glyphs: number[] = [];
    const texts: string[] = [];
    const widths: number[] = [];
    const advances: number[] = [];
    let units = 0;
    for (let at = 0; at < text.length; at += 1) {
      const code = text.charCodeAt(at);
      const single = this.singles.get(code);
      const step = this.steps.get(code * 65536 + (at + 1 < text.length ? text.charCodeAt(at + 1) : 0));
      if (single === undefined || step === undefined) return undefined;
      glyphs.push(single.glyph);
      texts.push(single.text);
      widths.push(single.width);
      advances.push(step);
      units += step;
    }
    return { face, text, glyphs, texts, widths, advances, units };
  }

  learn({ text, glyphs, texts, widths, advances, offsets }: Shaped): void {
    if (offsets !== undefined || glyphs.length !== text.length || !plain.test(text)) return;
    for (let at = 0; at < text.length; at += 1) {
      const code = text.charCodeAt(at);
      this.singles.set(code, { glyph: glyphs[at] as number, text: texts[at] as string, width: widths[at] as number });
      this.steps.set(code * 65536 + (at + 1 < text.length ? text.charCodeAt(at + 1) : 0), advances[at] as number);
    }
  }
}
