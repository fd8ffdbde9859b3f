/** Words outside the flow that both the bound page and the short form's leaf carry: one line cut to its room, the stamp, the draft mark. */

import { fill } from '../printed-words/index.ts';
import type { Kit } from './kit.ts';
import { type Op, rectangle } from './ops.ts';
import type { PlacedPage } from './place.ts';
import { widthOfAll } from './shaped.ts';
import { colours, type TextLook } from './style.ts';
import { type Mp, pt } from './units.ts';

export type Align = 'left' | 'center' | 'right';

export function marginWords(text: string, look: TextLook, x: Mp, width: Mp, y: Mp, align: Align, kit: Kit): Op[] {
  if (text === '') return [];
  let shown = text;
  let run = kit.shaper.shape(look.face, shown);
  let wide = widthOfAll(run, look.size);
  while (wide > width && shown.length > 4) {
    shown = `${shown.slice(0, -4).trimEnd()}\u2026`;
    run = kit.shaper.shape(look.face, shown);
    wide = widthOfAll(run, look.size);
  }
  const left = align === 'left' ? x : align === 'right' ? x + width - wide : x + Math.round((width - wide) / 2);
  return [{ op: 'text', x: left, y, size: look.size, colour: look.colour, run }];
}

export const artifact = (part: 'Header' | 'Footer' | 'Watermark', ops: readonly Op[]): Op[] =>
  ops.length === 0 ? [] : [{ op: 'artifact', type: 'Pagination', part }, ...ops, { op: 'end' }];

/** Number and revision of what stands on the page. */
export function stampOf(page: PlacedPage, kit: Kit): string {
  const { book, words } = kit;
  const revision = page.chapter?.revision ?? book.revision;
  const parts = [page.chapter?.number ?? book.number, revision === undefined ? '' : fill(words.revision, { r: revision })];
  return parts.filter((text) => text !== '').join('  ');
}

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
