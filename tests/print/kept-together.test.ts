/** What a page may not part, on the sample guides and on made-up ones: a section's opening and its first step, a short list, a step and its figure, one row. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Book, BookBlock, Inline } from '../../publishing/book.ts';
import { guideBook, procedureBook } from '../../publishing/index.ts';
import { layoutBook, newFontSource, type PlacedBook, type Shaper } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
let shaper: Shaper;
let guides: readonly PlacedBook[];
beforeAll(async () => {
  it = await sample();
  shaper = newFontSource(it.fonts).shaper;
  guides = it.report.facts.guides.map((guide) => layoutBook(guideBook(guide, it.input), shaper));
});

type Slab = PlacedBook['pages'][number]['slabs'][number]['slab'];
const wordsOf = (slab: Slab): string =>
  slab.items
    .flatMap((item) => (item.kind === 'line' ? item.line.parts : []))
    .map((part) => (part.kind === 'page' ? '#' : part.shaped.map(({ text }) => text).join('')))
    .join('');

/** First and last slab of each page that is not the first or the last of its chapter, and what stands next to them. */
const turns = ({
  pages,
}: PlacedBook): readonly { readonly above: readonly Slab[]; readonly below: readonly Slab[]; readonly page: number }[] =>
  pages.flatMap((page, index) => {
    const next = pages[index + 1];
    if (next === undefined || next.chapter !== page.chapter || next.blank || page.blank || page.cover) return [];
    return [{ above: page.slabs.map(({ slab }) => slab), below: next.slabs.map(({ slab }) => slab), page: index + 1 }];
  });

describe('the sample guides', () => {
  test('no section ends a page with its heading, how it is come to, or the codes of its film', () => {
    let seen = 0;
    for (const guide of guides)
      for (const { above, page } of turns(guide)) {
        const last = above.at(-1) as Slab;
        expect(last.of, `page ${page}`).not.toBe('heading');
        expect(wordsOf(last), `page ${page}`).not.toMatch(/^Only when a step sends you here|^Film of this section/);
        expect(last.of === 'figure' && wordsOf(last) === '', `page ${page}`).toBe(false);
        seen += 1;
      }
    expect(seen).toBeGreaterThan(60);
  });

  /** The right-hand page is turned; what stands again at the head of the next is no step. */
  const turned = (guide: PlacedBook) =>
    turns(guide).flatMap(({ above, below, page }) => {
      const next = below.find(({ of }) => of !== 'recall');
      return page % 2 === 0 || next === undefined || next.of === 'heading' ? [] : [{ last: above.at(-1), next, page }];
    });
  const state = (slab: Slab | undefined): string | undefined => {
    const band = slab?.decor.find(({ kind }) => kind === 'band');
    return band?.kind === 'band' ? band.state : undefined;
  };

  test('no leaf is turned between what is cut off and what is proved dead', () => {
    let proofs = 0;
    for (const guide of guides) {
      for (const { slabs } of guide.pages) proofs += slabs.filter(({ slab }) => state(slab) === 'cut').length;
      for (const { last, next, page } of turned(guide)) expect(state(last) === 'cut' && state(next) === 'cut', `page ${page}`).toBe(false);
    }
    expect(proofs).toBeGreaterThan(80);
  });

  test('nor in large type on the smallest leaf, where a page holds a third of that', () => {
    let seen = 0;
    for (const guide of it.report.facts.guides) {
      const placed = layoutBook(guideBook(guide, it.input, { paper: 'a5', large: true }), shaper);
      for (const { last, next, page } of turned(placed)) {
        expect(state(last) === 'cut' && state(next) === 'cut', `${guide.head.id}, page ${page}`).toBe(false);
        seen += 1;
      }
    }
    expect(seen).toBeGreaterThan(40);
  });

  // EN 50110-1 (order from memory): earthed at once when it is tested dead. The hand that clamps the lead on trusts the reading above it.
  test('nor between the reading that proves a charge gone and the earth that keeps it so', () => {
    let earths = 0;
    for (const [paper, large] of [
      ['a4', false],
      ['letter', false],
      ['a5', false],
      ['a5', true],
    ] as const)
      for (const guide of it.report.facts.guides) {
        const placed = layoutBook(guideBook(guide, it.input, { paper, large }), shaper);
        const clamps = (slab: Slab): boolean => /^\d+Connect the earth lead/.test(wordsOf(slab));
        earths += placed.pages.flatMap(({ slabs }) => slabs.filter(({ slab }) => clamps(slab))).length;
        for (const { next, page } of turned(placed)) expect(clamps(next), `${guide.head.id} ${paper} ${large}, page ${page}`).toBe(false);
      }
    expect(earths).toBe(4);
  });

  test('no page ends with one step under the notice of its section, and what it warns of overleaf', () => {
    let notices = 0;
    for (const guide of guides) {
      for (const { slabs } of guide.pages) notices += slabs.filter(({ slab }) => slab.of === 'notice-panel').length;
      for (const { above, below, page } of turns(guide)) {
        // The notice of one step stands beside the band of that step.
        const notice = above.at(-2);
        const banded = (slab: Slab | undefined): boolean => slab?.decor.some(({ kind }) => kind === 'band') === true;
        if (notice?.of === 'notice' && !banded(notice)) expect(banded(below[0]), `page ${page}`).toBe(false);
      }
    }
    expect(notices).toBeGreaterThan(15);
  });

  test('a list of what is needed begins under the head of its procedure, not on the next page with a third of this one empty', () => {
    for (const guide of guides)
      guide.pages.forEach(({ slabs, geometry, chapter }, index) => {
        const next = guide.pages[index + 1];
        const first = next?.slabs[0]?.slab;
        if (next?.chapter !== chapter || first?.of !== 'heading' || wordsOf(first) !== 'What you need') return;
        const last = slabs.at(-1);
        expect(((last?.y ?? 0) + (last?.slab.height ?? 0)) / geometry.body.height, `page ${index + 1}`).toBeGreaterThan(0.75);
      });
  });

  test('in large type too the four proofs of one step are done without turning a leaf', () => {
    const facts = it.report.facts.procedures.find(({ head }) => head.id === 'OM-2120');
    if (facts === undefined) throw new Error('OM-2120 is gone');
    const placed = layoutBook(procedureBook(facts, it.input, { paper: 'a5', large: true }), shaper);
    const pages = placed.pages.flatMap(({ slabs }, page) => slabs.flatMap(({ slab }) => (/^13[a-d]/.test(wordsOf(slab)) ? [page] : [])));
    expect(pages.length).toBe(4);
    expect(new Set(pages).size).toBe(1);
  });

  test('no figure is parted from the words of its step', () => {
    for (const guide of guides)
      for (const { below, page } of turns(guide)) {
        const [first] = below as [Slab];
        // Beside the band a figure belongs to a step.
        if (first.of === 'figure')
          expect(
            first.decor.some(({ kind }) => kind === 'band'),
            `page ${page}`,
          ).toBe(false);
      }
  });
});

