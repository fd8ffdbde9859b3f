/**
 * What a font file says of single letters and of pairs of them: glyph, width, kerning, read from its tables (OpenType 1.9: "cmap", "hmtx", "GPOS").
 * Enough for plain Latin text with ligatures off, and hundreds of times faster than whole shaping; everything else is left to the font library.
 */

/** A class of glyphs, or a place in a coverage table. */
type Lookup = (glyph: number) => number | undefined;

interface PairSubtable {
  /** Place of the first glyph of a pair; undefined where the subtable says nothing of it. */
  readonly first: Lookup;
  /** Step added to the pen after the first glyph; undefined where the subtable says nothing of the pair, which ends with 0. */
  readonly step: (first: number, left: number, right: number) => number | undefined;
}

export interface FontFacts {
  /** PostScript name. */
  readonly name: string;
  readonly ascent: number;
  readonly descent: number;
  readonly capHeight: number;
  /** Degrees. */
  readonly italicAngle: number;
  readonly bounds: readonly [number, number, number, number];
  readonly weight: number;
}

export class FontTables {
  readonly unitsPerEm: number;
  private readonly view: DataView;
  private readonly tables = new Map<string, number>();
  private readonly glyphs = new Map<number, number>();
  private readonly glyphIn: (code: number) => number;
  private readonly hmtx: number;
  private readonly longMetrics: number;
  private readonly kerning: readonly (readonly PairSubtable[])[];
  private readonly steps = new Map<number, number>();

  constructor(bytes: Uint8Array) {
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const { view } = this;
    for (let at = 12, left = view.getUint16(4); left > 0; left -= 1, at += 16)
      this.tables.set(String.fromCharCode(...bytes.subarray(at, at + 4)), view.getUint32(at + 8));
    this.unitsPerEm = view.getUint16(this.table('head') + 18);
    this.longMetrics = view.getUint16(this.table('hhea') + 34);
    this.hmtx = this.table('hmtx');
    this.glyphIn = characterMap(view, this.table('cmap'));
    this.kerning = this.tables.has('GPOS') ? pairLookups(view, this.table('GPOS')) : [];
  }

  /** 0 where the font has none. */
  glyphOf(code: number): number {
    let glyph = this.glyphs.get(code);
    if (glyph === undefined) {
      glyph = this.glyphIn(code);
      this.glyphs.set(code, glyph);
    }
    return glyph;
  }

  /** In units of the font. */
  widthOf(glyph: number): number {
    return this.view.getUint16(this.hmtx + 4 * Math.min(glyph, this.longMetrics - 1));
  }

  /** How much further, or less far, the pen goes between the two; in units of the font. */
  kern(left: number, right: number): number {
    const key = left * 65536 + right;
    let step = this.steps.get(key);
    if (step === undefined) {
      step = this.kerning.reduce((sum, subtables) => sum + stepIn(subtables, left, right), 0);
      this.steps.set(key, step);
    }
    return step;
  }

  /** What is said of the font as a whole, in its units. */
  facts(): FontFacts {
    const { view } = this;
    const head = this.table('head');
    const hhea = this.table('hhea');
    const os2 = this.table('OS/2');
    return {
      name: this.name(6),
      ascent: view.getInt16(hhea + 4),
      descent: view.getInt16(hhea + 6),
      // Older font files do not state it: then the height of an H is.
      capHeight: view.getUint16(os2) >= 2 ? view.getInt16(os2 + 88) : this.topOf(this.glyphOf(72)),
      // 16 bits before the point and 16 after it.
      italicAngle: view.getInt32(this.table('post') + 4) / 65536,
      bounds: [view.getInt16(head + 36), view.getInt16(head + 38), view.getInt16(head + 40), view.getInt16(head + 42)],
      weight: view.getUint16(os2 + 4),
    };
  }

  /** Highest point of a glyph that is drawn. */
  private topOf(glyph: number): number {
    const { view } = this;
    const long = view.getInt16(this.table('head') + 50) === 1;
    const place = this.table('loca') + glyph * (long ? 4 : 2);
    return view.getInt16(this.table('glyf') + (long ? view.getUint32(place) : 2 * view.getUint16(place)) + 8);
  }

