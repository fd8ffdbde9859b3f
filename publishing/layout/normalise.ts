/** First stage: a book with every anchor given, heading levels in order and the contents listed. Leaves all measures to measure.ts. */
import type { Book, BookBlock, Chapter, Flow } from '../book.ts';

export interface ContentsEntry {
  readonly level: 1 | 2 | 3;
  readonly text: string;
  readonly number?: string;
  readonly anchor: string;
  /** A part of the guide: procedures follow. */
  readonly part?: true;
}

export interface NormalChapter extends Chapter {
  readonly anchor: string;
  /** False where the blocks open with their own heading of the same words. */
  readonly opener: boolean;
}

export interface NormalBook {
  readonly book: Book;
  readonly chapters: readonly NormalChapter[];
  readonly contents: readonly ContentsEntry[];
}

export function normalise(book: Book): NormalBook {
  let made = 0;
  const contents: ContentsEntry[] = [];
  const chapters = book.chapters.map((chapter): NormalChapter => {
    const anchor = chapter.anchor ?? `chapter-${++made}`;
    const first = chapter.blocks[0];
    const opener = !(first?.kind === 'heading' && first.level === 1 && first.text === chapter.title);
    if (!chapter.unlisted)
      contents.push({
        level: 1,
        text: chapter.title,
        anchor,
        ...(chapter.number ? { number: chapter.number } : {}),
        ...(chapter.tab !== undefined && chapter.number === undefined ? { part: true } : {}),
      });
    // The opener is level 1, so nothing inside may be; and no level is skipped on the way down.
    let last = 1;
    const fix = (blocks: Flow): Flow =>
      blocks.map((block): BookBlock => {
        if (block.kind === 'heading') {
          const isOpener = !opener && block === first;
          const level = isOpener ? 1 : (Math.min(Math.max(2, block.level), last + 1, 4) as 2 | 3 | 4);
          last = level;
          const given = isOpener ? anchor : (block.anchor ?? `heading-${++made}`);
          if (!isOpener && block.bookmark && level <= 3 && !chapter.unlisted) {
            contents.push({ level: level as 2 | 3, text: block.text, anchor: given, ...(block.number ? { number: block.number } : {}) });
          }
          return { ...block, level, anchor: given };
        }
        return block;
      });
    return { ...chapter, anchor, opener, blocks: fix(chapter.blocks) };
  });
  return { book, chapters, contents };
}
