/**
 * What guards a whole section, told again at the head of each further page of it: the signal word, what happens, and the page of the notice. An artifact:
 * it stands again for the eye that turned the leaf, and is read aloud once.
 */
import type { Inline, NoticeBlock } from '../book.ts';
import { heightOf } from './break.ts';
import { asArtifact, baselineIn, type Kit, linesIn } from './kit.ts';
import { alertSymbol } from './measure-notice.ts';
import { type Op, rectangle } from './ops.ts';
import type { Room, Slab } from './slab.ts';
import { StructureBuilder } from './structure.ts';
import { colours, costs, signals, type TextLook } from './style.ts';
import { pt } from './units.ts';

export function measureRecall(block: NoticeBlock, room: Room, kit: Kit): Slab | undefined {
  const { recall } = block;
  if (recall === undefined) return undefined;
  const { sheet } = kit;
  const signal = signals[block.word];
  const own = { ...kit, structure: new StructureBuilder() };
  const look: TextLook = { ...sheet.body, face: 'bold', colour: signal.word };
  const word = linesIn([{ kind: 'text', text: block.panel }], look, 0, room.width, own).map(asArtifact)[0];
  const side = look.size + pt(1);
  const symbol = Math.round(side * 1.14) + pt(5);
  const pad = pt(6);
  const panel = pad + symbol + (word?.width ?? 0) + pad;
  const right = room.x + room.width;
  const inline: Inline[] = [
    { kind: 'text', text: `${recall.hazard} ` },
    { kind: 'link', text: '', anchor: recall.anchor, page: true },
  ];
  // Nothing leads from here: what is clicked is read aloud.
  const said = (left: number) =>
    linesIn(inline, sheet.body, 0, right - left - panel - pt(12), { ...own, linkColour: colours.ink }).map(asArtifact);
  // On a small page it begins where labels hang, for the sake of a line.
  const inText = said(room.x);
  const left = inText.length > 2 ? room.left : room.x;
  const lines = left === room.x ? inText : said(left);
  const x = left + panel + pt(7);
  const width = right - x - pt(5);
  const inner = pt(2.5);
  const height = 2 * inner + Math.max(1, lines.length) * sheet.body.lead;
  const base = inner + baselineIn(sheet.body, kit);
  const ops: Op[] = [
    { op: 'path', path: rectangle(0, 0, panel, height), fill: signal.ground },
    ...alertSymbol(pad, inner + Math.round((sheet.body.lead - side) / 2) - pt(0.3), side, signal.word, signal.ground),
    { op: 'path', path: rectangle(0, 0, right - left, height), stroke: { colour: signal.edge, width: pt(1) } },
  ];
  return {
    height: height + pt(9),
    items: [
      { kind: 'art', x: left, y: 0, ops },
      ...(word === undefined
        ? []
        : [{ kind: 'line' as const, x: left + pad + symbol, width: word.width, baseline: base, line: word, align: 'left' as const }]),
      ...lines.map((line, index) => ({
        kind: 'line' as const,
        x,
        width,
        baseline: base + index * sheet.body.lead,
        line,
        align: 'left' as const,
      })),
    ],
    gap: 0,
    cost: 0,
    decor: [],
    of: 'recall',
  };
}

/** What is told again must leave the page to what is done on it. */
const mostOfPage = 1 / 4;

export function recalledOver(slabs: readonly Slab[], recalls: readonly Slab[], kit: Kit): void {
  if (recalls.length === 0) return;
  for (const slab of slabs) {
    // What is parted by force is taller than a page, and has a head of its own to stand again.
    if (slab.cost >= costs.hard) continue;
    const all = [...recalls, ...(slab.resume ?? [])];
    if (heightOf(all) <= kit.pageHeight * mostOfPage) slab.resume = all;
  }
}
