/** What was learned of a face's common letters beforehand, so that most words need no font library: its parsing alone takes longer than a page. */

/** As kept in learned.json: numbers in a row, parted by spaces, one for each letter. Lengths are thousandths of the type size. */
export interface LearnedFace {
  readonly name: string;
  /** Of the file it was learned from (`stampOf`). */
  readonly stamp: string;
  readonly ascent: number;
  readonly descent: number;
  readonly letters: string;
  readonly glyphs: string;
  readonly widths: string;
  /** Row of `kerns` for a letter on the left. */
  readonly left: string;
  /** Place in that row for a letter on the right. */
  readonly right: string;
  readonly kerns: readonly string[];
}

/**
 * Tells one font file from another by its length and its table directory, which holds a checksum of every table (OpenType 1.9, "Organization of an
 * OpenType Font"): eight hexadecimal digits of an FNV-1a hash.
 */
export function stampOf(file: Uint8Array): string {
  const tables = ((file[4] ?? 0) << 8) | (file[5] ?? 0);
  const end = Math.min(file.length, 12 + 16 * tables);
  let hash = 0x811c9dc5;
  for (let at = 0; at < end; at += 1) hash = Math.imul(hash ^ (file[at] as number), 0x01000193);
  return `${file.length}-${(hash >>> 0).toString(16).padStart(8, '0')}`;
}

const numbers = (row: string): Int16Array => Int16Array.from(row.split(' '), Number);

/** The same, ready to be asked. Letters are given as UTF-16 units. */
export class Letters {
  readonly ascent: number;
  readonly descent: number;
  private readonly places = new Map<number, number>();
  private readonly glyphs: Int16Array;
  private readonly widths: Int16Array;
  private readonly left: Int16Array;
  private readonly right: Int16Array;
  private readonly kerns: readonly Int16Array[];

  constructor(learned: LearnedFace) {
    this.ascent = learned.ascent;
    this.descent = learned.descent;
    for (let at = 0; at < learned.letters.length; at += 1) this.places.set(learned.letters.charCodeAt(at), at);
    this.glyphs = numbers(learned.glyphs);
    this.widths = numbers(learned.widths);
    this.left = numbers(learned.left);
    this.right = numbers(learned.right);
    this.kerns = learned.kerns.map(numbers);
  }

  has(letter: number): boolean {
    return this.places.has(letter);
  }

  /** undefined: not learned. */
  single(letter: number): { readonly glyph: number; readonly width: number } | undefined {
    const place = this.places.get(letter);
    return place === undefined ? undefined : { glyph: this.glyphs[place] as number, width: this.widths[place] as number };
  }

  /** How far the pen moves from the left letter to the right one; undefined: not learned. */
  step(left: number, right: number): number | undefined {
    const from = this.places.get(left);
    const to = this.places.get(right);
    if (from === undefined || to === undefined) return undefined;
    return (this.widths[from] as number) + ((this.kerns[this.left[from] as number] as Int16Array)[this.right[to] as number] as number);
  }
}
