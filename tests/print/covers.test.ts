/** Front and back cover on every paper, in every type: one page each, its last words at the foot. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Book } from '../../publishing/book.ts';
import { guideBook } from '../../publishing/index.ts';
import { layoutBook, newFontSource, type PlacedPage } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
beforeAll(async () => {
  it = await sample();
});

const papers: readonly (readonly [string, Book['paper'], boolean])[] = [
  ['A4', 'a4', false],
  ['Letter', 'letter', false],
  ['A5', 'a5', false],
  ['A4, large type', 'a4', true],
  ['A5, large type', 'a5', true],
];

const foot = ({ slabs }: PlacedPage): number => {
  const last = slabs.at(-1);
  return last === undefined ? 0 : last.y + last.slab.height;
};

describe('covers', () => {
  test.each(papers)('%s: one page each, filled to its foot and not beyond', (_name, paper, large) => {
    const { shaper } = newFontSource(it.fonts);
    const guide = it.report.facts.guides.find(({ head }) => head.id === 'OM-8020') as Parameters<typeof guideBook>[0];
    const { pages } = layoutBook({ ...guideBook(guide, it.input, { paper, large }), chapters: [] }, shaper);
    const covers = pages.filter(({ blank }) => !blank);
    expect(covers).toHaveLength(2);
    for (const page of covers) {
      expect(foot(page)).toBeLessThanOrEqual(page.geometry.body.height);
      expect(foot(page)).toBeGreaterThan(page.geometry.body.height * 0.98);
    }
  });
});
