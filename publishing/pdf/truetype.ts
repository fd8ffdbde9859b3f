/** TrueType files as tables: a character map added to a font that came without one, as a field that is typed into needs (OpenType 1.9, "cmap"). */

const word = (bytes: Uint8Array, at: number): number => ((bytes[at] as number) << 8) | (bytes[at + 1] as number);
const long = (bytes: Uint8Array, at: number): number => word(bytes, at) * 65536 + word(bytes, at + 2);

class Writer {
  private readonly out: number[] = [];
  get length(): number {
    return this.out.length;
  }
  u16(value: number): void {
    this.out.push((value >> 8) & 255, value & 255);
  }
  u32(value: number): void {
    this.u16(Math.floor(value / 65536));
    this.u16(value % 65536);
  }
  bytes(): Uint8Array {
    return Uint8Array.from(this.out);
  }
}

/** Format 4, one segment a run of characters whose glyphs count up with them; platform 3, encoding 1. */
export function characterMap(glyphOf: ReadonlyMap<number, number>): Uint8Array {
  const pairs = [...glyphOf].sort(([a], [b]) => a - b);
  const segments: { start: number; end: number; delta: number }[] = [];
  for (const [code, glyph] of pairs) {
    const last = segments[segments.length - 1];
    if (last !== undefined && last.end + 1 === code && last.delta === glyph - code) last.end = code;
    else segments.push({ start: code, end: code, delta: glyph - code });
  }
  segments.push({ start: 0xffff, end: 0xffff, delta: 1 });
  const count = segments.length;
  let power = 1;
  let selector = 0;
  while (power * 2 <= count) {
    power *= 2;
    selector += 1;
  }
  const out = new Writer();
  out.u16(0);
  out.u16(1);
  out.u16(3);
  out.u16(1);
  out.u32(12);
  for (const value of [4, 16 + count * 8, 0, count * 2, power * 2, selector, (count - power) * 2]) out.u16(value);
  for (const { end } of segments) out.u16(end);
  out.u16(0);
  for (const { start } of segments) out.u16(start);
  for (const { delta } of segments) out.u16(delta & 0xffff);
  for (const _ of segments) out.u16(0);
  return out.bytes();
}

const pad = (length: number): number => (length + 3) & ~3;

function checksum(bytes: Uint8Array): number {
  let sum = 0;
  for (let at = 0; at < bytes.length; at += 4)
    for (let k = 0; k < 4; k += 1) sum = (sum + (bytes[at + k] ?? 0) * 256 ** (3 - k)) % 4294967296;
  return sum;
}

/** The same font with one table more; tables stand in the order of their names, as the format asks. */
export function withTable(font: Uint8Array, name: string, table: Uint8Array): Uint8Array {
  const tables = new Map<string, Uint8Array>();
  const count = word(font, 4);
  for (let index = 0; index < count; index += 1) {
    const at = 12 + index * 16;
    const tag = String.fromCharCode(...font.subarray(at, at + 4));
    tables.set(tag, font.subarray(long(font, at + 8), long(font, at + 8) + long(font, at + 12)));
  }
  tables.set(name, table);
  const sorted = [...tables].sort(([a], [b]) => (a < b ? -1 : 1));
  let power = 1;
  let selector = 0;
  while (power * 2 <= sorted.length) {
    power *= 2;
    selector += 1;
  }
  const head = new Writer();
  head.u32(long(font, 0));
  for (const value of [sorted.length, power * 16, selector, (sorted.length - power) * 16]) head.u16(value);
  let at = 12 + sorted.length * 16;
  for (const [tag, bytes] of sorted) {
    for (let k = 0; k < 4; k += 2) head.u16((tag.charCodeAt(k) << 8) | tag.charCodeAt(k + 1));
    head.u32(checksum(bytes));
    head.u32(at);
    head.u32(bytes.length);
    at += pad(bytes.length);
  }
  const out = new Uint8Array(at);
  out.set(head.bytes());
  let offset = head.length;
  for (const [, bytes] of sorted) {
    out.set(bytes, offset);
    offset += pad(bytes.length);
  }
  return out;
}
