/** A book to pages that can be shown without writing a file: lay out and draw. Words shaped once stay shaped for the next drawing with these fonts. */
import type { Book } from './book.ts';
import { type DrawnBook, drawBook, type FontFiles, type FontSource, layoutBook, MeasuredMemory, newFontSource } from './layout/index.ts';
import { leafNotes } from './leaf-notes.ts';

/** Pure memory: the same fonts always give the same source. */
const sources = new WeakMap<FontFiles, FontSource>();

function sourceOf(fonts: FontFiles): FontSource {
  let source = sources.get(fonts);
  if (!source) {
    source = newFontSource(fonts);
    sources.set(fonts, source);
  }
  return source;
}

/** `folded`: they will be printed as a booklet. */
export function drawPages(book: Book, fonts: FontFiles, folded = false): DrawnBook {
  const { shaper } = sourceOf(fonts);
  const placed = layoutBook(book, shaper);
  const drawn = drawBook(placed);
  return { ...drawn, notes: [...drawn.notes, ...leafNotes(placed, shaper, folded)] };
}

/**
 * For a book that is being worked on: takes one state after the other, and each is laid out and drawn from what the last one left. A page that came
 * out as it was is the same object. The room kept for the page number of a reference never narrows while this lives.
 */
export function newPages(fonts: FontFiles): (book: Book) => DrawnBook {
  const { shaper } = sourceOf(fonts);
  const memory = new MeasuredMemory();
  return (book) => drawBook(layoutBook(book, shaper, memory));
}
