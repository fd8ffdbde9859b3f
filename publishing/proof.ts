/**
 * A book that is being worked on, page by page, as the bytes of each page: only pages that came out otherwise than in the last state are written
 * (draw-pages.ts lays them out). A file to hand out is printed afresh (print.ts).
 */
import type { Book } from './book.ts';
import { newPages } from './draw-pages.ts';
import type { DrawnBook, DrawnPage, FontFiles } from './layout/index.ts';
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
  const pages = newPages(fonts);
  // A glyph keeps its code while the proof lives: a new letter leaves the other pages as they are.
  const codes = new FontCodes();
  let before: readonly DrawnPage[] = [];
  return (book) => {
    const drawn = pages(book);
    const changed = drawn.pages.flatMap((page, index) =>
      isSame(page, before[index]) ? [] : [{ page: index, bytes: contentBytes(page, codes) }],
    );
    before = drawn.pages;
    return { drawn, changed };
  };
}
