/** What guards a whole section, told again where the section goes on overleaf: on each further page of it, with the page of the notice, and for the eye only. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Book, BookBlock, NoticeBlock } from '../../publishing/book.ts';
import { hazardOf } from '../../publishing/compose/notice-words.ts';
import { guideBook, shortGuide } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource, numberPages, type PlacedBook, type Shaper } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
let shaper: Shaper;
beforeAll(async () => {
  it = await sample();
  shaper = newFontSource(it.fonts).shaper;
});

type Slab = PlacedBook['pages'][number]['slabs'][number]['slab'];
const wordsOf = (slab: Slab, shown: (anchor: string) => string): string =>
  slab.items
    .flatMap((item) => (item.kind === 'line' ? item.line.parts : []))
    .map((part) => (part.kind === 'page' ? shown(part.anchor) : part.shaped.map(({ text }) => text).join('')))
    .join(' ')
    .replace(/\s+/g, ' ');

/** What is told again at the head of each page, with the section that the page goes on with. */
function recalled(book: Book) {
  const placed = layoutBook(book, shaper);
  const numbers = numberPages(placed.pages, book);
  const shown = (anchor: string): string => numbers[placed.anchors.get(anchor) ?? -1]?.shown ?? '?';
  return {
    placed,
    pages: placed.pages.map((page, index) => ({
      page: numbers[index]?.shown,
      section: page.section,
      chapter: page.chapter?.number,
      told: page.slabs.flatMap(({ slab }) => (slab.of === 'recall' ? [wordsOf(slab, shown)] : [])),
    })),
  };
}

const guideNamed = (id: string) => {
  const guide = it.report.facts.guides.find(({ head }) => head.id === id);
  if (guide === undefined) throw new Error(`${id} is gone`);
  return guide;
};

test('the lip cylinder is renewed under the platform for two pages more, and each says so', () => {
  const { pages } = recalled(guideBook(guideNamed('OM-8010'), it.input));
  const own = pages.filter(({ chapter, section }) => chapter === 'OM-3140' && section === 'Renew the seal');
  const told = ['DANGER The platform weighs 900 kg and falls when the oil under it is let go. (page 5 )'];
  // Page 5 begins with the section, and so has the notice itself.
  expect(own.map((one) => [one.page, one.told])).toEqual([
    ['5', []],
    ['6', told],
    ['7', told],
  ]);
});

