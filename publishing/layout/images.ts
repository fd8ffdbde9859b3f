/** Pictures of the book, each once, with the size they are printed at. What their bytes say is read by the core; leaves decoding to the writer. */
import { type Fault, readBitmap } from '../../procedures-schema/figures/index.ts';
import type { Mp } from './units.ts';

export interface BitmapImage {
  readonly kind: 'png' | 'jpeg';
  readonly bytes: Uint8Array;
  readonly columns: number;
  readonly rows: number;
  /** Values that stand for one dot. */
  readonly components: number;
  /** Printed size at 96 dots an inch, the web's rule for pictures that say nothing. */
  readonly width: Mp;
  readonly height: Mp;
}

export class ImageStore {
  readonly images: BitmapImage[] = [];
  private readonly byBytes = new Map<Uint8Array, number>();

  /** Index of the picture, or why it cannot be shown. */
  add(kind: 'png' | 'jpeg', bytes: Uint8Array): number | Fault {
    const known = this.byBytes.get(bytes);
    if (known !== undefined) return known;
    const read = readBitmap(kind, bytes);
    if ('fault' in read) return read.fault;
    const { columns, rows, components } = read;
    this.images.push({ kind, bytes, columns, rows, components, width: columns * 750, height: rows * 750 });
    this.byBytes.set(bytes, this.images.length - 1);
    return this.images.length - 1;
  }
}
