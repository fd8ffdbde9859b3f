/** Lines left alone: of a paragraph of four lines or more no single line stands at the foot of a page or at the head of the next, where there is another way. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Book, BookBlock } from '../../publishing/book.ts';
import { guideBook } from '../../publishing/index.ts';
import { layoutBook, newFontSource, type PlacedBook, type Shaper } from '../../publishing/layout/index.ts';
import { randomBook } from '../support/random-book.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
let shaper: Shaper;
beforeAll(async () => {
  it = await sample();
  shaper = newFontSource(it.fonts).shaper;
});

/** Lines of each paragraph on each page it stands on; by its element. */
function parted(placed: PlacedBook): { readonly whole: number; readonly alone: readonly string[] } {
  const found = new Map<number, { readonly pages: Map<number, number>; text: string }>();
  placed.pages.forEach(({ slabs }, page) => {
    for (const { slab } of slabs) {
      if (slab.of !== 'text') continue;
      const nodes = new Set<number>();
      let text = '';
      for (const item of slab.items)
        if (item.kind === 'line')
          for (const part of item.line.parts) {
            if (part.node >= 0) nodes.add(part.node);
            if (part.kind !== 'page') text += part.shaped.map((one) => one.text).join('');
          }
      for (const node of nodes) {
        const one = found.get(node) ?? { pages: new Map(), text };
        one.pages.set(page, (one.pages.get(page) ?? 0) + 1);
        found.set(node, one);
      }
    }
  });
  const alone: string[] = [];
  let whole = 0;
  for (const { pages, text } of found.values()) {
    const counts = [...pages.values()];
    const lines = counts.reduce((sum, count) => sum + count, 0);
    if (counts.length < 2 || lines < 4) continue;
    whole += 1;
    if (counts.some((count) => count < 2)) alone.push(`${counts.join(' + ')}: ${text.slice(0, 60)}`);
  }
  return { whole, alone };
}

describe('no line is left alone', () => {
  test('in the sample guides', () => {
    for (const guide of it.report.facts.guides)
      expect(parted(layoutBook(guideBook(guide, it.input), shaper)).alone, guide.head.id).toEqual([]);
  });

  test('in pages of nothing but paragraphs, whatever their length', () => {
    let whole = 0;
    for (let seed = 1; seed <= 40; seed += 1) {
      const { book } = randomBook(seed, 1);
      const lengths = Array.from({ length: 30 }, (_, index) => 4 + ((seed * 7 + index * 13) % 9));
      const blocks = lengths.map(
        (lines, index): BookBlock => ({
          kind: 'paragraph',
          inline: [{ kind: 'text', text: `${index} ${'Hold the platform and look at the hose. '.repeat(lines * 2)}` }],
        }),
      );
      const [chapter] = book.chapters;
      const made: Book = { ...book, paper: 'a4', chapters: chapter ? [{ ...chapter, blocks }] : [] };
      const found = parted(layoutBook(made, shaper));
      expect(found.alone, `seed ${seed}`).toEqual([]);
      whole += found.whole;
    }
    // Paragraphs were parted, and none so.
    expect(whole).toBeGreaterThan(20);
  });
});
