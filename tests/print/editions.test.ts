/** Editions of a bound guide: bars beside what changed, landscape pages, large type, one model, obsolete; what each may not lose. */
import { beforeAll, describe, expect, test } from 'vitest';
import { checkLibrary, type LibraryFacts } from '../../procedures-schema/index.ts';
import type { Book, BookBlock } from '../../publishing/book.ts';
import { type ComposeInput, guideBook, type Image, procedureBook } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource, type PlacedBook, type PlacedPage, type Shaper } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
let shaper: Shaper;
beforeAll(async () => {
  it = await sample();
  shaper = newFontSource(it.fonts).shaper;
});

const guide = (id: string, change: Partial<ComposeInput> = {}, choice: Parameters<typeof guideBook>[2] = {}): PlacedBook => {
  const found = it.report.facts.guides.find(({ head }) => head.id === id) as Parameters<typeof guideBook>[0];
  return layoutBook(guideBook(found, { ...it.input, ...change }, choice), shaper);
};
const lines = (page: PlacedPage, only: (decor: { readonly kind: string }) => boolean): string[] =>
  page.slabs
    .filter(({ slab }) => slab.decor.some(only))
    .flatMap(({ slab }) => slab.items)
    .flatMap((item) =>
      item.kind === 'line'
        ? [item.line.parts.map((part) => (part.kind === 'text' ? part.shaped.map((one) => one.text).join('') : '')).join('')]
        : [],
    );
const barred = ({ pages }: PlacedBook): string[] => pages.flatMap((page) => lines(page, ({ kind }) => kind === 'change'));

describe('bars beside what changed', () => {
  const withText = (from: string | RegExp, to: string): ComposeInput['earlier'] => {
    const texts = it.texts.map((file) => (file.path.includes('OM-3140') ? { ...file, text: file.text.replace(from, to) } : file));
    expect(texts).not.toEqual(it.texts);
    return checkLibrary(texts, it.paths).facts;
  };
  test('the same text has none', () => {
    expect(barred(guide('OM-8010', { earlier: it.report.facts } as Partial<ComposeInput>))).toEqual([]);
  });
  test('a step with other words has one, and nothing else', () => {
    const said = barred(guide('OM-8010', { earlier: withText('Wait 10 min by the', 'Wait 8 min by the') } as Partial<ComposeInput>));
    expect(said.join(' ')).toMatch(/^8 Wait 10 min by the stopwatch\.$/);
  });
  test('a new step has one, the steps that only moved down have none', () => {
    const said = barred(guide('OM-8010', { earlier: withText(/^\d+\. Wait 10 min.*\n/m, '') } as Partial<ComposeInput>));
    expect(said.filter((line) => !line.includes('steps')).join(' ')).toMatch(/^8 Wait 10 min by the stopwatch\./);
    expect(said.length).toBeLessThan(6);
  });
  test('the bar stands in the outer margin and the record names the section', () => {
    const placed = guide('OM-8010', { earlier: withText('Wait 10 min by the', 'Wait 8 min by the') } as Partial<ComposeInput>);
    const at = placed.pages.findIndex((page) => lines(page, ({ kind }) => kind === 'change').length > 0);
    const page = placed.pages[at] as PlacedPage;
    const { body } = page.geometry;
    const bars = (drawBook(placed).pages[at]?.ops ?? []).flatMap((op) =>
      op.op === 'path' && op.path.points[2] === (op.path.points[0] as number) + 2000 ? [op.path.points[0] as number] : [],
    );
    expect(bars).toHaveLength(1);
    if (page.side === 'left') expect(bars[0]).toBeLessThan(body.x);
    else expect(bars[0]).toBeGreaterThan(body.x + body.width);
    const record = placed.pages.find(({ chapter }) => chapter?.anchor === 'record') as PlacedPage;
    expect(
      lines(record, () => true)
        .concat(
          record.slabs
            .flatMap(({ slab }) => slab.items)
            .flatMap((item) =>
              item.kind === 'line'
                ? [item.line.parts.map((part) => (part.kind === 'text' ? part.shaped.map((one) => one.text).join('') : '')).join('')]
                : [],
            ),
        )
        .join(' '),
    ).toContain('Check the drift');
  });
});

