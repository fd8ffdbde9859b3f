/** The contents of the sample guides as set: titles under each other, a title of two lines in its column, and no section parted from its procedure. */
import { beforeAll, describe, expect, test } from 'vitest';
import { guideBook, procedureBook } from '../../publishing/index.ts';
import { layoutBook, newFontSource, type PlacedBook, type PlacedPage } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
let guides: readonly PlacedBook[];
let large: PlacedBook;
beforeAll(async () => {
  it = await sample();
  const { shaper } = newFontSource(it.fonts);
  guides = it.report.facts.guides.map((guide) => layoutBook(guideBook(guide, it.input), shaper));
  const shoes = it.report.facts.procedures.find(({ head }) => head.id === 'OM-2120') as Parameters<typeof procedureBook>[0];
  large = layoutBook(procedureBook(shoes, it.input, { paper: 'a5', large: true }), shaper);
});

interface Row {
  readonly number: string;
  readonly title: string;
  readonly x: number;
  readonly bold: boolean;
}

const contentsOf = ({ pages }: PlacedBook): readonly PlacedPage[] => pages.filter(({ chapter }) => chapter?.anchor === 'contents');

/** What stands on each line of a page, without its page number. */
const rowsOf = (page: PlacedPage): readonly Row[] =>
  page.slabs.flatMap(({ slab }) => {
    const texts = slab.items.flatMap((item) => {
      if (item.kind !== 'line') return [];
      const shaped = item.line.parts.flatMap((part) => (part.kind === 'text' ? part.shaped : []));
      return shaped.length === 0
        ? []
        : [{ text: shaped.map(({ text }) => text).join(''), x: item.x, bold: shaped.every(({ face }) => face === 'bold') }];
    });
    const title = texts.at(-1);
    if (slab.of === 'heading' || title === undefined) return [];
    return [{ number: texts.length > 1 ? (texts[0]?.text.trim() ?? '') : '', title: title.text, x: title.x, bold: title.bold }];
  });

describe('contents', () => {
  test('titles of procedures and of their sections stand under each other', () => {
    for (const guide of guides) {
      const rows = contentsOf(guide).flatMap(rowsOf);
      const numbered = rows.filter(({ number }) => number !== '');
      expect(numbered.length).toBeGreaterThan(5);
      const edges = new Set(rows.filter(({ number, bold }) => number !== '' || !bold).map(({ x }) => x));
      expect([...edges]).toEqual([numbered[0]?.x]);
    }
  });

  test('no page begins inside a procedure, and none ends with the name of a part', () => {
    for (const guide of guides) {
      const pages = contentsOf(guide).map(rowsOf);
      expect(pages.length).toBeGreaterThan(1);
      for (const rows of pages.slice(1)) expect(rows[0]?.bold, rows[0]?.title).toBe(true);
      const parts = new Set(guide.chapters.flatMap(({ tab }) => (tab === undefined ? [] : [tab])));
      for (const rows of pages) expect(parts.has(rows.at(-1)?.title ?? '')).toBe(false);
    }
  });

  test('a title of two lines keeps to its column, whole words in both', () => {
    const rows = contentsOf(large).flatMap(rowsOf);
    const at = rows.findIndex(({ number }) => number === 'OM-2120');
    const [first, second] = [rows[at], rows[at + 1]] as [Row, Row];
    expect(second.bold).toBe(true);
    expect(second.x).toBe(first.x);
    for (const { title } of rows) expect(title).not.toMatch(/-$/);
  });
});
