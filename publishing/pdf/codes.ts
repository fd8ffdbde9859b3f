/**
 * Codes of a file: which glyphs it shows, under which two bytes. Given out as glyphs are first met and never changed, so a page can be written before
 * the next is drawn. A code stands for a glyph and what it reads as: a hyphen at a line end looks like one and reads as a soft hyphen.
 */
import { type Face, faces, type Shaped } from '../layout/index.ts';
import { Bytes } from './bytes.ts';

export interface Shown {
  readonly code: number;
  readonly glyph: number;
  readonly text: string;
  /** Thousandths of the type size. */
  readonly width: number;
}

/** Bytes that mean something in a string of a page description: parentheses, the backslash, the carriage return (ISO 32000-1, 7.3.4.2). */
const isPlain = (byte: number): boolean => byte !== 0x28 && byte !== 0x29 && byte !== 0x5c && byte !== 0x0d;

class FaceCodes {
  readonly list: Shown[] = [];
  /** By glyph, then by what it reads as: nearly always one thing. */
  private readonly known = new Map<number, Shown[]>();
  private readonly taken = new Set<number>();
  private next = 0x100;

  of(glyph: number, text: string, width: number): number {
    let same = this.known.get(glyph);
    if (same === undefined) {
      same = [];
      this.known.set(glyph, same);
    }
    for (const one of same) if (one.text === text) return one.code;
    const code = this.fresh(text);
    const shown = { code, glyph, text, width };
    same.push(shown);
    this.list.push(shown);
    return code;
  }

  /** A letter's own number where it can be: such streams pack well and can be read by a person. */
  private fresh(text: string): number {
    const own = text.length === 1 ? text.charCodeAt(0) : 0;
    if (own > 0 && own < 0x100 && isPlain(own) && !this.taken.has(own)) {
      this.taken.add(own);
      return own;
    }
    while (!isPlain(this.next >> 8) || !isPlain(this.next & 255)) this.next += 1;
    this.next += 1;
    return this.next - 1;
  }
}

export class FontCodes {
  private readonly byFace = new Map<Face, FaceCodes>();
  private readonly rows = new Map<Shaped, Uint8Array>();
  private readonly out = new Bytes(256);

  /** A run without raised marks inside the brackets of a TJ, from within one string to within another: the pen is moved where kerning says so. */
  row(run: Shaped): Uint8Array {
    let row = this.rows.get(run);
    if (row === undefined) {
      row = this.written(run);
      this.rows.set(run, row);
    }
    return row;
  }

  /** The two bytes of one glyph. */
  one(face: Face, glyph: number, text: string, width: number): Uint8Array {
    const code = this.in(face).of(glyph, text, width);
    return Uint8Array.of(code >> 8, code & 255);
  }

  /** Faces shown, in order, each with its glyphs by code. */
  shown(): readonly (readonly [Face, readonly Shown[]])[] {
    return faces.flatMap((face) => {
      const codes = this.byFace.get(face);
      return codes === undefined ? [] : [[face, [...codes.list].sort((a, b) => a.code - b.code)] as const];
    });
  }

  private in(face: Face): FaceCodes {
    let codes = this.byFace.get(face);
    if (codes === undefined) {
      codes = new FaceCodes();
      this.byFace.set(face, codes);
    }
    return codes;
  }

  private written(run: Shaped): Uint8Array {
    const { out } = this;
    const codes = this.in(run.face);
    out.clear();
    let pending = 0;
    const move = (units: number): void => {
      if (units !== 0) out.text(`)${-units}(`);
    };
    for (let index = 0; index < run.glyphs.length; index += 1) {
      const dx = run.offsets?.[index]?.[0] ?? 0;
      const width = run.widths[index] as number;
      move(pending + dx);
      const code = codes.of(run.glyphs[index] as number, run.texts[index] as string, width);
      out.byte(code >> 8);
      out.byte(code & 255);
      pending = (run.advances[index] as number) - width - dx;
    }
    move(pending);
    return out.view().slice();
  }
}
