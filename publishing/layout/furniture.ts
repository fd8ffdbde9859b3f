/** What stands on a page outside the flow: running head, foot, the draft mark, the line on a blank page. Artifacts all: read aloud by nobody. */

import { fill } from '../printed-words/index.ts';
import type { Kit } from './kit.ts';
import { artifact, marginWords, markLine, markOf, stampOf } from './margin-words.ts';
import { type Op, segment } from './ops.ts';
import type { PageNumber } from './page-numbers.ts';
import type { PlacedPage } from './place.ts';
import { widthOfAll } from './shaped.ts';
import { colours, type TextLook } from './style.ts';
import { mm, pt } from './units.ts';

export function drawFurniture(page: PlacedPage, number: PageNumber, kit: Kit): Op[] {
  const { book, sheet } = kit;
  const { body, headBaseline, footBaseline } = page.geometry;
  const look = sheet.furniture;
  const bold: TextLook = { ...look, face: 'bold', colour: colours.ink };
  const left = page.side === 'left';
  const out: Op[] = [];
  const foot: Op[] = [];
  const head: Op[] = [];
  if (page.cover) {
    if (markOf(kit) !== undefined) head.push(...markLine(page, kit));
    return artifact('Header', head);
  }
  const chapter = page.chapter;
  const date = chapter?.date ?? book.date;
  const stamp = stampOf(page, kit);
  const wide = (text: string, { face, size }: TextLook): number => widthOfAll(kit.shaper.shape(face, text), size);
  // Room by need: one of the two is cut only where both are long.
  const room = body.width - pt(12);
  const title = wide(chapter?.title ?? book.title, bold);
  const section = wide(page.section, look);
  const rest = title + section <= room ? section : Math.min(section, Math.max(Math.round(room * 0.38), room - title));
  const half = room - rest;
  // The title stands at the outer edge, where a thumb finds it; the section at the inner one.
  const outerX = left ? body.x : body.x + body.width - half;
  const innerX = left ? body.x + body.width - rest : body.x;
  if (!page.blank) {
    head.push(...marginWords(chapter?.title ?? book.title, bold, outerX, half, headBaseline, left ? 'left' : 'right', kit));
    head.push(...marginWords(page.section, look, innerX, rest, headBaseline, left ? 'right' : 'left', kit));
    const y = headBaseline + mm(2.2);
    head.push({ op: 'path', path: segment(body.x, y, body.x + body.width, y), stroke: { colour: colours.faint, width: pt(0.75) } });
  }
  if (markOf(kit) !== undefined) head.push(...markLine(page, kit));
  const third = Math.floor(body.width / 3);
  // A leaf that is taken out says also which guide it belongs to.
  const guide = chapter?.number === undefined || chapter.number === book.number ? undefined : book.number;
  const stampText = [date === undefined ? stamp : `${stamp}  ${date}`, guide]
    .filter((part) => part !== undefined && part !== '')
    .join(' \u00b7 ');
  const pageText = fill(kit.words.pageOf, { n: number.shown, total: number.total });
  foot.push(
    ...marginWords(stampText, look, left ? body.x + third : body.x, body.width - third, footBaseline, left ? 'right' : 'left', kit),
  );
  foot.push(...marginWords(pageText, bold, left ? body.x : body.x + body.width - third, third, footBaseline, left ? 'left' : 'right', kit));
  if (book.footLine !== undefined) foot.push(...marginWords(book.footLine, look, body.x, body.width, footBaseline + pt(12), 'center', kit));
  if (page.blank) foot.push(...marginWords(kit.words.blank, look, body.x, body.width, body.y + Math.round(body.height / 2), 'center', kit));
  out.push(...artifact('Header', head), ...artifact('Footer', foot));
  return out;
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