  /** A name by its number, from the records of the Windows platform, which are UTF-16. */
  private name(wanted: number): string {
    const { view } = this;
    const at = this.table('name');
    for (let index = 0; index < view.getUint16(at + 2); index += 1) {
      const record = at + 6 + 12 * index;
      if (view.getUint16(record) !== 3 || view.getUint16(record + 6) !== wanted) continue;
      const from = at + view.getUint16(at + 4) + view.getUint16(record + 10);
      return Array.from({ length: view.getUint16(record + 8) / 2 }, (_, k) => String.fromCharCode(view.getUint16(from + 2 * k))).join('');
    }
    return 'Font';
  }

  private table(tag: string): number {
    return this.tables.get(tag) ?? 0;
  }
}

/** The first subtable that knows the pair decides. */
function stepIn(subtables: readonly PairSubtable[], left: number, right: number): number {
  for (const { first, step } of subtables) {
    const found = first(left);
    const value = found === undefined ? undefined : step(found, left, right);
    if (value !== undefined) return value;
  }
  return 0;
}

/** Format 12 where there is one, else format 4: the two that Unicode fonts carry. */
function characterMap(view: DataView, cmap: number): (code: number) => number {
  let four: number | undefined;
  let twelve: number | undefined;
  for (let index = 0; index < view.getUint16(cmap + 2); index += 1) {
    const platform = view.getUint16(cmap + 4 + index * 8);
    const at = cmap + view.getUint32(cmap + 8 + index * 8);
    if (platform !== 0 && platform !== 3) continue;
    if (view.getUint16(at) === 12) twelve = at;
    else if (view.getUint16(at) === 4) four = at;
  }
  if (twelve !== undefined) return (code) => inGroups(view, twelve, code);
  if (four !== undefined) return (code) => inSegments(view, four, code);
  return () => 0;
}

function inGroups(view: DataView, at: number, code: number): number {
  let low = 0;
  let high = view.getUint32(at + 12) - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const group = at + 16 + middle * 12;
    if (code < view.getUint32(group)) high = middle - 1;
    else if (code > view.getUint32(group + 4)) low = middle + 1;
    else return view.getUint32(group + 8) + code - view.getUint32(group);
  }
  return 0;
}

function inSegments(view: DataView, at: number, code: number): number {
  const twice = view.getUint16(at + 6);
  const ends = at + 14;
  const starts = ends + twice + 2;
  for (let k = 0; k < twice; k += 2) {
    if (code > view.getUint16(ends + k)) continue;
    const start = view.getUint16(starts + k);
    if (code < start) return 0;
    const delta = view.getUint16(starts + twice + k);
    const range = starts + 2 * twice + k;
    const offset = view.getUint16(range);
    if (offset === 0) return (code + delta) & 0xffff;
    const glyph = view.getUint16(range + offset + 2 * (code - start));
    return glyph === 0 ? 0 : (glyph + delta) & 0xffff;
  }
  return 0;
}

/** Pair adjustments of the feature "kern" for Latin text, lookup by lookup. */
function pairLookups(view: DataView, gpos: number): PairSubtable[][] {
  const scripts = gpos + view.getUint16(gpos + 4);
  const features = gpos + view.getUint16(gpos + 6);
  const lookups = gpos + view.getUint16(gpos + 8);
  const language = defaultLanguage(view, scripts, 'latn') ?? defaultLanguage(view, scripts, 'DFLT');
  if (language === undefined) return [];
  const wanted: number[] = [];
  for (let index = 0; index < view.getUint16(language + 4); index += 1) {
    const record = features + 2 + view.getUint16(language + 6 + 2 * index) * 6;
    if (tagAt(view, record) !== 'kern') continue;
    const feature = features + view.getUint16(record + 4);
    for (let k = 0; k < view.getUint16(feature + 2); k += 1) wanted.push(view.getUint16(feature + 4 + 2 * k));
  }
  wanted.sort((a, b) => a - b);
  return wanted.map((index) => {
    const lookup = lookups + view.getUint16(lookups + 2 + 2 * index);
    const kind = view.getUint16(lookup);
    return Array.from({ length: view.getUint16(lookup + 4) }, (_, k) => {
      const at = lookup + view.getUint16(lookup + 6 + 2 * k);
      // Kind 9 only points further.
      if (kind === 9) return view.getUint16(at + 2) === 2 ? at + view.getUint32(at + 4) : undefined;
      return kind === 2 ? at : undefined;
    }).flatMap((at) => (at === undefined ? [] : [pairSubtable(view, at)]));
  });
}