describe('a guide against its issue before', () => {
  type Text = Sample['texts'][number];
  const libraryThen = (change: (file: Text) => readonly Text[]): LibraryFacts => checkLibrary(it.texts.flatMap(change), it.paths).facts;
  const edited = (part: string, from: string | RegExp, to: string): LibraryFacts =>
    libraryThen((file) => {
      if (!file.path.includes(part)) return [file];
      const text = file.text.replace(from, to);
      expect(text).not.toBe(file.text);
      return [{ ...file, text }];
    });
  const against = (earlier: LibraryFacts, more: Partial<ComposeInput> = {}, choice = {}): PlacedBook =>
    guide('OM-8010', { earlier, ...more }, choice);
  const isMark = ({ kind }: { readonly kind: string }): boolean => kind === 'change' || kind === 'gone';
  /** Chapters with a mark, each with what stands beside the marks. */
  const marks = ({ pages }: PlacedBook): Record<string, string> => {
    const out: Record<string, string> = {};
    for (const page of pages) {
      const said = lines(page, isMark)
        .join(' ')
        .replace(/\u00a0/g, ' ')
        .trim();
      const name = page.chapter?.anchor ?? '';
      if (said !== '') out[name] = `${out[name] ?? ''} ${said}`.trim();
    }
    return out;
  };
  const record = ({ pages }: PlacedBook): string =>
    pages
      .filter(({ chapter }) => chapter?.anchor === 'record')
      .flatMap((page) =>
        page.slabs
          .flatMap(({ slab }) => slab.items)
          .flatMap((item) =>
            item.kind === 'line'
              ? [item.line.parts.map((part) => (part.kind === 'text' ? part.shaped.map(({ text }) => text).join('') : '')).join('')]
              : [],
          ),
      )
      .join(' ');

  test('another limit is marked where it is read, in its table and in the appendix of limits', () => {
    const said = marks(against(edited('OM-3140', '| 4 mm [0.15 in] |', '| 3 mm [0.11 in] |')));
    expect(Object.keys(said)).toEqual(['doc OM-3140', 'limits']);
    expect(said.limits).toMatch(/lip drift.*4 mm/);
  });

  test('other words of a danger are marked on the pages of cautions too', () => {
    const said = marks(against(edited('OM-3140', /(:::danger\n)([A-Z]\w+ )/, '$1Listen. $2')));
    expect(Object.keys(said)).toEqual(['cautions', 'doc OM-3140']);
  });

  test('the foreword has bars where the guide says something else', () => {
    const said = marks(against(edited('OM-8010', 'Read the pages on safety before the first use. ', '')));
    expect(Object.keys(said)).toEqual(['about']);
    expect(said.about).toContain('Read the pages on safety');
  });

  test('a procedure that was dropped is told in the record and by a stroke in the list of its part', () => {
    const placed = against(edited('OM-8010', '- [OM-2130]', '- [OM-2130]\n- [OM-1110]'));
    expect(record(placed)).toMatch(/OM-1110 .*no longer in this guide; take its leaves out/);
    const said = marks(placed);
    // The list of a part stands at the head of its first procedure.
    expect(said['doc OM-2110']).toBe('with the gate shut');
    // Which procedures ask for a tool is no news about the tool.
    expect(said.tools).not.toContain('feeler gauges');
  });

  test('a section that was dropped is named in the record; what changed before the first heading is told too', () => {
    const gone = against(edited('OM-3140', /\n## (When to use)/, '\n## Before anything\n\nLook twice.\n\n## $1'));
    expect(record(gone)).toContain('left out: Before anything');
    const time = against(edited('OM-3140', /\ntime: .*/, '\ntime: 10 min'));
    expect(Object.keys(marks(time))).toEqual(['doc OM-3140']);
    expect(record(time)).toContain('At a glance');
  });

  test('the record says since which revision, and that it was the same where it was kept', () => {
    const changed = (text: string): string => text.replace('Wait 10 min by the', 'Wait 8 min by the');
    const then = (change: (text: string) => string): LibraryFacts =>
      libraryThen((file) => [file.path.includes('OM-3140') ? { ...file, text: change(file.text) } : file]);
    expect(record(against(then((text) => changed(text).replace('revision: "C"', 'revision: "B"'))))).toContain('(since revision B)');
    expect(record(against(then(changed)))).toContain('(the issue before was revision C too');
  });

  test('printed in another language than the house, the words around the text are no change', () => {
    expect(marks(against(it.report.facts, {}, { language: 'de' }))).toEqual({});
  });

  test('a figure whose file changed has a bar, and only where the figures of then are known', () => {
    const [path, image] = [...it.input.figures].find(([name]) => name.includes('lip-cylinder.svg')) as [
      string,
      Extract<Image, { kind: 'svg' }>,
    ];
    const then = new Map(it.input.figures).set(path, {
      ...image,
      source: image.source.replace('</svg>', '<rect width="3" height="3"/></svg>'),
    });
    expect(marks(against(it.report.facts))).toEqual({});
    const said = marks(against(it.report.facts, { earlierFigures: then }));
    expect(Object.keys(said)).toEqual(['doc OM-3140']);
    expect(said['doc OM-3140']).toMatch(/^Figure \d+\. /);
  });

  test('one procedure alone: what is needed and its cautions are compared too', () => {
    const facts = it.report.facts.procedures.find(({ head }) => head.id === 'OM-3140') as Parameters<typeof procedureBook>[0];
    const earlier = edited('OM-3140', /(:::danger\n)([A-Z]\w+ )/, '$1Listen. $2');
    expect(Object.keys(marks(layoutBook(procedureBook(facts, { ...it.input, earlier }), shaper)))).toEqual(['cautions', 'doc OM-3140']);
  });
});

describe('landscape pages', () => {
  const wide = (columns: number): Book => {
    const table: BookBlock = {
      kind: 'table',
      head: Array.from({ length: columns }, (_, k) => [{ kind: 'text', text: `Pressure${k}` }]),
      rows: Array.from({ length: 30 }, () => Array.from({ length: columns }, () => [{ kind: 'text' as const, text: '1,250 kPa' }])),
      align: [],
    };
    const said: BookBlock = { kind: 'paragraph', inline: [{ kind: 'text', text: 'Before and after.' }] };
    const heading: BookBlock = { kind: 'heading', level: 2, text: 'Pressures', bookmark: true };
    return {
      title: 'T',
      number: 'OM-1',
      publisher: 'P',
      language: 'en',
      paper: 'a4',
      binding: 'left',
      duplex: true,
      draft: false,
      chapters: [{ title: 'C', startRight: false, blocks: [said, heading, table, said] }],
    };
  };
  test('a table whose words would be cut is turned, its heading with it, and only it', () => {
    const { pages } = layoutBook(wide(13), shaper);
    expect(pages.map(({ turned }) => turned)).toEqual([false, true, true, false]);
    for (const { turned, geometry } of pages) expect(geometry.width > geometry.height).toBe(turned);
    expect(pages[1]?.slabs[0]?.slab.of).toBe('heading');
    expect(pages[2]?.slabs[0]?.slab.of).toBe('table-head');
  });
  test('a table that fits stays upright', () => {
    expect(layoutBook(wide(5), shaper).pages.some(({ turned }) => turned)).toBe(false);
  });
  test('the bound edge is its head on a right-hand page and its foot on a left-hand one', () => {
    for (const {
      turned,
      side,
      geometry: { height, body },
    } of layoutBook(wide(13), shaper).pages) {
      if (!turned) continue;
      const foot = height - body.y - body.height;
      expect(side === 'right' ? body.y - foot : foot - body.y).toBeGreaterThanOrEqual(0);
    }
  });
});

describe('other editions', () => {
  test('large type: running text of at least 14 points, nothing lost at the edges', () => {
    const placed = guide('OM-8010', {}, { large: true });
    expect(placed.kit.sheet.body.size).toBeGreaterThanOrEqual(14000);
    expect(placed.notes.filter(({ kind }) => kind !== 'group-too-tall')).toEqual([]);
  });
  test('obsolete: said on every page, the covers included', () => {
    const placed = guide('OM-8010', {}, { obsolete: true });
    for (const page of drawBook(placed).pages)
      expect(page.ops.flatMap((op) => (op.op === 'text' ? op.run.map(({ text }) => text) : [])).join('|')).toContain(
        'OBSOLETE: DO NOT USE',
      );
  });
  const lefts = ({ pages }: PlacedBook): number[] => [
    ...new Set(pages.filter(({ turned }) => !turned).map(({ geometry: { body } }) => body.x)),
  ];
  test('on one side of the leaf, whatever the guide says: one bound edge, and no blank backs', () => {
    const [both, one] = [guide('OM-8010'), guide('OM-8010', {}, { duplex: false })];
    expect(lefts(both)).toHaveLength(2);
    expect(lefts(one)).toEqual([Math.max(...lefts(both))]);
    expect(one.pages.length).toBeLessThan(both.pages.length);
  });
  test('not bound: both sides of a page have the same margins', () => {
    const placed = guide('OM-8010', {}, { binding: 'none' });
    expect(lefts(placed)).toHaveLength(1);
    for (const { geometry, turned } of placed.pages) if (!turned) expect(geometry.body.x * 2 + geometry.body.width).toBe(geometry.width);
  });
  test('a procedure on both sides has mirrored margins, and no leaf more than it needs', () => {
    const facts = it.report.facts.procedures.find(({ head }) => head.id === 'OM-3140') as Parameters<typeof procedureBook>[0];
    const [one, both] = [undefined, true].map((duplex) =>
      layoutBook(procedureBook(facts, it.input, duplex === undefined ? {} : { duplex }), shaper),
    ) as [PlacedBook, PlacedBook];
    expect(lefts(one)).toHaveLength(1);
    expect(lefts(both)).toHaveLength(2);
    expect(both.pages.length).toBe(one.pages.length);
  });
  test('in another language: what is printed around the text, and the text as it is', () => {
    const placed = guide('OM-8010', {}, { language: 'de' });
    expect(placed.book.language).toBe('de');
    const said = drawBook(placed)
      .pages.map((page) => page.ops.flatMap((op) => (op.op === 'text' ? op.run.map(({ text }) => text) : [])).join(' '))
      .join(' ')
      .replace(/\s+/g, ' ');
    expect(said).toContain('Inhalt');
    expect(said).not.toContain('Contents');
    expect(said).toContain('Hold the');
    // With the decimal mark of the other language, 0.050 mm is read as nought.
    const plain = said.replaceAll('\u00a0', ' ');
    expect(plain).toContain('0 bis 0.050 mm (0 bis 0.0019 in)');
    expect(plain).not.toMatch(/\b0 (?:to|bis) 0 mm/);
    expect(plain).not.toMatch(/\d,\d+ (?:mm|in|bar)\b/);
  });
  test('one model: procedures for other machines are left out, those for it stay', () => {
    const placed = guide('OM-8010', { model: 'DL-20' });
    const numbers = placed.chapters.flatMap(({ number }) => (number === undefined ? [] : [number]));
    expect(numbers).toEqual(['OM-3140', 'OM-3150', 'OM-3160']);
    expect(placed.notes.filter(({ kind }) => kind === 'dead-link')).toEqual([]);
  });
});
