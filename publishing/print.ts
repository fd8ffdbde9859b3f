/** A book to the bytes of its PDF: lay out, draw, write. */
import type { Book } from './book.ts';
import { drawBook, type FontFiles, type LayoutNote, layoutBook, newFontSource } from './layout/index.ts';
import { type PdfExtras, writePdf } from './pdf/index.ts';

export interface Printed {
  readonly bytes: Uint8Array;
  readonly pages: number;
  /** What could not be laid out as asked. */
  readonly notes: readonly LayoutNote[];
  /** Page, counted from one, of each place that can be linked to. */
  readonly pageOf: ReadonlyMap<string, number>;
}

export function printBook(book: Book, fonts: FontFiles, extras: PdfExtras = {}): Printed {
  const source = newFontSource(fonts);
  const placed = layoutBook(book, source.shaper);
  const drawn = drawBook(placed);
  const pageOf = new Map([...placed.anchors].map(([anchor, page]) => [anchor, page + 1]));
  return { bytes: writePdf(drawn, book, source, extras), pages: drawn.pages.length, notes: drawn.notes, pageOf };
}
