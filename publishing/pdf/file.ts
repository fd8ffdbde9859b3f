/**
 * A PDF file as it is being written: header, streams as they come, small objects packed by the hundred into object streams, cross-reference stream
 * (ISO 32000-1, 7.5). Knows no content. Objects by the ten thousand (structure, links, pages) are written as bytes at once; a tree of library objects
 * for each would cost more than all the rest.
 */
import { PDFContext, PDFHexString, type PDFObject, PDFRawStream, type PDFRef } from 'pdf-lib';
import { Bytes } from './bytes.ts';
import { deflated } from './deflated.ts';

/** Objects in one object stream: few enough that a reader opens a page without unpacking the book. */
const mostPacked = 200;

/** Where an object is found, one row each: 1 and its offset, or 2, its object stream and its place in it. */
class Places {
  private rows = new Uint32Array(3 * 1024);

  set(number: number, kind: 1 | 2, major: number, minor: number): void {
    if (3 * number + 2 >= this.rows.length) {
      const grown = new Uint32Array(Math.max(this.rows.length * 2, 3 * number + 3));
      grown.set(this.rows);
      this.rows = grown;
    }
    this.rows[3 * number] = kind;
    this.rows[3 * number + 1] = major;
    this.rows[3 * number + 2] = minor;
  }

  /** Rows of one, four and one byte; what was never written is free. */
  table(last: number): Uint8Array {
    const { rows } = this;
    const out = new Uint8Array((last + 1) * 6);
    for (let number = 0, at = 0; number <= last; number += 1, at += 6) {
      const major = rows[3 * number + 1] ?? 0;
      out[at] = rows[3 * number] ?? 0;
      out[at + 1] = major >>> 24;
      out[at + 2] = (major >>> 16) & 255;
      out[at + 3] = (major >>> 8) & 255;
      out[at + 4] = major & 255;
      out[at + 5] = out[at] === 0 ? 255 : (rows[3 * number + 2] ?? 0);
    }
    return out;
  }
}

export class PdfFile {
  /** For the few objects that are easier made with the library; they are written last. */
  readonly context = PDFContext.create();
  private readonly chunks: Uint8Array[] = [];
  private length = 0;
  private readonly places = new Places();
  private readonly table = new Bytes(4096);
  private readonly body = new Bytes(1 << 15);
  private numbers: number[] = [];

  constructor() {
    // Bytes above 127 in the second line tell programs that move files that this one is not text.
    this.push(Uint8Array.of(0x25, 0x50, 0x44, 0x46, 0x2d, 0x31, 0x2e, 0x37, 10, 0x25, 0x81, 0x81, 0x81, 0x81, 10));
  }

  /** Numbers of so many objects to come; the first of them. */
  reserve(count: number): number {
    const first = this.context.largestObjectNumber + 1;
    this.context.largestObjectNumber += count;
    return first;
  }

  /** Give one whole object, not a stream, to what this returns before the next call. */
  begin(number: number): Bytes {
    if (this.numbers.length === mostPacked) this.flush();
    if (this.numbers.length > 0) this.body.byte(10);
    this.table.whole(number);
    this.table.byte(32);
    this.table.whole(this.body.length);
    this.table.byte(32);
    this.numbers.push(number);
    return this.body;
  }

  /** `bytes` are packed already and kept as they are; `facts` are the entries of the stream's dictionary but for filter and length. */
  stream(number: number, facts: string, bytes: Uint8Array): void {
    this.open(number);
    this.text(`<<${facts}/Filter/FlateDecode/Length ${bytes.length}>>\nstream\n`);
    this.push(bytes);
    this.text('\nendstream\nendobj\n');
  }

  /** Writes what was made with the library, and the end; nothing comes after. */
  finish(root: PDFRef, info: PDFRef, id: string): Uint8Array {
    const objects = [...this.context.enumerateIndirectObjects()].sort(([a], [b]) => a.objectNumber - b.objectNumber);
    for (const [ref, object] of objects) {
      const bytes = bytesOf(object);
      if (object instanceof PDFRawStream) {
        this.open(ref.objectNumber);
        this.push(bytes);
        this.text('\nendobj\n');
      } else this.begin(ref.objectNumber).all(bytes);
    }
    this.flush();
    const number = this.reserve(1);
    const table = this.length;
    this.places.set(number, 1, table, 0);
    const refs = `/Root ${root.toString()}/Info ${info.toString()}/ID[${PDFHexString.of(id)}${PDFHexString.of(id)}]`;
    this.stream(number, `/Type/XRef/Size ${number + 1}/W[1 4 1]${refs}`, deflated(this.places.table(number)));
    this.text(`startxref\n${table}\n%%EOF\n`);
    const out = new Uint8Array(this.length);
    let at = 0;
    for (const chunk of this.chunks) {
      out.set(chunk, at);
      at += chunk.length;
    }
    return out;
  }

  private flush(): void {
    if (this.numbers.length === 0) return;
    const number = this.reserve(1);
    this.numbers.forEach((one, index) => {
      this.places.set(one, 2, number, index);
    });
    const first = this.table.length;
    this.table.all(this.body.view());
    this.stream(number, `/Type/ObjStm/N ${this.numbers.length}/First ${first}`, deflated(this.table.view()));
    this.numbers = [];
    this.table.clear();
    this.body.clear();
  }

  private open(number: number): void {
    this.places.set(number, 1, this.length, 0);
    this.text(`${number} 0 obj\n`);
  }

  private text(ascii: string): void {
    const bytes = new Uint8Array(ascii.length);
    for (let k = 0; k < ascii.length; k += 1) bytes[k] = ascii.charCodeAt(k);
    this.push(bytes);
  }

  private push(bytes: Uint8Array): void {
    this.chunks.push(bytes);
    this.length += bytes.length;
  }
}

function bytesOf(object: PDFObject): Uint8Array {
  const bytes = new Uint8Array(object.sizeInBytes());
  object.copyBytesInto(bytes, 0);
  return bytes;
}
