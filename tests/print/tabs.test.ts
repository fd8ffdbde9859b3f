/** Thumb tabs: one place for each part, at the outer edge of every page of it, its words inside the mark, past ten from the top again. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Book, BookBlock, Inline } from '../../publishing/book.ts';
import { drawBook, layoutBook, newFontSource, type Op, type Shaper, widthOfAll } from '../../publishing/layout/index.ts';
import { mm } from '../../publishing/layout/units.ts';
import { sample } from '../support/sample.ts';

let shaper: Shaper;
beforeAll(async () => {
  shaper = newFontSource((await sample()).fonts).shaper;
});

const words = (text: string): Inline[] => [{ kind: 'text', text }];
const paragraph: BookBlock = { kind: 'paragraph', inline: words('Send everyone off the platform. '.repeat(40)) };
const bookOf = (tabs: readonly (string | undefined)[], more: Partial<Book> = {}): Book => ({
  title: 'Dock leveller service guide',
  number: 'OM-8010',
  revision: 'A',
  publisher: 'Orrfen Machines',
  language: 'en',
  paper: 'a4',
  binding: 'left',
  duplex: true,
  draft: false,
  chapters: tabs.map((tab, index) => ({
    title: `Chapter ${index}`,
    number: `OM-81${index}0`,
    ...(tab === undefined ? {} : { tab }),
    startRight: false,
    blocks: Array.from({ length: 12 }, () => paragraph),
  })),
  ...more,
});

interface Tab {
  readonly page: number;
  readonly paper: number;
  readonly said: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly foot: number;
  readonly text: Extract<Op, { op: 'text' }>;
}

/** Marks of the page that are neither head nor foot: a filled shape with words in it. */
function tabsOn(book: Book): { readonly tabs: readonly Tab[]; readonly pages: number } {
  const { pages } = drawBook(layoutBook(book, shaper));
  const tabs = pages.flatMap(({ ops, width }, page) =>
    ops.flatMap((op, at): Tab[] => {
      if (op.op !== 'artifact' || op.type !== 'Pagination' || op.part !== undefined) return [];
      const [shape, text] = [ops[at + 1], ops[at + 2]];
      if (shape?.op !== 'path' || text?.op !== 'text') return [];
      const xs = shape.path.points.filter((_, index) => index % 2 === 0);
      const ys = shape.path.points.filter((_, index) => index % 2 === 1);
      return [
        {
          page,
          paper: width,
          said: text.run.map((one) => one.text).join(''),
          left: Math.min(...xs),
          right: Math.max(...xs),
          top: Math.min(...ys),
          foot: Math.max(...ys),
          text,
        },
      ];
    }),
  );
  return { tabs, pages: pages.length };
}

const many = (count: number): readonly string[] => Array.from({ length: count }, (_, index) => `Part ${index + 1}`);

describe.each([
  ['on both sides', true],
  ['on one side', false],
] as const)('%s', (_, duplex) => {
  test('every page of a part has its tab, 7 mm deep at the outer edge, and pages of none have none', () => {
    const { tabs, pages } = tabsOn(bookOf(['Fans', undefined, 'Presses'], { duplex }));
    expect(new Set(tabs.map(({ said }) => said))).toEqual(new Set(['Fans', 'Presses']));
    expect(tabs.length).toBeGreaterThan(4);
    expect(tabs.length).toBeLessThan(pages);
    for (const { page, paper, left, right } of tabs) {
      const back = duplex && page % 2 === 1;
      expect([left, right]).toEqual(back ? [0, mm(7)] : [paper - mm(7), paper]);
    }
  });

  test('the words stand inside, along the edge, and are read from outside in', () => {
    for (const { page, text, left, right, top, foot } of tabsOn(bookOf(many(4), { duplex })).tabs) {
      const long = widthOfAll(text.run, text.size);
      const up = duplex && page % 2 === 1;
      expect(text.turn).toEqual(up ? [0, 1000, -1000, 0] : [0, -1000, 1000, 0]);
      const [from, to] = up ? [text.y - long, text.y] : [text.y, text.y + long];
      expect(from).toBeGreaterThan(top);
      expect(to).toBeLessThan(foot);
      expect(text.x).toBeGreaterThan(left);
      expect(text.x).toBeLessThan(right);
    }
  });
});

test.each([3, 4, 10])('%i parts: each has a place of its own, the same on all its pages, further down than the one before', (count) => {
  const { tabs } = tabsOn(bookOf(many(count)));
  const places = many(count).map((said) => new Set(tabs.filter((tab) => tab.said === said).map(({ top, foot }) => `${top} ${foot}`)));
  for (const place of places) expect(place.size).toBe(1);
  const bounds = places.map((place) => [...place][0]?.split(' ').map(Number) as [number, number]);
  for (let index = 1; index < count; index += 1) expect(bounds[index]?.[0]).toBeGreaterThan(bounds[index - 1]?.[1] ?? 0);
});

test('the eleventh stands where the first does; parts of one name share a place', () => {
  const { tabs } = tabsOn(bookOf([...many(11), 'Part 2']));
  const tops = (said: string) => new Set(tabs.filter((tab) => tab.said === said).map(({ top }) => top));
  expect(tops('Part 11')).toEqual(tops('Part 1'));
  expect(tops('Part 2').size).toBe(1);
  expect(tops('Part 2')).not.toEqual(tops('Part 1'));
});

/** Of the first tab: each of its lines. */
function linesOfTab(name: string): readonly Extract<Op, { op: 'text' }>[] {
  const [page] = drawBook(layoutBook(bookOf([name]), shaper)).pages;
  const ops = page?.ops ?? [];
  const at = ops.findIndex((op) => op.op === 'artifact' && op.type === 'Pagination' && op.part === undefined);
  return ops
    .slice(
      at,
      ops.findIndex((op, index) => index > at && op.op === 'end'),
    )
    .flatMap((op) => (op.op === 'text' ? [op] : []));
}

test('a name that is too long stands on two lines in smaller type, and still inside', () => {
  const name = 'Conveyors, transfers and everything that moves pallets between the halls of the works';
  const lines = linesOfTab(name);
  expect(lines.length).toBe(2);
  expect(
    lines
      .map(({ run }) =>
        run
          .map(({ text }) => text)
          .join('')
          .trim(),
      )
      .join(' '),
  ).toBe(name);
  const [tab] = tabsOn(bookOf([name])).tabs;
  for (const { run, size } of lines) {
    expect(widthOfAll(run, size)).toBeLessThan((tab?.foot ?? 0) - (tab?.top ?? 0));
    expect(size).toBeGreaterThanOrEqual(7000);
  }
});

test('one that is too long even so is cut between words, and that is told', () => {
  const name = `${'Conveyors and transfers and '.repeat(12)}rollers`;
  const lines = linesOfTab(name);
  expect(lines.length).toBeLessThanOrEqual(2);
  expect(
    lines
      .at(-1)
      ?.run.map(({ text }) => text)
      .join(''),
  ).toMatch(/\u2026\s*$/);
  expect(layoutBook(bookOf([name]), shaper).notes.map(({ kind }) => kind)).toContain('long-words');
});
