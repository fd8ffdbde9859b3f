/** Draws what stands on a leaf of a short form outside the flow: number and title, boxes that tell whose leaf it is, page and revision. Artifacts but for the boxes. */
import type { ShortForm } from '../book.ts';
import { fill } from '../printed-words/index.ts';
import type { Kit } from './kit.ts';
import { artifact, marginNumber, marginText, markLine, markOf } from './margin-ops.ts';
import { type Op, rectangle } from './ops.ts';
import type { PageNumber } from './page-numbers.ts';
import type { PlacedPage } from './place.ts';
import { headCells, headWidth, leafBoxes } from './short-sheet.ts';
import type { NodeId } from './structure.ts';
import { colours, type TextLook } from './style.ts';
import { type Mp, mm, pt } from './units.ts';

export function drawLeafFurniture(page: PlacedPage, number: PageNumber, short: ShortForm, nodes: readonly NodeId[], kit: Kit): Op[] {
  const { sheet } = kit;
  const { body, headBaseline, footBaseline } = page.geometry;
  const bold: TextLook = { ...sheet.furniture, face: 'bold' };
  const words = page.words;
  const third = Math.floor(body.width / 3);
  const foot: Op[] = marginText(words.foot, body.x, body.width - third, footBaseline, 'left');
  if (number.shown !== '') {
    const pageText = fill(kit.words.pageOf, { n: number.shown, total: number.total });
    foot.push(...marginNumber(pageText, bold, body.x + body.width - third, third, footBaseline, 'right', kit));
  }
  if (page.blank) {
    const middle = body.y + Math.round(body.height / 2);
    return artifact('Footer', [...foot, ...marginText(words.blank, body.x, body.width, middle, 'center')]);
  }
  const boxes = headBoxes(page, short, nodes, kit);
  const room = boxes.left - body.x - pt(10);
  const head: Op[] = [
    ...marginText(words.title, body.x, room, headBaseline, 'left'),
    ...marginText(words.section, body.x, room, headBaseline + pt(13), 'left'),
    ...boxes.ops,
    ...(markOf(kit) !== undefined ? markLine({ ...page, geometry: { ...page.geometry, headBaseline: headBaseline - mm(1.6) } }, kit) : []),
  ];
  return [...artifact('Header', head), ...boxes.fields, ...artifact('Footer', foot)];
}

/** At the right of the head; the rest is for number and title. */
function headBoxes(page: PlacedPage, short: ShortForm, nodes: readonly NodeId[], kit: Kit): { left: Mp; ops: Op[]; fields: Op[] } {
  const { body } = page.geometry;
  const left = body.x + body.width - headWidth(body.width);
  const y = body.y - leafBoxes.cell - mm(2.5);
  const ops: Op[] = [];
  const fields: Op[] = [];
  headCells(short.head, body.width).forEach((cell, index) => {
    const { width } = cell;
    const x = left + cell.x;
    const path = rectangle(x, y, width, leafBoxes.cell);
    const frame: Op = { op: 'path', path, stroke: { colour: colours.ink, width: leafBoxes.line } };
    ops.push({ op: 'path', path, fill: colours.paper });
    ops.push(...marginText(page.words.boxes[index] ?? [], x + pt(3), width - pt(6), y + pt(9.2), 'left'));
    const node = nodes[index];
    if (node === undefined) {
      ops.push(frame);
      return;
    }
    const top = y + pt(10.5);
    const height = leafBoxes.cell - pt(12);
    const box = { x: x + pt(2), y: top, width: width - pt(4), height };
    const name = `${page.chapter?.number ?? kit.book.number}, ${cell.field}`;
    fields.push({ op: 'begin', node }, frame, { op: 'field', kind: 'text', ...box, name, node, says: cell.label }, { op: 'end' });
  });
  return { left, ops, fields };
}
