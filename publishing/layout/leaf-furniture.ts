/** What stands on a leaf of a short form outside the flow: number and title, boxes that tell whose leaf it is, page and revision. Artifacts but for the boxes. */
import type { ShortForm } from '../book.ts';
import { fill } from '../printed-words/index.ts';
import type { Kit } from './kit.ts';
import { artifact, marginWords, markLine, markOf, stampOf } from './margin-words.ts';
import { type Op, rectangle } from './ops.ts';
import type { PageNumber } from './page-numbers.ts';
import type { PlacedPage } from './place.ts';
import { leafBoxes } from './short-sheet.ts';
import type { NodeId } from './structure.ts';
import { colours, type TextLook } from './style.ts';
import { type Mp, mm, pt } from './units.ts';

export function drawLeafFurniture(page: PlacedPage, number: PageNumber, short: ShortForm, nodes: readonly NodeId[], kit: Kit): Op[] {
  const { book, sheet } = kit;
  const { body, headBaseline, footBaseline } = page.geometry;
  const look: TextLook = sheet.furniture;
  const bold: TextLook = { ...look, face: 'bold' };
  const stamp = stampOf(page, kit);
  const date = page.chapter?.date ?? book.date;
  const foot: Op[] = [];
  const third = Math.floor(body.width / 3);
  if (number.shown !== '') {
    const pageText = fill(kit.words.pageOf, { n: number.shown, total: number.total });
    foot.push(
      ...marginWords(date === undefined ? stamp : `${stamp}  ${date}`, bold, body.x, body.width - third, footBaseline, 'left', kit),
    );
    foot.push(...marginWords(pageText, bold, body.x + body.width - third, third, footBaseline, 'right', kit));
  }
  if (book.footLine !== undefined) {
    const y = footBaseline + (number.shown === '' ? 0 : pt(11));
    foot.push(...marginWords(book.footLine, look, body.x, body.width, y, 'center', kit));
  }
  if (page.blank) {
    const middle = body.y + Math.round(body.height / 2);
    return artifact('Footer', [...foot, ...marginWords(kit.words.blank, look, body.x, body.width, middle, 'center', kit)]);
  }
  const boxes = headBoxes(page, short, nodes, kit);
  const room = boxes.left - body.x - pt(10);
  const title: TextLook = { ...bold, size: pt(10.5) };
  // The first leaf of a form opens with number and title of its own.
  const opens = number.shown === '1';
  const upper = opens ? book.publisher : stamp;
  const lower = opens ? kit.words.checklist : (page.chapter?.title ?? book.title);
  const head: Op[] = [
    ...marginWords(upper, title, body.x, room, headBaseline, 'left', kit),
    ...marginWords(lower, { ...look, size: pt(9.5) }, body.x, room, headBaseline + pt(13), 'left', kit),
    ...boxes.ops,
    ...(markOf(kit) !== undefined ? markLine({ ...page, geometry: { ...page.geometry, headBaseline: headBaseline - mm(1.6) } }, kit) : []),
  ];
  return [...artifact('Header', head), ...boxes.fields, ...artifact('Footer', foot)];
}

/** Half of the head is boxes; the rest is for number and title. */
function headBoxes(page: PlacedPage, short: ShortForm, nodes: readonly NodeId[], kit: Kit): { left: Mp; ops: Op[]; fields: Op[] } {
  const { body } = page.geometry;
  const small: TextLook = { ...kit.sheet.furniture, face: 'bold', size: leafBoxes.label };
  const all = Math.round(body.width * 0.5);
  const left = body.x + body.width - all;
  const y = body.y - leafBoxes.cell - mm(3.5);
  const ops: Op[] = [];
  const fields: Op[] = [];
  let x = left;
  short.head.forEach((cell, index) => {
    const width = index === short.head.length - 1 ? left + all - x : Math.round((all * cell.share) / 1000);
    const path = rectangle(x, y, width, leafBoxes.cell);
    const frame: Op = { op: 'path', path, stroke: { colour: colours.ink, width: leafBoxes.line } };
    ops.push({ op: 'path', path, fill: colours.paper });
    ops.push(...marginWords(cell.label, small, x + pt(3), width - pt(6), y + pt(9.2), 'left', kit));
    const node = nodes[index];
    if (node !== undefined) {
      const top = y + pt(10.5);
      const height = leafBoxes.cell - pt(12);
      const box = { x: x + pt(2), y: top, width: width - pt(4), height };
      const name = `${page.chapter?.number ?? kit.book.number}, ${cell.field}`;
      fields.push({ op: 'begin', node }, frame, { op: 'field', kind: 'text', ...box, name, node, says: cell.label }, { op: 'end' });
    } else ops.push(frame);
    x += width;
  });
  return { left, ops, fields };
}
