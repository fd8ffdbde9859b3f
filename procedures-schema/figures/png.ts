/** PNG (ISO/IEC 15948) as far as it says that it is whole: signature, parts in order, check sums, end. Unpacks nothing. */
import type { BitmapFacts, Fault } from './model.ts';

const SAVED = 'The picture copied here again, or saved anew as PNG.';
const fault = (says: string, right = SAVED): { readonly fault: Fault } => ({ fault: { says, right } });
const CUT = fault('It is cut off: the file ends before the picture does.');

/** 11.2.2, table 11.1: depths that go with a colour type, and the values a dot has. */
const COLOURS: Readonly<Record<number, { readonly depths: readonly number[]; readonly components: number }>> = {
  0: { depths: [1, 2, 4, 8, 16], components: 1 },
  2: { depths: [8, 16], components: 3 },
  3: { depths: [1, 2, 4, 8], components: 1 },
  4: { depths: [8, 16], components: 2 },
  6: { depths: [8, 16], components: 4 },
};

/** The bytes begin with the signature. */
export function readPng(bytes: Uint8Array): BitmapFacts | { readonly fault: Fault } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let head: BitmapFacts | undefined;
  let palette = false;
  let wantsPalette = false;
  let data = false;
  for (let at = 8; at + 12 <= bytes.length; ) {
    const length = view.getUint32(at);
    const name = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    // 5.3: a part is named by four letters. Where something else stands, a length before it is wrong.
    if (!/^[A-Za-z]{4}$/.test(name)) return fault(`It is damaged: after ${at} bytes there is no part where one should begin.`);
    if (at + 12 + length > bytes.length) return CUT;
    if (crc(bytes, at + 4, at + 8 + length) !== view.getUint32(at + 8 + length))
      return fault(`It is damaged: the check sum of its part ${name} does not fit what stands there.`);
    if (head === undefined) {
      if (name !== 'IHDR' || length !== 13) return fault('It is damaged: its first part does not say how large it is.');
      const read = readHead(view, at + 8);
      if ('fault' in read) return read;
      head = read;
      wantsPalette = bytes[at + 17] === 3;
    } else if (name === 'PLTE') palette = true;
    else if (name === 'IDAT') {
      if (wantsPalette && !palette) return fault('It is damaged: the list of its colours is missing.');
      // RFC 1950, 2.2: deflate is method 8, and the two bytes together a multiple of 31.
      if (!data && length >= 2 && ((view.getUint8(at + 8) & 15) !== 8 || view.getUint16(at + 8) % 31 !== 0))
        return fault('It is damaged: its dots are packed in a way that no PNG is.');
      data = true;
    } else if (name === 'IEND') return data ? head : fault('It holds no dots.');
    at += 12 + length;
  }
  return CUT;
}

function readHead(view: DataView, at: number): BitmapFacts | { readonly fault: Fault } {
  const [columns, rows] = [view.getUint32(at), view.getUint32(at + 4)];
  if (columns === 0 || rows === 0) return fault('It says that it is no dot wide or high.');
  const [depth, colour, packing, filter, order] = [0, 1, 2, 3, 4].map((part) => view.getUint8(at + 8 + part)) as [
    number,
    number,
    number,
    number,
    number,
  ];
  const known = COLOURS[colour];
  if (known === undefined || !known.depths.includes(depth) || packing !== 0 || filter !== 0 || order > 1)
    return fault('It is of a kind that no PNG is.');
  return { columns, rows, components: known.components };
}

/** Annex D: the check sum of a part, over its name and what it holds. */
function crc(bytes: Uint8Array, from: number, to: number): number {
  let sum = 0xffffffff;
  for (let at = from; at < to; at += 1) sum = (TABLE[(sum ^ (bytes[at] as number)) & 255] as number) ^ (sum >>> 8);
  return (sum ^ 0xffffffff) >>> 0;
}

const TABLE: Uint32Array = Uint32Array.from({ length: 256 }, (_, index) => {
  let value = index;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value >>> 0;
});
