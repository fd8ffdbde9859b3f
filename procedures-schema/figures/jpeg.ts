/** JPEG (ITU-T T.81) as far as it says that it is whole: its segments in order, a frame that a PDF may hold, an end. Unpacks nothing. */
import type { BitmapFacts } from './bitmap.ts';
import type { Fault } from './model.ts';

const SAVED = 'The picture copied here again, or saved anew as JPEG.';
const PLAIN = 'The picture saved as plain (baseline or progressive) JPEG, eight bits a colour, or as PNG.';
const fault = (says: string, right = SAVED): { readonly fault: Fault } => ({ fault: { says, right } });
const CUT = fault('It is cut off: the file ends before the picture does.');

/** Table B.1: markers that stand alone, without a length. */
const alone = (marker: number): boolean => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8);
/** Start of a frame: SOF0 to SOF15 without DHT, JPG and DAC. */
const frame = (marker: number): boolean => marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

/** The bytes begin with the start of an image. */
export function readJpeg(bytes: Uint8Array): BitmapFacts | { readonly fault: Fault } {
  const word = (at: number): number => ((bytes[at] ?? 0) << 8) | (bytes[at + 1] ?? 0);
  let head: BitmapFacts | undefined;
  let scans = 0;
  let at = 2;
  while (at + 1 < bytes.length) {
    if (bytes[at] !== 0xff) return fault(`It is damaged: after ${at} bytes there is no part where one should begin.`);
    const marker = bytes[at + 1] as number;
    if (marker === 0xd9) return head !== undefined && scans > 0 ? head : fault('It holds no dots.');
    if (marker === 0xff || alone(marker)) {
      at += marker === 0xff ? 1 : 2;
      continue;
    }
    const length = word(at + 2);
    if (at + 2 + length > bytes.length) return CUT;
    if (length < 2 || marker === 0) return fault(`It is damaged: the part that begins after ${at} bytes says that it has no length.`);
    if (frame(marker)) {
      // PDF (ISO 32000-1) 7.4.8: the filter takes baseline and progressive frames.
      if (marker > 0xc2) return fault('It is of a kind of JPEG that a PDF cannot hold.', PLAIN);
      if (bytes[at + 4] !== 8) return fault(`It has ${bytes[at + 4]} bits a colour; a PDF can hold eight.`, PLAIN);
      head = { rows: word(at + 5), columns: word(at + 7), components: bytes[at + 9] ?? 0 };
      if (head.columns === 0 || head.rows === 0) return fault('It does not say how large it is.');
      if (![1, 3, 4].includes(head.components))
        return fault(`It has ${head.components} colours; a PDF can hold one, three or four.`, PLAIN);
    }
    at += 2 + length;
    if (marker !== 0xda) continue;
    if (head === undefined) return fault('It is damaged: its dots come before it says how large it is.');
    scans += 1;
    at = endOfScan(bytes, at);
  }
  return CUT;
}

/** B.1.1.5: within a scan FF is followed by 0, or by the mark of a restart; anything else begins the next part. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(0xff, from); at !== -1; at = bytes.indexOf(0xff, at + 1)) {
    const next = bytes[at + 1];
    if (next !== undefined && next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
  return bytes.length;
}
