/** A book to the bytes of its PDF: lay out, draw, write. */
import type { Book } from './book.ts';
import type { PrintChoice } from './compose/index.ts';
import { type Choice, duplexTest, impose } from './imposition/index.ts';
import { drawBook, drawingOf, type FontFiles, type LayoutNote, layoutBook, newFontSource } from './layout/index.ts';
import { leafNotes } from './leaf-notes.ts';
import { type PdfExtras, writePdf, writeSheets } from './pdf/index.ts';
import { printedWords } from './printed-words/index.ts';

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
  const drawing = drawingOf(placed);
  const bytes = writePdf(drawing, book, source, extras);
  const pageOf = new Map([...placed.anchors].map(([anchor, page]) => [anchor, page + 1]));
  return { bytes, pages: drawing.count, notes: [...drawing.notes(), ...leafNotes(placed, source.shaper)], pageOf };
}

export interface PressChoice extends Choice {
  /** A sheet to try the printer with comes first. */
  readonly test?: boolean;
}

/** A booklet is folded at the left and printed on both sides, whatever its pages would be as single leaves. */
export function foldedChoice(choice: PrintChoice, press: PressChoice | undefined): PrintChoice {
  return press?.kind === 'booklet' ? { ...choice, binding: 'left', duplex: true } : choice;
}

/** The same pages on sheets for folding or cutting. `pages` counts the pages of the book, `sides` what the printer prints. */
export function printSheets(
  book: Book,
  fonts: FontFiles,
  choice: PressChoice,
  written?: PdfExtras['written'],
): Printed & { readonly sides: number } {
  const source = newFontSource(fonts);
  const placed = layoutBook(book, source.shaper);
  const drawn = drawBook(placed);
  const sheets = impose(drawn.pages, choice);
  const before = choice.test ? duplexTest(choice.sheet, source.shaper, printedWords(book.language).duplex) : [];
  return {
    bytes: writeSheets(drawn, sheets, before, book, source, written),
    pages: drawn.pages.length,
    sides: sheets.length + before.length,
    notes: [...drawn.notes, ...leafNotes(placed, source.shaper, choice.kind === 'booklet')],
    pageOf: new Map(),
  };
}
