/** The number printed on each page: through the whole book, or anew in each chapter of a short form. Knows pages, not what stands on them. */
import type { Book } from '../book.ts';
import type { PlacedPage } from './place.ts';

export interface PageNumber {
  /** As printed and as named in references; empty on a leaf's blank back. */
  readonly shown: string;
  /** What it is out of. */
  readonly total: string;
}

export function numberPages(pages: readonly PlacedPage[], book: Book): readonly PageNumber[] {
  if (book.short === undefined) return pages.map((_, index) => ({ shown: String(index + 1), total: String(pages.length) }));
  const lengths = new Map<PlacedPage['chapter'], number>();
  const counts = pages.map(({ chapter }) => {
    if (chapter === undefined) return 0;
    const count = (lengths.get(chapter) ?? 0) + 1;
    lengths.set(chapter, count);
    return count;
  });
  return pages.map(({ chapter }, index) =>
    chapter === undefined ? { shown: '', total: '' } : { shown: String(counts[index]), total: String(lengths.get(chapter)) },
  );
}
