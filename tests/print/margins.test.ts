/** Words in the margins: whole, on two lines or smaller where they are long, settled before a page is drawn; what fits in no way is cut and told. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Book } from '../../publishing/book.ts';
import { shortProcedure } from '../../publishing/index.ts';
import {
  drawBook,
  layoutBook,
  newFontSource,
  type Op,
  type PlacedBook,
  type PlacedPage,
  type Shaper,
} from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
let shaper: Shaper;
beforeAll(async () => {
  it = await sample();
  shaper = newFontSource(it.fonts).shaper;
});

const book = (title: string, section: string, more: Partial<Book> = {}, tab?: string): Book => ({
  title: 'A guide',
  number: 'OM-1',
  publisher: 'Orrfen Machines',
  language: 'en',
  paper: 'a5',
  binding: 'left',
  duplex: false,
  draft: false,
  chapters: [
    {
      title,
      number: 'OM-2',
      startRight: false,
      ...(tab === undefined ? {} : { tab }),
      blocks: [
        { kind: 'heading', level: 2, text: section, bookmark: false },
        { kind: 'paragraph', inline: [{ kind: 'text', text: 'Words.' }] },
        { kind: 'page-break' },
        { kind: 'paragraph', inline: [{ kind: 'text', text: 'More words.' }] },
      ],
    },
  ],
  ...more,
});

type Line = PlacedPage['words']['title'][number];
const said = (lines: readonly Line[]): string =>
  lines
    .map(({ run }) =>
      run
        .map(({ text }) => text)
        .join('')
        .trim(),
    )
    .join(' | ');
/** The page on which the section goes on. */
const second = ({ pages }: PlacedBook): PlacedPage => pages[1] as PlacedPage;

const TITLE = 'Measure the clearance of all guide shoes of the upper platen';
const SECTION = 'Lift the upper platen out with the hoist';
const LONGER =
  'Measure the clearance of all guide shoes of the upper platen and renew those that are worn down to the mark, with their shims';

describe('a running head', () => {
  test('holds title and section on one line where both fit', () => {
    const { words } = second(layoutBook(book('Renew the seal', 'Close up'), shaper));
    expect([said(words.title), said(words.section), words.stacked]).toEqual(['Renew the seal', 'Close up', false]);
  });

  test('gives the section a line of its own where they do not', () => {
    const page = second(layoutBook(book(TITLE, SECTION), shaper));
    expect([said(page.words.title), said(page.words.section), page.words.stacked]).toEqual([TITLE, SECTION, true]);
  });

  test('has a long title on two lines and then no section', () => {
    const page = second(layoutBook(book(LONGER, SECTION), shaper));
    expect(page.words.title).toHaveLength(2);
    expect(said(page.words.title).replace(' | ', ' ')).toBe(LONGER);
    expect(page.words.section).toEqual([]);
    for (const { width } of page.words.title) expect(width).toBeLessThanOrEqual(page.geometry.body.width);
  });

  test('ends above the text and under the draft mark', () => {
    for (const [title, section] of [
      [TITLE, SECTION],
      [LONGER, SECTION],
    ] as const) {
      const placed = layoutBook(book(title, section, { draft: true }), shaper);
      const { body } = second(placed).geometry;
      const ops = drawBook(placed).pages[1]?.ops ?? [];
      const from = ops.findIndex((op) => op.op === 'artifact' && op.part === 'Header');
      const to = ops.findIndex((op, at) => at > from && op.op === 'end');
      const texts = ops.slice(from, to).filter((op): op is Extract<Op, { op: 'text' }> => op.op === 'text');
      expect(texts.length).toBeGreaterThan(2);
      for (const { y } of texts) expect(y).toBeLessThan(body.y - 8000);
      const heights = texts.map(({ y }) => y).sort((a, b) => a - b);
      expect((heights[1] as number) - (heights[0] as number)).toBeGreaterThan(10_000);
    }
  });

  test('is cut only where nothing else helps, and that is told', () => {
    const placed = layoutBook(book(`${LONGER}, and ${LONGER}, and ${LONGER}`, SECTION), shaper);
    expect(second(placed).words.title).toHaveLength(2);
    expect(said(second(placed).words.title)).toMatch(/\u2026$/);
    expect(placed.notes.map(({ kind }) => kind)).toEqual(['long-words']);
  });
});

test('the line of the house stands on two lines where it is long', () => {
  const footLine =
    'Uncontrolled when printed. Check the revision before use, and send words of what is wrong here to the field office at the works.';
  const { words, geometry } = second(layoutBook(book(TITLE, SECTION, { footLine }), shaper));
  expect(words.foot).toHaveLength(2);
  expect(said(words.foot).replace(' | ', ' ')).toBe(footLine);
  for (const { width } of words.foot) expect(width).toBeLessThanOrEqual(geometry.body.width);
});

describe('a leaf', () => {
  test.each(['a4', 'letter', 'a5'] as const)('on %s names its procedure whole, clear of the boxes', (paper) => {
    let two = 0;
    for (const facts of it.report.facts.procedures) {
      const placed = layoutBook(shortProcedure(facts, it.input, { paper }), shaper);
      for (const { words, geometry, blank } of placed.pages.slice(1)) {
        if (blank) continue;
        expect(said(words.section).replace(' | ', ' ')).toBe(facts.head.title);
        for (const { width } of words.section) expect(width).toBeLessThan(geometry.body.width / 2);
        if (words.section.length === 2) two += 1;
      }
    }
    expect(two > 0).toBe(paper === 'a5');
  });
});

describe('a thumb tab', () => {
  test('has a long name whole on two lines', () => {
    const name = 'Hydraulic dock levellers with swing lip and side shift';
    const placed = layoutBook(book(TITLE, SECTION, {}, name), shaper);
    const [tab] = placed.tabs;
    expect(tab?.lines).toHaveLength(2);
    expect(said(tab?.lines ?? []).replace(' | ', ' ')).toBe(name);
    expect(placed.notes).toEqual([]);
  });
  test('has a short one on one line, in full size', () => {
    const [tab] = layoutBook(book(TITLE, SECTION, {}, 'Steam press'), shaper).tabs;
    expect(tab?.lines.map(({ look }) => look.size)).toEqual([9000]);
  });
});
