/** A proof that lives with a book: after each edit its pages are those of a fresh layout, and only what came out otherwise is written. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Book, BookBlock } from '../../publishing/book.ts';
import { guideBook, newProof } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource, type Shaper } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
let book: Book;
let shaper: Shaper;
beforeAll(async () => {
  it = await sample();
  shaper = newFontSource(it.fonts).shaper;
  book = guideBook(it.report.facts.guides[0] as Parameters<typeof guideBook>[0], it.input);
});

/** The first plain step of the chapter with that number says something else. */
function edited(from: Book, number: string, words: string): Book {
  const blocks = (list: readonly BookBlock[]): BookBlock[] => {
    let done = false;
    return list.map((block) => {
      if (done || block.kind !== 'step') return block;
      done = true;
      return { ...block, body: [{ kind: 'paragraph', inline: [{ kind: 'text', text: words }] }, ...block.body.slice(1)] };
    });
  };
  return {
    ...from,
    chapters: from.chapters.map((chapter) => (chapter.number === number ? { ...chapter, blocks: blocks(chapter.blocks) } : chapter)),
  };
}

/** Words and places of all pages; which element a word belongs to is counted anew in each proof. */
const seen = (pages: readonly { readonly ops: readonly object[] }[]): string[] =>
  pages.map(({ ops }) => JSON.stringify(ops, (key, value) => (key === 'node' ? undefined : value)));

describe('a living proof', () => {
  test('one word changes one page, and the pages are those of a fresh layout', () => {
    const proof = newProof(it.fonts);
    const first = proof(book);
    expect(first.changed).toHaveLength(first.drawn.pages.length);
    expect(proof(book).changed).toEqual([]);
    for (const words of [
      'Tell the dock staff that it stops.',
      'Tell the dock staff that the machine is going out of service now.',
      'Tell the dock staff.',
    ]) {
      const state = edited(book, 'OM-3150', words);
      const { changed, drawn } = proof(state);
      const fresh = drawBook(layoutBook(state, shaper));
      expect(seen(drawn.pages)).toEqual(seen(fresh.pages));
      // The pages of its chapter at most, and never those of another.
      expect(changed.length).toBeGreaterThan(0);
      expect(changed.length).toBeLessThan(12);
      for (const { bytes } of changed) expect(bytes.length).toBeGreaterThan(100);
    }
  });

  test('an edit that makes a chapter longer moves the pages after it, and their numbers', () => {
    const proof = newProof(it.fonts);
    proof(book);
    const state = edited(book, 'OM-3140', 'Tell everybody near the dock what is going to be done and for how long it will be. '.repeat(40));
    expect(seen(proof(state).drawn.pages)).toEqual(seen(drawBook(layoutBook(state, shaper)).pages));
  });
});
