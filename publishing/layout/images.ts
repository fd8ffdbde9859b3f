/** Pictures of the book, each once: size of a PNG or JPEG from its own header. Leaves decoding to the writer. */
import type { Mp } from './units.ts';

export interface BitmapImage {
  readonly kind: 'png' | 'jpeg';
  readonly bytes: Uint8Array;
  readonly columns: number;
  readonly rows: number;
  /** Printed size at 96 dots an inch, the web's rule for pictures that say nothing. */
  readonly width: Mp;
  readonly height: Mp;
}

export class ImageStore {
  readonly images: BitmapImage[] = [];
  private readonly byBytes = new Map<Uint8Array, number>();

  /** Index of the picture; undefined when it is not a PNG or JPEG we can read. */
  add(kind: 'png' | 'jpeg', bytes: Uint8Array): number | undefined {
    const known = this.byBytes.get(bytes);
    if (known !== undefined) return known;
    const size = kind === 'png' ? pngSize(bytes) : jpegSize(bytes);
    if (size === undefined || size.columns === 0 || size.rows === 0) return undefined;
    this.images.push({ kind, bytes, ...size, width: size.columns * 750, height: size.rows * 750 });
    this.byBytes.set(bytes, this.images.length - 1);
    return this.images.length - 1;
  }
}

const word = (bytes: Uint8Array, at: number): number => ((bytes[at] ?? 0) << 8) | (bytes[at + 1] ?? 0);

/** PNG (ISO/IEC 15948) 11.2.2: IHDR is the first chunk. */
export function pngSize(bytes: Uint8Array): { columns: number; rows: number } | undefined {
  const magic = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
  if (bytes.length < 33 || !magic.every((value, index) => bytes[index] === value)) return undefined;
  return { columns: word(bytes, 16) * 65536 + word(bytes, 18), rows: word(bytes, 20) * 65536 + word(bytes, 22) };
}

/** JPEG (ITU-T T.81) B.2.2: the frame header, any SOF marker but DHT, JPG and DAC. */
export function jpegSize(bytes: Uint8Array): { columns: number; rows: number; components: number } | undefined {
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8) return undefined;
  let at = 2;
  while (at + 9 < bytes.length) {
    if (bytes[at] !== 0xff) return undefined;
    const marker = bytes[at + 1] as number;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc) {
      return { rows: word(bytes, at + 5), columns: word(bytes, at + 7), components: bytes[at + 9] as number };
    }
    at += 2 + word(bytes, at + 2);
  }
  return undefined;
}
