/** What stands on a page outside the flow: running head, foot, the draft mark, the line on a blank page. Artifacts all: read aloud by nobody. */
import type { Kit } from './kit.ts';
import { type Op, rectangle, segment } from './ops.ts';
import type { PlacedPage } from './place.ts';
import { fill } from './printed-words.ts';
import { widthOfAll } from './shaped.ts';
import { colours, type TextLook } from './style.ts';
import { type Mp, mm, pt } from './units.ts';

type Align = 'left' | 'center' | 'right';

function words(text: string, look: TextLook, x: Mp, width: Mp, y: Mp, align: Align, kit: Kit): Op[] {
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

const artifact = (part: 'Header' | 'Footer' | 'Watermark', ops: readonly Op[]): Op[] =>
  ops.length === 0 ? [] : [{ op: 'artifact', type: 'Pagination', part }, ...ops, { op: 'end' }];

/** `index` counts pages from nought; the number printed counts from one, the cover included. */
export function drawFurniture(page: PlacedPage, index: number, total: number, kit: Kit): Op[] {
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
  const number = chapter?.number ?? book.number;
  const revision = chapter?.revision ?? book.revision;
  const date = chapter?.date ?? book.date;
  const stamp = [number, revision === undefined ? '' : fill(kit.words.revision, { r: revision })].filter((text) => text !== '').join('  ');
  const half = Math.round(body.width * 0.62);
  const rest = body.width - half - pt(12);
  // The title stands at the outer edge, where a thumb finds it; the section at the inner one.
  const outerX = left ? body.x : body.x + body.width - half;
  const innerX = left ? body.x + body.width - rest : body.x;
  if (!page.blank) {
    head.push(...words(chapter?.title ?? book.title, bold, outerX, half, headBaseline, left ? 'left' : 'right', kit));
    head.push(...words(page.section, look, innerX, rest, headBaseline, left ? 'right' : 'left', kit));
    const y = headBaseline + mm(2.2);
    head.push({ op: 'path', path: segment(body.x, y, body.x + body.width, y), stroke: { colour: colours.faint, width: pt(0.75) } });
  }
  if (markOf(kit) !== undefined) head.push(...markLine(page, kit));
  const third = Math.floor(body.width / 3);
  const stampText = date === undefined ? stamp : `${stamp}  ${date}`;
  const pageText = fill(kit.words.pageOf, { n: String(index + 1), total: String(total) });
  foot.push(...words(stampText, look, left ? body.x + body.width - third : body.x, third, footBaseline, left ? 'right' : 'left', kit));
  foot.push(...words(pageText, bold, left ? body.x : body.x + body.width - third, third, footBaseline, left ? 'left' : 'right', kit));
  if (book.footLine !== undefined) foot.push(...words(book.footLine, look, body.x, body.width, footBaseline + pt(12), 'center', kit));
  if (page.blank) foot.push(...words(kit.words.blank, look, body.x, body.width, body.y + Math.round(body.height / 2), 'center', kit));
  out.push(...artifact('Header', head), ...artifact('Footer', foot));
  return out;
}

/** What is printed across every page that must not be used as it is. */
const markOf = ({ book, words }: Kit): string | undefined => (book.obsolete ? words.obsolete : book.draft ? words.draft : undefined);

/** In words in the head of every page, dark enough to survive a copier. */
function markLine(page: PlacedPage, kit: Kit): Op[] {
  const { body, headBaseline } = page.geometry;
  const look: TextLook = { ...kit.sheet.furniture, face: 'bold', size: pt(10), colour: colours.paper };
  const run = kit.shaper.shape('bold', markOf(kit) ?? '');
  const wide = widthOfAll(run, look.size);
  const y = headBaseline - pt(13);
  const x = body.x + Math.round((body.width - wide) / 2);
  return [
    { op: 'path', path: rectangle(x - pt(8), y - pt(11), wide + pt(16), pt(15)), fill: colours.ink },
    { op: 'text', x, y, size: look.size, colour: look.colour, run },
  ];
}

/** Large and pale across the page, under everything else. */
export function drawWatermark(page: PlacedPage, kit: Kit): Op[] {
  if (markOf(kit) === undefined) return [];
  const { width, height } = page.geometry;
  const run = kit.shaper.shape('bold', markOf(kit) ?? '');
  const size = pt(46);
  const wide = widthOfAll(run, size);
  // 51 degrees up the page: cosine and sine as thousandths, so that no machine's arithmetic counts.
  const [cos, sin] = [629, 777];
  const x = Math.round(width / 2 - (wide * cos) / 2000);
  const y = Math.round(height / 2 + (wide * sin) / 2000);
  const text: Op = { op: 'text', x, y, size, colour: colours.draft, run, turn: [cos, sin, -sin, cos] };
  return artifact('Watermark', [text]);
}
