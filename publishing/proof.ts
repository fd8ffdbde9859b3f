/**
 * A book that is being worked on, page by page: each new state is laid out from what the last one left, and only pages that came out otherwise are
 * drawn and written. The page number kept for a reference never narrows while the proof lives; a file to hand out is printed afresh (print.ts).
 */
import type { Book } from './book.ts';
import { type DrawnBook, type DrawnPage, drawBook, type FontFiles, layoutBook, MeasuredMemory, newFontSource } from './layout/index.ts';
import { contentBytes, FontCodes } from './pdf/index.ts';

export interface ProofState {
  readonly drawn: DrawnBook;
  /** Pages that are new or not as they were, from nought, with the bytes of their content stream. */
  readonly changed: readonly { readonly page: number; readonly bytes: Uint8Array }[];
}

/** Pages with text keep their object while nothing on them changes; blank ones are drawn anew each time, and are short. */
const isSame = (page: DrawnPage, before: DrawnPage | undefined): boolean =>
  page === before || (before !== undefined && page.ops.length < 40 && JSON.stringify(page) === JSON.stringify(before));

/** Takes one state after the other. */
export function newProof(fonts: FontFiles): (book: Book) => ProofState {
  const source = newFontSource(fonts);
  const memory = new MeasuredMemory();
  let before: readonly DrawnPage[] = [];
  const codes = new FontCodes();
  return (book) => {
    const drawn = drawBook(layoutBook(book, source.shaper, memory));
    const changed = drawn.pages.flatMap((page, index) =>
      isSame(page, before[index]) ? [] : [{ page: index, bytes: contentBytes(page, codes) }],
    );
    before = drawn.pages;
    return { drawn, changed };
  };
}
