/** Draws what stands on a page outside the flow: running head, foot, the draft mark, the line on a blank page. Artifacts all: read aloud by nobody. */

import { fill } from '../printed-words/index.ts';
import type { Kit } from './kit.ts';
import { artifact, marginNumber, marginText, markLine, markOf } from './margin-ops.ts';
import { type Op, segment } from './ops.ts';
import type { PageNumber } from './page-numbers.ts';
import type { PlacedPage } from './place.ts';
import { widthOfAll } from './shaped.ts';
import { colours, type TextLook } from './style.ts';
import { mm, pt } from './units.ts';

export function drawFurniture(page: PlacedPage, number: PageNumber, kit: Kit): Op[] {
  const { sheet } = kit;
  const { body, headBaseline, footBaseline } = page.geometry;
  const bold: TextLook = { ...sheet.furniture, face: 'bold', colour: colours.ink };
  const left = page.side === 'left';
  const mark = markOf(kit) === undefined ? [] : markLine(page, kit);
  if (page.cover) return artifact('Header', mark);
  const words = page.words;
  const foot: Op[] = [];
  const head: Op[] = [];
  if (!page.blank) {
    // The title stands at the outer edge, where a thumb finds it; the section at the inner one, or below the title.
    const outer = left ? 'left' : 'right';
    const inner = words.stacked ? outer : left ? 'right' : 'left';
    const lead = sheet.furniture.lead;
    const below = words.title.length - 1 + (words.stacked ? 1 : 0);
    head.push(...marginText(words.title, body.x, body.width, headBaseline, outer));
    head.push(...marginText(words.section, body.x, body.width, headBaseline + (words.stacked ? lead : 0), inner));
    const y = headBaseline + mm(2.2) + below * lead;
    head.push({ op: 'path', path: segment(body.x, y, body.x + body.width, y), stroke: { colour: colours.faint, width: pt(0.75) } });
  }
  head.push(...mark);
  const third = Math.floor(body.width / 3);
  foot.push(...marginText(words.stamp, left ? body.x + third : body.x, body.width - third, footBaseline, left ? 'right' : 'left'));
  const pageText = fill(kit.words.pageOf, { n: number.shown, total: number.total });
  foot.push(
    ...marginNumber(pageText, bold, left ? body.x : body.x + body.width - third, third, footBaseline, left ? 'left' : 'right', kit),
  );
  foot.push(...marginText(words.foot, body.x, body.width, footBaseline + pt(12), 'center'));
  foot.push(...marginText(words.blank, body.x, body.width, body.y + Math.round(body.height / 2), 'center'));
  return [...artifact('Header', head), ...artifact('Footer', foot)];
}

/** Large and pale across the page, under everything else. */
export function drawWatermark(page: PlacedPage, kit: Kit): Op[] {
  if (markOf(kit) === undefined) return [];
  const { width, height } = page.geometry;
  const run = kit.shaper.shape('bold', markOf(kit) ?? '');
  // 51 degrees up the page: cosine and sine as thousandths, so that no machine's arithmetic counts.
  const [cos, sin] = [629, 777];
  // Cut at the edges it would say something else.
  const room = Math.min(((width - pt(54)) * 1000) / cos, ((height - pt(54)) * 1000) / sin);
  const size = Math.min(pt(46), Math.floor((room * pt(46)) / widthOfAll(run, pt(46))));
  const wide = widthOfAll(run, size);
  const x = Math.round(width / 2 - (wide * cos) / 2000);
  const y = Math.round(height / 2 + (wide * sin) / 2000);
  const text: Op = { op: 'text', x, y, size, colour: colours.draft, run, turn: [cos, sin, -sin, cos] };
  return artifact('Watermark', [text]);
}
