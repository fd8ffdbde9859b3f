/** Thumb tabs: a dark mark at the outer edge of every page of a chapter, a step further down for each, found with the book shut. Furniture only. */
import type { Kit } from './kit.ts';
import type { NormalChapter } from './normalise.ts';
import { type Op, rectangle } from './ops.ts';
import { geometryOf } from './paper.ts';
import type { PlacedPage } from './place.ts';
import { widthOfAll } from './shaped.ts';
import { colours } from './style.ts';
import { mm, pt } from './units.ts';

/** Wide enough to show at the edge of a closed book, narrow enough to stay clear of the text. */
const width = mm(7);

/** The distinct tabs of a book in order of their chapters. */
export const tabsOf = (chapters: readonly NormalChapter[]): readonly string[] => [
  ...new Set(chapters.flatMap(({ tab }) => (tab === undefined ? [] : [tab]))),
];

export function drawTab(page: PlacedPage, tabs: readonly string[], kit: Kit): Op[] {
  const tab = page.chapter?.tab;
  const at = tab === undefined ? -1 : tabs.indexOf(tab);
  if (tab === undefined || at < 0) return [];
  // Of the upright page, also where this one is turned: the tab stands where the thumb is.
  const { body, width: paper, height: tall } = geometryOf(kit.book, page.side);
  // Down the height of the text in equal steps; past what fits, the steps start again from the top.
  const steps = Math.max(4, Math.min(tabs.length, 10));
  const height = Math.floor(body.height / steps);
  const top = body.y + (at % steps) * height;
  const left = page.side === 'left' ? 0 : paper - width;
  const look = { size: pt(9), face: 'bold' as const };
  let said = tab;
  let run = kit.shaper.shape(look.face, said);
  while (widthOfAll(run, look.size) > height - pt(10) && said.length > 3) {
    said = `${said.slice(0, -2).trimEnd()}…`;
    run = kit.shaper.shape(look.face, said);
  }
  const long = widthOfAll(run, look.size);
  const middle = top + Math.round(height / 2);
  // Read from the outside in: up on a left-hand page, down on a right-hand one.
  const up = page.side === 'left';
  const x = left + Math.round(width / 2) + (up ? pt(3.2) : -pt(3.2));
  const y = up ? middle + Math.round(long / 2) : middle - Math.round(long / 2);
  if (page.turned) {
    const x0 = tall - top - height;
    return [
      { op: 'artifact', type: 'Pagination' },
      { op: 'path', path: rectangle(x0, left, height - pt(2), width), fill: colours.ink },
      {
        op: 'text',
        x: x0 + Math.round((height - long) / 2),
        y: left + Math.round(width / 2) + pt(3.2),
        size: look.size,
        colour: colours.paper,
        run,
      },
      { op: 'end' },
    ];
  }
  return [
    { op: 'artifact', type: 'Pagination' },
    { op: 'path', path: rectangle(left, top, width, height - pt(2)), fill: colours.ink },
    { op: 'text', x, y, size: look.size, colour: colours.paper, run, turn: up ? [0, 1000, -1000, 0] : [0, -1000, 1000, 0] },
    { op: 'end' },
  ];
}
