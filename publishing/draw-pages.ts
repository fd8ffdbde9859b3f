/** A book to pages that can be shown without writing a file: lay out and draw. Words shaped once stay shaped for the next drawing with these fonts. */
import type { Book } from './book.ts';
import { type DrawnBook, drawBook, type FontFiles, type FontSource, layoutBook, newFontSource } from './layout/index.ts';

/** Pure memory: the same fonts always give the same source. */
const sources = new WeakMap<FontFiles, FontSource>();

export function drawPages(book: Book, fonts: FontFiles): DrawnBook {
  let source = sources.get(fonts);
  if (!source) {
    source = newFontSource(fonts);
    sources.set(fonts, source);
  }
  return drawBook(layoutBook(book, source.shaper));
}