const tagAt = (view: DataView, at: number): string =>
  String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));

function defaultLanguage(view: DataView, scripts: number, tag: string): number | undefined {
  for (let index = 0; index < view.getUint16(scripts); index += 1) {
    const record = scripts + 2 + index * 6;
    if (tagAt(view, record) !== tag) continue;
    const script = scripts + view.getUint16(record + 4);
    const offset = view.getUint16(script);
    return offset === 0 ? undefined : script + offset;
  }
  return undefined;
}

/** The step a value record adds is its "XAdvance"; each bit of the format is one field of two bytes. */
const advanceBit = 4;
const fieldsOf = (format: number): number => {
  let count = 0;
  for (let bits = format; bits > 0; bits >>= 1) count += bits & 1;
  return count;
};

function pairSubtable(view: DataView, at: number): PairSubtable {
  const first = coverage(view, at + view.getUint16(at + 2));
  const format = view.getUint16(at + 4);
  const firstBytes = 2 * fieldsOf(format);
  const bytes = firstBytes + 2 * fieldsOf(view.getUint16(at + 6));
  const before = 2 * fieldsOf(format & (advanceBit - 1));
  const valueAt = (record: number): number => ((format & advanceBit) === 0 ? 0 : view.getInt16(record + before));
  if (view.getUint16(at) === 1) {
    return {
      first,
      step: (found, _, right) => {
        const set = at + view.getUint16(at + 10 + 2 * found);
        for (let k = 0, record = set + 2; k < view.getUint16(set); k += 1, record += 2 + bytes)
          if (view.getUint16(record) === right) return valueAt(record + 2);
        return undefined;
      },
    };
  }
  const leftClass = classes(view, at + view.getUint16(at + 8));
  const rightClass = classes(view, at + view.getUint16(at + 10));
  const rightCount = view.getUint16(at + 14);
  return {
    first,
    step: (_, left, right) => valueAt(at + 16 + ((leftClass(left) ?? 0) * rightCount + (rightClass(right) ?? 0)) * bytes),
  };
}

/** Ranges of three words: first, last, value. */
function inRanges(view: DataView, at: number, count: number, glyph: number): number {
  let low = 0;
  let high = count - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const range = at + middle * 6;
    if (glyph < view.getUint16(range)) high = middle - 1;
    else if (glyph > view.getUint16(range + 2)) low = middle + 1;
    else return range;
  }
  return -1;
}

function coverage(view: DataView, at: number): Lookup {
  const count = view.getUint16(at + 2);
  if (view.getUint16(at) === 2)
    return (glyph) => {
      const range = inRanges(view, at + 4, count, glyph);
      return range < 0 ? undefined : view.getUint16(range + 4) + glyph - view.getUint16(range);
    };
  return (glyph) => {
    let low = 0;
    let high = count - 1;
    while (low <= high) {
      const middle = (low + high) >> 1;
      const found = view.getUint16(at + 4 + 2 * middle);
      if (found === glyph) return middle;
      if (glyph < found) high = middle - 1;
      else low = middle + 1;
    }
    return undefined;
  };
}

function classes(view: DataView, at: number): Lookup {
  if (view.getUint16(at) === 1) {
    const start = view.getUint16(at + 2);
    const count = view.getUint16(at + 4);
    return (glyph) => (glyph >= start && glyph < start + count ? view.getUint16(at + 6 + 2 * (glyph - start)) : 0);
  }
  const count = view.getUint16(at + 2);
  return (glyph) => {
    const range = inRanges(view, at + 4, count, glyph);
    return range < 0 ? 0 : view.getUint16(range + 4);
  };
}
