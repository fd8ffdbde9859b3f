/**
 * The strip that is punched stays empty on every page: upright and turned, fronts and backs, bound at the left or at the top, on every paper, with all
 * that can stand in a margin: the draft mark, the line of the house, tabs, bars and strokes; leaves of the short form too.
 */
import { beforeAll, expect, test } from 'vitest';
import type { Book, BookBlock, Inline } from '../../publishing/book.ts';
import { drawBook, layoutBook, newFontSource, type Op, type Shaper, widthOfAll } from '../../publishing/layout/index.ts';
import { mm } from '../../publishing/layout/units.ts';
import { sample } from '../support/sample.ts';

let shaper: Shaper;
beforeAll(async () => {
  shaper = newFontSource((await sample()).fonts).shaper;
});

const words = (text: string): Inline[] => [{ kind: 'text', text }];
const paragraph: BookBlock = { kind: 'paragraph', inline: words('Send everyone off the platform. '.repeat(12)), changed: true };
/** A column of much more than five lines beside five short ones turns the page. */
const wide = (times: number): BookBlock => ({
  kind: 'table',
  head: Array.from({ length: 6 }, (_, column) => words(`Limit ${column}`)),
  rows: Array.from({ length: 12 }, () => [
    words('At least 4 mm and at most 9 mm, measured twice. '.repeat(times)),
    ...Array.from({ length: 5 }, () => words('12345678')),
  ]),
  align: [],
  full: true,
  changed: true,
  gone: 'both',
});

const bookOf = (paper: Book['paper'], binding: Book['binding'], duplex: boolean, form: 'usual' | 'large' | 'short'): Book => ({
  title: 'Dock leveller service guide',
  number: 'OM-8010',
  revision: 'A',
  publisher: 'Orrfen Machines',
  language: 'en',
  paper,
  binding,
  duplex,
  draft: true,
  ...(form === 'large' ? { large: true } : {}),
  ...(form === 'short' ? { short: { head: [{ label: 'Serial number', share: 1000, field: 'serial' }] } } : {}),
  footLine: 'Uncontrolled when printed.',
  chapters: Array.from({ length: 3 }, (_, index) => ({
    title: `Chapter ${index}`,
    number: `OM-81${index}0`,
    tab: `Part ${index}`,
    startRight: false,
    blocks: [...Array.from({ length: 14 }, () => paragraph), wide(paper === '300 x 440 mm' ? 30 : 12), paragraph],
  })),
});

interface Edges {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly foot: number;
}

/** Edges of everything printed, the pale words under the text left out: a hole in them loses nothing. */
function inked(ops: readonly Op[]): readonly Edges[] {
  let pale = false;
  return ops.flatMap((op): Edges[] => {
    if (op.op === 'artifact') pale = op.part === 'Watermark';
    if (pale) return [];
    if (op.op === 'text' && op.turn === undefined)
      return [{ left: op.x, right: op.x + widthOfAll(op.run, op.size), top: op.y - op.size * 0.75, foot: op.y + op.size * 0.25 }];
    if (op.op !== 'path') return [];
    const xs = op.path.points.filter((_, k) => k % 2 === 0);
    const ys = op.path.points.filter((_, k) => k % 2 === 1);
    return [{ left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), foot: Math.max(...ys) }];
  });
}

const strip = mm(18);

test.each(
  (['a4', 'letter', 'a5', '120 x 170 mm', '6 x 9 in', '300 x 440 mm'] as const).flatMap((paper) =>
    (['left', 'top', 'none'] as const).flatMap((binding) => [true, false].map((duplex) => ({ paper, binding, duplex }))),
  ),
)('$paper, bound $binding, both sides: $duplex', ({ paper, binding, duplex }) => {
  for (const form of ['usual', 'large', 'short'] as const) {
    const placed = layoutBook(bookOf(paper, binding, duplex, form), shaper);
    const seen = new Set<string>();
    drawBook(placed).pages.forEach(({ ops, width, height }, index) => {
      const { turned, side, blank } = placed.pages[index] as (typeof placed.pages)[number];
      if (!blank) seen.add(`${side} ${turned}`);
      // Which edge of the page as it is read was bound. A turned page is read with the head of the others at its right.
      const at =
        binding === 'left'
          ? turned
            ? { right: 'top', left: 'foot' }
            : { right: 'left', left: 'right' }
          : binding === 'top'
            ? turned
              ? { right: 'right', left: 'left' }
              : { right: 'top', left: 'foot' }
            : undefined;
      const bound = at?.[side];
      for (const { left, right, top, foot } of inked(ops)) {
        const free = { left, right: width - right, top, foot: height - foot } as const;
        const where = `${form}, page ${index + 1}, ${side}${turned ? ', turned' : ''}: ${JSON.stringify(free)}`;
        if (bound !== undefined) expect(free[bound as keyof typeof free], where).toBeGreaterThanOrEqual(strip);
        expect(Math.min(...Object.values(free)), where).toBeGreaterThanOrEqual(0);
      }
    });
    expect([...seen].sort()).toEqual(duplex ? ['left false', 'left true', 'right false', 'right true'] : ['right false', 'right true']);
  }
});
