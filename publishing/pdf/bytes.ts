/** Bytes being written: a buffer that grows, and the few forms a page description is made of. Plain ASCII only: one character is one byte. */

export class Bytes {
  private buffer: Uint8Array;
  /** Bytes written so far. */
  length = 0;

  constructor(capacity = 1 << 14) {
    this.buffer = new Uint8Array(capacity);
  }

  /** To write the next thing into the same buffer. */
  clear(): void {
    this.length = 0;
  }

  /** What was written; holds until the next writing. */
  view(): Uint8Array {
    return this.buffer.subarray(0, this.length);
  }

  text(ascii: string): void {
    const count = ascii.length;
    if (this.length + count > this.buffer.length) this.grow(count);
    const { buffer } = this;
    let at = this.length;
    for (let k = 0; k < count; k += 1) buffer[at++] = ascii.charCodeAt(k);
    this.length = at;
  }

  all(bytes: Uint8Array): void {
    const count = bytes.length;
    if (this.length + count > this.buffer.length) this.grow(count);
    if (count > 64) this.buffer.set(bytes, this.length);
    else {
      // A call into the engine costs more than a few steps here.
      const { buffer } = this;
      const at = this.length;
      for (let k = 0; k < count; k += 1) buffer[at + k] = bytes[k] as number;
    }
    this.length += count;
  }

  byte(value: number): void {
    if (this.length === this.buffer.length) this.grow(1);
    this.buffer[this.length++] = value;
  }

  /** A whole number, not below nought. */
  whole(value: number): void {
    if (this.length + 16 > this.buffer.length) this.grow(16);
    this.digits(value);
  }

  /** Millipoints as points: 12345 is "12.345" (numbers.ts says the same as text). */
  points(value: number): void {
    if (this.length + 24 > this.buffer.length) this.grow(24);
    let whole = Math.round(value);
    if (whole < 0) {
      this.buffer[this.length++] = 45;
      whole = -whole;
    }
    const head = Math.floor(whole / 1000);
    const rest = whole - head * 1000;
    this.digits(head);
    if (rest === 0) return;
    const { buffer } = this;
    const tenths = (rest / 100) | 0;
    const hundredths = ((rest / 10) | 0) % 10;
    const thousandths = rest % 10;
    let at = this.length;
    buffer[at++] = 46;
    buffer[at++] = 48 + tenths;
    if (hundredths !== 0 || thousandths !== 0) buffer[at++] = 48 + hundredths;
    if (thousandths !== 0) buffer[at++] = 48 + thousandths;
    this.length = at;
  }

  private digits(value: number): void {
    let count = 1;
    for (let bound = 10; value >= bound; bound *= 10) count += 1;
    const { buffer } = this;
    let rest = value;
    for (let at = this.length + count - 1; at >= this.length; at -= 1) {
      const next = Math.floor(rest / 10);
      buffer[at] = 48 + rest - next * 10;
      rest = next;
    }
    this.length += count;
  }

  private grow(by: number): void {
    const grown = new Uint8Array(Math.max(this.buffer.length * 2, this.length + by));
    grown.set(this.buffer);
    this.buffer = grown;
  }
}
