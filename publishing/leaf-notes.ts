/** Says of paper checklists that take more than the one or two sheets they are meant for how many pages they take: here, on larger paper, and folded. Shortens nothing. */
import { PAPER_NAMES, sizeOfPaper } from '../procedures-schema/index.ts';
import type { Book } from './book.ts';
import { type LayoutNote, layoutBook, type PlacedBook, type Shaper } from './layout/index.ts';

/** Two sheets, printed on both sides. */
const most = 4;
/** Two sheets of twice the size, folded into one another. */
const mostFolded = 8;

/** `folded`: the pages are printed as a booklet, two on each side of a sheet. */
export function leafNotes({ book, pages }: Pick<PlacedBook, 'book' | 'pages'>, shaper: Shaper, folded = false): readonly LayoutNote[] {
  if (book.short === undefined) return [];
  if (folded && book.chapters.length === 1 && pages.length <= mostFolded) return [];
  return book.chapters.flatMap((chapter): LayoutNote[] => {
    const count = pages.filter((page) => page.chapter?.anchor !== undefined && page.chapter.anchor === chapter.anchor).length;
    if (count <= most) return [];
    const said = `The checklist of ${chapter.number ?? chapter.title} takes ${count} pages on ${nameOf(book.paper)}, more than two sheets.`;
    const larger = isSmaller(book.paper) ? layoutBook({ ...book, paper: 'a4', chapters: [chapter] }, shaper).pages.length : count;
    const ways = [
      ...(larger < count ? [`On A4 it takes ${larger}.`] : []),
      ...(isSmaller(book.paper) && count <= mostFolded ? ['Printed as a booklet it is two sheets, folded.'] : []),
    ];
    const message = [said, ...ways].join(' ');
    return [{ kind: 'many-leaves', message, ...(chapter.anchor === undefined ? {} : { anchor: chapter.anchor }) }];
  });
}

const isSmaller = (paper: Book['paper']): boolean => sizeOfPaper(paper).width < sizeOfPaper('a4').width;

const nameOf = (paper: Book['paper']): string =>
  (PAPER_NAMES as readonly string[]).includes(paper) && paper.length === 2 ? paper.toUpperCase() : paper;
