/** Packed streams as objects of the library. */
import { type PDFContext, type PDFDict, PDFRawStream } from 'pdf-lib';
import { deflated } from './deflated.ts';

export function stream(context: PDFContext, bytes: Uint8Array, facts: Readonly<Record<string, number | string>> = {}): PDFRawStream {
  const squeezed = deflated(bytes);
  return PDFRawStream.of(context.obj({ ...facts, Filter: 'FlateDecode', Length: squeezed.length }) as PDFDict, squeezed);
}
