/**
 * The number printed on each page: front matter in small roman numerals and the rest from one, or anew in each chapter of a short form.
 * Knows pages, not what stands on them.
 */
import type { Book } from '../book.ts';
import type { FilledPage } from './place.ts';

/** How a page is called, for a reader's page list. */
export interface PageLabel {
  readonly style: 'decimal' | 'roman' | 'none';
  readonly prefix: string;
  readonly count: number;
}

/** The number as it is printed, with the procedure it counts from where there are several counts; empty on a leaf's blank back. */
export const printedNumber = ({ style, prefix, count }: PageLabel): string =>
  style === 'none' ? '' : `${prefix}${style === 'roman' ? roman(count) : count}`;

export interface PageNumber {
  /** As printed and as named in references; empty on a leaf's blank back. */
  readonly shown: string;
  /** What it is out of. */
  readonly total: string;
  readonly label: PageLabel;
}

export function numberPages(pages: readonly FilledPage[], book: Book): readonly PageNumber[] {
  return book.short === undefined ? bound(pages) : leaves(pages);
}

/** Front matter ends where the first part or procedure begins; the blank pages before it belong to it. */
function bound(pages: readonly FilledPage[]): readonly PageNumber[] {
  const first = pages.findIndex(({ chapter }) => chapter?.tab !== undefined || chapter?.number !== undefined);
  const front = Math.max(0, first);
  const body = String(pages.length - front);
  return pages.map((_, index): PageNumber => {
    if (index < front) return { shown: roman(index + 1), total: roman(front), label: { style: 'roman', prefix: '', count: index + 1 } };
    const count = index - front + 1;
    return { shown: String(count), total: body, label: { style: 'decimal', prefix: '', count } };
  });
}

function leaves(pages: readonly FilledPage[]): readonly PageNumber[] {
  const lengths = new Map<FilledPage['chapter'], number>();
  const counts = pages.map(({ chapter }) => {
    if (chapter === undefined) return 0;
    const count = (lengths.get(chapter) ?? 0) + 1;
    lengths.set(chapter, count);
    return count;
  });
  return pages.map(({ chapter }, index): PageNumber => {
    if (chapter === undefined) return { shown: '', total: '', label: { style: 'none', prefix: '', count: 0 } };
    const count = counts[index] as number;
    const prefix = chapter.number === undefined ? '' : `${chapter.number} p. `;
    return { shown: String(count), total: String(lengths.get(chapter)), label: { style: 'decimal', prefix, count } };
  });
}

const numerals: readonly (readonly [number, string])[] = [
  [1000, 'm'],
  [900, 'cm'],
  [500, 'd'],
  [400, 'cd'],
  [100, 'c'],
  [90, 'xc'],
  [50, 'l'],
  [40, 'xl'],
  [10, 'x'],
  [9, 'ix'],
  [5, 'v'],
  [4, 'iv'],
  [1, 'i'],
];

export function roman(value: number): string {
  let rest = value;
  let out = '';
  for (const [worth, letters] of numerals)
    while (rest >= worth) {
      out += letters;
      rest -= worth;
    }
  return out;
}
