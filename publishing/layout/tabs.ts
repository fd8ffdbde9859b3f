/** Thumb tabs: a dark mark at the outer edge of every page of a chapter, a step further down for each, found with the book shut. Furniture only. */
import type { Book } from '../book.ts';
import type { Kit } from './kit.ts';
import { type MarginLine, marginLines } from './margin-lines.ts';
import type { NormalChapter } from './normalise.ts';
import { type Op, rectangle } from './ops.ts';
import { geometryOf } from './paper.ts';
import type { PlacedPage } from './place.ts';
import { colours, type TextLook } from './style.ts';
import { type Mp, mm, pt } from './units.ts';

/** Wide enough to show at the edge of a closed book, narrow enough to stay clear of the text. */
const width = mm(7);

export interface Tab {
  readonly name: string;
  /** Its words, on two lines where one is too short. */
  readonly lines: readonly MarginLine[];
}

/** The distinct tabs of a book in order of their chapters. */
export function tabsOf(chapters: readonly NormalChapter[], kit: Kit): readonly Tab[] {
  const names = [...new Set(chapters.flatMap(({ tab }) => (tab === undefined ? [] : [tab])))];
  const height = Math.min(heightOf('left', names.length, kit.book), heightOf('right', names.length, kit.book));
  const one: TextLook = { ...kit.sheet.furniture, face: 'bold', size: pt(9), lead: pt(8.5), colour: colours.paper };
  return names.map((name) => {
    const whole = marginLines(name, one, height - pt(10), 2, kit);
    // Two lines of full size are wider than the tab.
    return { name, lines: whole.length === 1 ? whole : marginLines(name, { ...one, size: pt(7) }, height - pt(10), 2, kit) };
  });
}

// Down the height of the text in equal steps; past what fits, the steps start again from the top.
const stepsOf = (count: number): number => Math.max(4, Math.min(count, 10));
const heightOf = (side: PlacedPage['side'], count: number, book: Book): Mp =>
  Math.floor(geometryOf(book, side).body.height / stepsOf(count));

export function drawTab(page: PlacedPage, tabs: readonly Tab[], kit: Kit): Op[] {
  const at = tabs.findIndex(({ name }) => name === page.chapter?.tab);
  const tab = tabs[at];
  if (tab === undefined) return [];
  // Of the upright page, also where this one is turned: the tab stands where the thumb is.
  const { body, width: paper, height: tall } = geometryOf(kit.book, page.side);
  const height = heightOf(page.side, tabs.length, kit.book);
  const top = body.y + (at % stepsOf(tabs.length)) * height;
  const left = page.side === 'left' ? 0 : paper - width;
  const middle = top + Math.round(height / 2);
  const x0 = tall - top - height;
  const words = tab.lines.map(({ run, width: long, look }, index): Op => {
    // Across the tab, the middle of all lines in its middle.
    const off = pt(3.2) + Math.round((index - (tab.lines.length - 1) / 2) * look.lead);
    const common = { op: 'text' as const, size: look.size, colour: look.colour, run };
    if (page.turned) return { ...common, x: x0 + Math.round((height - long) / 2), y: left + Math.round(width / 2) + off };
    // Read from the outside in: up on a left-hand page, down on a right-hand one.
    const up = page.side === 'left';
    const x = left + Math.round(width / 2) + (up ? off : -off);
    const y = up ? middle + Math.round(long / 2) : middle - Math.round(long / 2);
    return { ...common, x, y, turn: up ? [0, 1000, -1000, 0] : [0, -1000, 1000, 0] };
  });
  const box = page.turned ? rectangle(x0, left, height - pt(2), width) : rectangle(left, top, width, height - pt(2));
  return [{ op: 'artifact', type: 'Pagination' }, { op: 'path', path: box, fill: colours.ink }, ...words, { op: 'end' }];
}
