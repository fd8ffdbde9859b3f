/** Objects to the bytes of a file: header, objects in order of number, cross-reference table, trailer (ISO 32000-1, 7.5). Knows no content. */
import { type PDFContext, type PDFDict, PDFHeader, type PDFObject, type PDFRef } from 'pdf-lib';

const ascii = (text: string): Uint8Array => Uint8Array.from(text, (character) => character.charCodeAt(0));

function bytesOf(object: PDFObject): Uint8Array {
  const bytes = new Uint8Array(object.sizeInBytes());
  object.copyBytesInto(bytes, 0);
  return bytes;
}

/** Written at once and in order: the library's own writer yields to timers between objects, which a pure function may not. */
export function serialise(context: PDFContext, root: PDFRef, info: PDFRef, trailerId: string): Uint8Array {
  const header = PDFHeader.forVersion(1, 7);
  const head = new Uint8Array(header.sizeInBytes() + 1);
  header.copyBytesInto(head, 0);
  head[head.length - 1] = 10;
  const chunks: Uint8Array[] = [head];
  let at = head.length;
  const push = (bytes: Uint8Array): void => {
    chunks.push(bytes);
    at += bytes.length;
  };
  const objects = [...context.enumerateIndirectObjects()].sort(([a], [b]) => a.objectNumber - b.objectNumber);
  const offsets = new Map<number, number>();
  let largest = 0;
  for (const [ref, object] of objects) {
    offsets.set(ref.objectNumber, at);
    largest = Math.max(largest, ref.objectNumber);
    push(ascii(`${ref.objectNumber} 0 obj\n`));
    push(bytesOf(object));
    push(ascii('\nendobj\n'));
  }
  const table = at;
  const rows = ['0000000000 65535 f \n'];
  for (let number = 1; number <= largest; number += 1) {
    const offset = offsets.get(number);
    rows.push(offset === undefined ? '0000000000 00000 f \n' : `${String(offset).padStart(10, '0')} 00000 n \n`);
  }
  push(ascii(`xref\n0 ${largest + 1}\n${rows.join('')}`));
  const trailer = context.obj({}) as PDFDict;
  trailer.set(context.obj('Size') as never, context.obj(largest + 1));
  trailer.set(context.obj('Root') as never, root);
  trailer.set(context.obj('Info') as never, info);
  push(ascii('trailer\n'));
  const dictionary = new TextDecoder().decode(bytesOf(trailer)).replace(/>>\s*$/, `/ID [<${trailerId}> <${trailerId}>]\n>>`);
  push(ascii(`${dictionary}\nstartxref\n${table}\n%%EOF\n`));
  const out = new Uint8Array(at);
  let offset = 0;
  for (const chunk of chunks) {
    out.set(chunk, offset);
    offset += chunk.length;
  }
  return out;
}