describe.each(['a4', 'a5'] as const)('on %s', (paper) => {
  test('a page that goes on with a guarded section tells all that guards it, and no other page tells anything', () => {
    let seen = 0;
    for (const guide of it.report.facts.guides) {
      const book = guideBook(guide, it.input, { paper });
      const guards = new Map<string, readonly string[]>();
      for (const { number, blocks } of book.chapters) {
        let title = '';
        for (const block of blocks as readonly BookBlock[])
          if (block.kind === 'heading' && block.level === 2) title = `${number} ${block.text}`;
          else if (block.kind === 'notice' && block.recall !== undefined)
            guards.set(title, [...(guards.get(title) ?? []), `${block.panel} ${block.recall.hazard}`]);
      }
      for (const { page, chapter, section, told } of recalled(book).pages) {
        const key = `${chapter} ${section}`;
        // A page that begins with the section's heading has the notice itself.
        if (told.length === 0) continue;
        expect(
          told.map((one) => one.replace(/ \(page .*/, '')),
          `page ${page}: ${key}`,
        ).toEqual(guards.get(key));
        for (const one of told) expect(one).toMatch(/ \(page\s\d+ \)$/);
        seen += 1;
      }
    }
    expect(seen).toBeGreaterThan(paper === 'a4' ? 6 : 15);
  });
});

test('no page of a guarded section is without it', () => {
  const book = guideBook(guideNamed('OM-8010'), it.input, { paper: 'a5' });
  const guarded = (one: BookBlock): one is NoticeBlock => one.kind === 'notice' && one.recall !== undefined;
  const sections = book.chapters.flatMap(({ number, blocks }) =>
    blocks.flatMap((block, index) => {
      const head = blocks.slice(0, index).findLast(({ kind }) => kind === 'heading');
      return guarded(block) && head?.kind === 'heading' ? [`${number} ${head.text}`] : [];
    }),
  );
  const { placed, pages } = recalled(book);
  placed.pages.forEach(({ slabs }, index) => {
    const { chapter, section, told, page } = pages[index] as (typeof pages)[number];
    // The running head names the section that the first line stands in.
    const opens = slabs[0]?.slab.section === section || slabs[0]?.slab.of === 'heading';
    if (!opens && sections.includes(`${chapter} ${section}`)) expect(told.length, `page ${page}`).toBeGreaterThan(0);
  });
});

test('it is drawn as an artifact: the hazard stands in the structure as often as in the text', () => {
  const book = guideBook(guideNamed('OM-8010'), it.input);
  let tagged = 0;
  let drawn = 0;
  for (const { ops } of drawBook(layoutBook(book, shaper)).pages) {
    let open = false;
    for (const op of ops)
      if (op.op === 'begin') open = true;
      else if (op.op === 'end') open = false;
      else if (
        op.op === 'text' &&
        op.run
          .map(({ text }) => text)
          .join('')
          .startsWith('The platform weighs 900')
      ) {
        drawn += 1;
        if (open) tagged += 1;
      }
  }
  // Three procedures begin with it; one of them goes on for two pages.
  expect([tagged, drawn]).toEqual([3, 5]);
});

test('a short form tells nothing again: its leaves carry each notice at its line', () => {
  expect(recalled(shortGuide(guideNamed('OM-8010'), it.input)).pages.flatMap(({ told }) => told)).toEqual([]);
});

test.each([
  ['The oil is hot. It burns.', 'The oil is hot.'],
  ['Set it to max. 3 bar before you open it. The jet cuts.', 'Set it to max. 3 bar before you open it.'],
  ['Do not touch the rim', 'Do not touch the rim'],
  ['Hot!', 'Hot!'],
])('%s', (said, hazard) => expect(hazardOf(said)).toBe(hazard));

test('what guards a section is told on a turned page in it, and after that page, and no further than the section', () => {
  const said = (text: string): BookBlock => ({ kind: 'paragraph', inline: [{ kind: 'text', text }] });
  const heading = (text: string): BookBlock => ({ kind: 'heading', level: 2, text, anchor: text, bookmark: true });
  const notice: NoticeBlock = {
    kind: 'notice',
    word: 'danger',
    panel: 'DANGER',
    body: [said('The ram falls. It crushes.')],
    recall: { anchor: 'Open', hazard: 'The ram falls.' },
  };
  const cell = (text: string) => [{ kind: 'text' as const, text }];
  const wide: BookBlock = {
    kind: 'table',
    head: Array.from({ length: 9 }, (_, at) => cell(`Measurement${at}`)),
    rows: [Array.from({ length: 9 }, () => cell('unbreakablewords'))],
    align: Array.from({ length: 9 }, () => 'left' as const),
  };
  const blocks = [heading('Open'), notice, said('First.'), wide, said('Then.'), heading('Shut'), said('Last.'), wide, said('After.')];
  const book: Book = {
    title: 'Made up',
    number: 'X-1',
    publisher: 'X',
    language: 'en',
    paper: 'a4',
    binding: 'left',
    duplex: true,
    draft: false,
    chapters: [{ title: 'T', number: 'X-1', startRight: false, blocks }],
  };
  const { placed, pages } = recalled(book);
  const own = placed.pages.flatMap(({ chapter, turned }, index) =>
    chapter === undefined ? [] : [`${turned ? 'turned ' : ''}${pages[index]?.told.join('; ')}`],
  );
  const again = 'DANGER The ram falls. (page 1 )';
  expect(own).toEqual(['', `turned ${again}`, again, 'turned ', '']);
});
