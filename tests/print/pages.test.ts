/** The sample guides as placed pages: notices with their step, heads above tables, right-hand starts, numbers in the contents. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { BookBlock } from '../../publishing/book.ts';
import { type Book, guideBook, procedureBook } from '../../publishing/index.ts';
import { layoutBook, newFontSource, type PlacedBook, type PlacedPage } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
const laid = new Map<string, PlacedBook>();
beforeAll(async () => {
  it = await sample();
  const { shaper } = newFontSource(it.fonts);
  for (const guide of it.report.facts.guides) laid.set(guide.head.id, layoutBook(guideBook(guide, it.input), shaper));
  for (const paper of ['letter', 'a4'] as const)
    for (const facts of it.report.facts.procedures.slice(0, 6))
      laid.set(`${facts.head.id} ${paper}`, layoutBook(procedureBook(facts, it.input, { paper }), shaper));
});

const wordsOf = (page: PlacedPage): string =>
  page.slabs
    .flatMap(({ slab }) => slab.items)
    .flatMap((item) => (item.kind === 'line' ? item.line.parts : []))
    .map((part) => (part.kind === 'page' ? '' : part.shaped.map((one) => one.text).join('')))
    .join('');

describe('placed pages of the sample library', () => {
  test('nothing was forced, missing or dead', () => {
    expect([...laid].flatMap(([name, book]) => book.notes.map((note) => `${name}: ${note.message}`))).toEqual([]);
  });

  test('no page ends with a notice: the step it guards follows on the same page', () => {
    let seen = 0;
    for (const { pages } of laid.values())
      for (const page of pages) {
        const last = page.slabs[page.slabs.length - 1]?.slab;
        if (page.slabs.some(({ slab }) => slab.of === 'notice')) seen += 1;
        // The key of the signal words is made of notices that guard nothing.
        if (page.chapter?.anchor === 'cautions') continue;
        expect(last?.of === 'notice' || last?.of === 'notice-panel', `${page.chapter?.title}, page ${pages.indexOf(page) + 1}`).toBe(false);
      }
    expect(seen).toBeGreaterThan(20);
  });

  test('no page ends with a heading or a table head', () => {
    for (const { pages } of laid.values())
      for (const page of pages) expect(['heading', 'table-head']).not.toContain(page.slabs[page.slabs.length - 1]?.slab.of);
  });

  test('chapters of a duplex guide start on right-hand pages', () => {
    for (const guide of it.report.facts.guides) {
      const { pages } = laid.get(guide.head.id) as PlacedBook;
      pages.forEach((page, index) => {
        if (page.chapter?.startRight && page.chapter !== pages[index - 1]?.chapter) expect(page.side).toBe('right');
      });
    }
  });

  test('the title of a part stands at the head of its first procedure, not alone on a leaf', () => {
    let parts = 0;
    for (const guide of it.report.facts.guides) {
      const { pages, anchors } = laid.get(guide.head.id) as PlacedBook;
      for (const { title } of guide.tree.parts) {
        const at = anchors.get(`part ${title}`) as number;
        const number = pages[at]?.chapter?.number ?? '';
        expect(number, title).toMatch(/^OM-/);
        expect(anchors.get(`doc ${number}`)).toBe(at);
        expect(pages[at - 1]?.chapter?.number).not.toBe(number);
        parts += 1;
      }
    }
    expect(parts).toBeGreaterThan(4);
  });

  test('an opener longer than a third of the page keeps a page of its own', () => {
    const line = (said: string): BookBlock => ({ kind: 'paragraph', inline: [{ kind: 'text', text: said }] });
    const opened = (lines: number): number[] => {
      const blocks = Array.from({ length: lines }, (_, k) => line(`Procedure ${k}`));
      const { anchors } = layoutBook(
        {
          ...(laid.get('OM-8010') as PlacedBook).book,
          chapters: [
            { title: 'Part', anchor: 'part', startRight: true, leadsIn: true, blocks },
            { title: 'First', anchor: 'first', number: 'OM-1', startRight: true, blocks: [line('Words.')] },
          ],
        },
        newFontSource(it.fonts).shaper,
      );
      return ['part', 'first'].map((anchor) => anchors.get(anchor) as number);
    };
    const [few, many] = [opened(4), opened(14)];
    expect(few[1]).toBe(few[0]);
    // On the next right-hand page.
    expect(many[1]).toBe((many[0] as number) + 2);
  });

  test('each procedure and section stands on the page its anchor says', () => {
    for (const book of laid.values())
      for (const entry of book.kit.contents) {
        const page = book.pages[book.anchors.get(entry.anchor) as number] as PlacedPage;
        expect(wordsOf(page).replace(/\s+/g, ' ')).toContain(entry.text.replace(/\s+/g, ' ').slice(0, 20));
      }
  });

  test('the bound edge is the wider one, on both sides of the sheet', () => {
    const { pages } = laid.get('OM-8010') as PlacedBook;
    for (const { side, geometry } of pages) {
      const left = geometry.body.x;
      const right = geometry.width - left - geometry.body.width;
      expect(side === 'right' ? left - right : right - left).toBeGreaterThan(0);
    }
  });
});

describe('a page of long, ugly text', () => {
  const book = (text: string): Book => ({
    title: 'Ugly',
    number: 'X-1',
    publisher: 'X',
    language: 'en',
    paper: 'a5',
    binding: 'none',
    duplex: false,
    draft: true,
    chapters: [{ title: 'T', startRight: false, blocks: [{ kind: 'paragraph', inline: [{ kind: 'text', text }] }] }],
  });
  test.each([
    ['one word of 5,000 letters', 'w'.repeat(5000)],
    ['right-to-left', 'הזז את הידית'.repeat(40)],
    ['no glyph anywhere', '\u{1F9F0}\u{E123} done'],
    ['nothing', ''],
  ])('%s stays inside the body', (_, text) => {
    const placed = layoutBook(book(text), newFontSource(it.fonts).shaper);
    for (const { slabs, geometry } of placed.pages)
      for (const { slab, y } of slabs) {
        expect(y + slab.height).toBeLessThanOrEqual(geometry.body.height);
        for (const item of slab.items) if (item.kind === 'line') expect(item.line.width).toBeLessThanOrEqual(item.width);
      }
  });
  test('a character no font has is said', () => {
    const placed = layoutBook(book('\u{E123}'), newFontSource(it.fonts).shaper);
    expect(placed.notes.map((note) => note.kind)).toContain('missing-glyph');
  });
});
