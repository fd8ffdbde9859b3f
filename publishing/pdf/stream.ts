/** Streams packed by our own deflate: the same bytes on every machine. */
import { type PDFContext, type PDFDict, PDFRawStream } from 'pdf-lib';
import { deflated } from './deflate.ts';

export function stream(context: PDFContext, bytes: Uint8Array, facts: Readonly<Record<string, number | string>> = {}): PDFRawStream {
  const squeezed = deflated(bytes);
  return PDFRawStream.of(context.obj({ ...facts, Filter: 'FlateDecode', Length: squeezed.length }) as PDFDict, squeezed);
}
