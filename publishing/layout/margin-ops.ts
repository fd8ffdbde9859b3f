/** Draws what the margins say: settled lines, the draft mark, and all of it as artifacts. Decides nothing. */
import type { Kit } from './kit.ts';
import type { MarginLine } from './margin-lines.ts';
import { type Op, rectangle } from './ops.ts';
import type { PlacedPage } from './place.ts';
import { widthOfAll } from './shaped.ts';
import { colours, type TextLook } from './style.ts';
import { type Mp, pt } from './units.ts';

export type Align = 'left' | 'center' | 'right';

/** Lines one below the other, the first at `y`. */
export function marginText(lines: readonly MarginLine[], x: Mp, width: Mp, y: Mp, align: Align): Op[] {
  return lines.map(({ run, width: wide, look }, index): Op => {
    const left = align === 'left' ? x : align === 'right' ? x + width - wide : x + Math.round((width - wide) / 2);
    return { op: 'text', x: left, y: y + index * look.lead, size: look.size, colour: look.colour, run };
  });
}

/** A page number: as many digits as there are, on one line. */
export const marginNumber = (text: string, look: TextLook, x: Mp, width: Mp, y: Mp, align: Align, kit: Kit): Op[] => {
  const run = kit.shaper.shape(look.face, text);
  return marginText([{ run, width: widthOfAll(run, look.size), look }], x, width, y, align);
};

export const artifact = (part: 'Header' | 'Footer' | 'Watermark', ops: readonly Op[]): Op[] =>
  ops.length === 0 ? [] : [{ op: 'artifact', type: 'Pagination', part }, ...ops, { op: 'end' }];

/** What is printed across every page that must not be used as it is. */
export const markOf = ({ book, words }: Kit): string | undefined => (book.obsolete ? words.obsolete : book.draft ? words.draft : undefined);

/** In words in the head of every page, dark enough to survive a copier. */
export function markLine(page: PlacedPage, kit: Kit): Op[] {
  const { body, headBaseline } = page.geometry;
  const run = kit.shaper.shape('bold', markOf(kit) ?? '');
  const size = Math.min(pt(10), Math.floor(((body.width - pt(16)) * pt(10)) / widthOfAll(run, pt(10))));
  const look: TextLook = { ...kit.sheet.furniture, face: 'bold', size, colour: colours.paper };
  const wide = widthOfAll(run, look.size);
  const y = headBaseline - pt(13);
  const x = body.x + Math.round((body.width - wide) / 2);
  return [
    { op: 'path', path: rectangle(x - pt(8), y - pt(11), wide + pt(16), pt(15)), fill: colours.ink },
    { op: 'text', x, y, size: look.size, colour: look.colour, run },
  ];
}