const text = (said: string): Inline[] => [{ kind: 'text', text: said }];
const paragraph = (said: string): BookBlock => ({ kind: 'paragraph', inline: text(said) });
/** Each of these lines of the page before is filled, so that a page ends inside what follows. */
const pagesOf = (filled: number, blocks: readonly BookBlock[]): PlacedBook => {
  const book: Book = {
    title: 'A guide',
    number: 'OM-1',
    publisher: 'Orrfen Machines',
    language: 'en',
    paper: 'a5',
    binding: 'left',
    duplex: false,
    draft: false,
    chapters: [
      { title: 'A chapter', startRight: false, blocks: [...Array.from({ length: filled }, (_, n) => paragraph(`Line ${n}.`)), ...blocks] },
    ],
  };
  return layoutBook(book, shaper);
};
/** On which page each of these words begins. */
const pageOf = ({ pages }: PlacedBook, begin: string): number =>
  pages.findIndex(({ slabs }) => slabs.some(({ slab }) => wordsOf(slab).replace(/^•/, '').startsWith(begin)));

describe('made up', () => {
  test('a list of two things is on one page, wherever the page ends', () => {
    const list: BookBlock = { kind: 'bullets', items: [[paragraph('it keeps still;')], [paragraph('it stops.')]] };
    const pages = Array.from({ length: 12 }, (_, n) => pagesOf(12 + n, [paragraph('It has two duties:'), list, paragraph('After.')]));
    for (const placed of pages) expect(pageOf(placed, 'it stops')).toBe(pageOf(placed, 'it keeps'));
    // On some the list goes over with its lead.
    expect(new Set(pages.map((placed) => pageOf(placed, 'It has two'))).size).toBe(2);
  });

  test('of a long table at least three rows stand on each page', () => {
    const rows = Array.from({ length: 10 }, (_, n) => [text(`tool ${n}`), text('1')]);
    const table: BookBlock = { kind: 'table', head: [text('Tools'), text('Quantity')], rows, align: ['left', 'left'], full: true };
    const counts = Array.from({ length: 12 }, (_, n) => {
      const { pages } = pagesOf(10 + n, [table]);
      return pages.map(({ slabs }) => slabs.filter(({ slab }) => wordsOf(slab).startsWith('tool ')).length).filter((count) => count > 0);
    });
    for (const own of counts) for (const count of own) expect(count).toBeGreaterThan(2);
    expect(counts.filter((own) => own.length > 1).length).toBeGreaterThan(3);
  });

  test('a paragraph of a few lines is moved whole', () => {
    const words = 'The lip is held out by oil shut in behind the piston. When the piston seal wears, oil passes it and the lip sinks. ';
    const pages = Array.from({ length: 12 }, (_, n) => pagesOf(12 + n, [paragraph(words.repeat(2)), paragraph('After.')]));
    for (const placed of pages) {
      const at = placed.pages.flatMap(({ slabs }, page) =>
        slabs.flatMap(({ slab }) => (/piston|oil|lip/.test(wordsOf(slab)) ? [page] : [])),
      );
      expect(at.length).toBeGreaterThan(3);
      expect(new Set(at).size).toBe(1);
    }
  });
});
