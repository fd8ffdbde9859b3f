/** The packed part of a JPEG bit by bit, up to the next marker (ITU-T T.81, F.2.2.5). Knows code words, not what they are for. */
import type { CodeTable } from './codes.ts';

export class Bits {
  /** Of the next byte to be taken; at the end, of the marker. */
  at: number;
  private readonly bytes: Uint8Array;
  private held = 0;
  private count = 0;
  /** Bits held that are not in the file: noughts after its end, so that nobody has to ask at every bit. */
  private made = 0;

  constructor(bytes: Uint8Array, at: number) {
    this.bytes = bytes;
    this.at = at;
  }

  /** More was taken than there is. */
  get past(): boolean {
    return this.count < this.made;
  }

  private fill(): void {
    const { bytes } = this;
    while (this.count <= 24) {
      let next = 0;
      if (this.made > 0 || this.at >= bytes.length) this.made += 8;
      else {
        next = bytes[this.at] as number;
        if (next !== 0xff) this.at += 1;
        else if (bytes[this.at + 1] === 0) this.at += 2;
        else {
          // FF may be said more than once before a marker.
          next = 0;
          this.made += 8;
        }
      }
      this.held = (this.held << 8) | next;
      this.count += 8;
    }
  }

  /** What the next word stands for; -1: there is no such word. */
  word({ short, last, shift, values }: CodeTable): number {
    if (this.count < 16) this.fill();
    const found = short[(this.held >>> (this.count - 8)) & 255] as number;
    if (found !== 0) {
      this.count -= found >> 8;
      return found & 255;
    }
    for (let length = 9; length <= 16; length += 1) {
      const code = (this.held >>> (this.count - length)) & ((1 << length) - 1);
      if (code > (last[length] as number)) continue;
      this.count -= length;
      return values[code + (shift[length] as number)] as number;
    }
    return -1;
  }

  /** The next bits as a number; 16 at the most. */
  take(size: number): number {
    if (size === 0) return 0;
    if (this.count < size) this.fill();
    this.count -= size;
    return (this.held >>> this.count) & ((1 << size) - 1);
  }

  /** Table F.1: a number of so many bits, the lower half of which are negative. */
  signed(size: number): number {
    if (size === 0) return 0;
    const taken = this.take(size);
    return taken < 1 << (size - 1) ? taken - (1 << size) + 1 : taken;
  }

  /**
   * Goes on to the marker. False: words are left over, so that some before them were read wrongly. What fills a byte is no word, nor are empty bytes,
   * which some cameras write.
   */
  toMarker(): boolean {
    const { bytes } = this;
    const left = this.count - this.made;
    // Of bytes held whole; the bits before them fill one up.
    for (let more = left - (left % 8); more >= 8; more -= 8) if (((this.held >>> (this.made + more - 8)) & 255) !== 0) return false;
    if (this.made === 0) {
      while (bytes[this.at] === 0) this.at += 1;
      const next = bytes[this.at + 1];
      if (this.at < bytes.length && (bytes[this.at] !== 0xff || next === 0)) return false;
    }
    while (bytes[this.at] === 0xff && bytes[this.at + 1] === 0xff) this.at += 1;
    [this.held, this.count, this.made] = [0, 0, 0];
    return true;
  }
}
