/**
 * Objects to the bytes of a file: header, streams, the other objects packed in object streams, cross-reference stream (ISO 32000-1, 7.5).
 * Knows no content.
 */
import { type PDFContext, type PDFDict, PDFHeader, PDFHexString, type PDFObject, type PDFRawStream, type PDFRef, PDFStream } from 'pdf-lib';
import { stream } from './fonts.ts';
import { Written } from './written.ts';

const encoder = new TextEncoder();
/** Plain ASCII only, so that one character is one byte. */
const ascii = (text: string): Uint8Array => encoder.encode(text);

function bytesOf(object: PDFObject): Uint8Array {
  if (object instanceof Written) return ascii(object.text);
  const bytes = new Uint8Array(object.sizeInBytes());
  object.copyBytesInto(bytes, 0);
  return bytes;
}

/** Where an object is found: at an offset, or at an index in an object stream. */
type Found = { readonly offset: number } | { readonly in: number; readonly index: number };

/** Objects in one object stream: few enough that a reader opens a page without unpacking the book. */
const packed = 200;

/** Written at once and in order: the library's own writer yields to timers between objects, which a pure function may not. */
export function serialise(context: PDFContext, root: PDFRef, info: PDFRef, id: string): Uint8Array {
  const header = PDFHeader.forVersion(1, 7);
  const head = new Uint8Array(header.sizeInBytes() + 1);
  header.copyBytesInto(head, 0);
  head[head.length - 1] = 10;
  const chunks: Uint8Array[] = [head];
  let at = head.length;
  const found = new Map<number, Found>();
  const push = (bytes: Uint8Array): void => {
    chunks.push(bytes);
    at += bytes.length;
  };
  const pushObject = (number: number, object: PDFObject): void => {
    found.set(number, { offset: at });
    push(ascii(`${number} 0 obj\n`));
    push(bytesOf(object));
    push(ascii('\nendobj\n'));
  };
  const objects = [...context.enumerateIndirectObjects()].sort(([a], [b]) => a.objectNumber - b.objectNumber);
  let next = objects.reduce((largest, [ref]) => Math.max(largest, ref.objectNumber), 0) + 1;
  const plain = objects.filter(([, object]) => !(object instanceof PDFStream));
  for (const [ref, object] of objects) if (object instanceof PDFStream) pushObject(ref.objectNumber, object);
  for (let from = 0; from < plain.length; from += packed) {
    const number = next;
    next += 1;
    pushObject(number, objectStream(plain.slice(from, from + packed), number, found, context));
  }
  const table = at;
  found.set(next, { offset: at });
  push(ascii(`${next} 0 obj\n`));
  push(bytesOf(crossReference(found, next, root, info, id, context)));
  push(ascii(`\nendobj\nstartxref\n${table}\n%%EOF\n`));
  return joined(chunks, at);
}

function objectStream(
  objects: readonly (readonly [PDFRef, PDFObject])[],
  number: number,
  found: Map<number, Found>,
  context: PDFContext,
): PDFRawStream {
  const bodies: Uint8Array[] = [];
  const places: string[] = [];
  let at = 0;
  objects.forEach(([ref, object], index) => {
    const bytes = bytesOf(object);
    places.push(`${ref.objectNumber} ${at}`);
    bodies.push(bytes, Uint8Array.of(10));
    at += bytes.length + 1;
    found.set(ref.objectNumber, { in: number, index });
  });
  const table = ascii(`${places.join(' ')}\n`);
  return stream(context, joined([table, ...bodies], table.length + at), { Type: 'ObjStm', N: objects.length, First: table.length });
}

/** One row an object: kind, four bytes of offset or stream, two bytes of index. */
function crossReference(
  found: ReadonlyMap<number, Found>,
  last: number,
  root: PDFRef,
  info: PDFRef,
  id: string,
  context: PDFContext,
): PDFRawStream {
  const width = 7;
  const rows = new Uint8Array((last + 1) * width);
  rows.fill(255, 5, 7);
  for (let number = 1; number <= last; number += 1) {
    const place = found.get(number);
    const row = number * width;
    if (place === undefined) continue;
    const [kind, major, minor] = 'offset' in place ? [1, place.offset, 0] : [2, place.in, place.index];
    rows.set([kind, major >>> 24, (major >>> 16) & 255, (major >>> 8) & 255, major & 255, minor >>> 8, minor & 255], row);
  }
  const made = stream(context, rows, { Type: 'XRef', Size: last + 1 });
  const dict: PDFDict = made.dict;
  const name = (text: string) => context.obj(text) as never;
  dict.set(name('W'), context.obj([1, 4, 2]));
  dict.set(name('Root'), root);
  dict.set(name('Info'), info);
  dict.set(name('ID'), context.obj([PDFHexString.of(id), PDFHexString.of(id)]));
  return made;
}

function joined(chunks: readonly Uint8Array[], length: number): Uint8Array {
  const out = new Uint8Array(length);
  let offset = 0;
  for (const chunk of chunks) {
    out.set(chunk, offset);
    offset += chunk.length;
  }
  return out;
}
