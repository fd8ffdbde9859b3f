/** A safety notice: signal-word panel over its message in one frame. The step it guards and the bond to it: measure-step.ts. */
import type { Inline, NoticeBlock } from '../book.ts';
import { asArtifact, baselineIn, type Kit, linesIn } from './kit.ts';
import type { MeasureFlow } from './measure.ts';
import { type Op, type Path, rectangle } from './ops.ts';
import type { Decor, Measured, Room, Slab } from './slab.ts';
import { type NodeId, StructureBuilder } from './structure.ts';
import { type Colour, costs, signals } from './style.ts';
import { type Mp, pt } from './units.ts';

/** The safety alert symbol: a triangle with an exclamation mark, drawn in a box of the height given. */
export function alertSymbol(x: Mp, y: Mp, height: Mp, mark: Colour, ground: Colour): Op[] {
  const at = (px: number, py: number): [Mp, Mp] => [x + Math.round((px * height) / 100), y + Math.round((py * height) / 100)];
  const triangle: Path = { segments: 'MLLZ', points: [...at(57, 6), ...at(108, 94), ...at(6, 94)] };
  const bar: Path = { segments: 'MLLLZ', points: [...at(51, 33), ...at(63, 33), ...at(60.5, 66), ...at(53.5, 66)] };
  const [cx, cy] = at(57, 78);
  const r = Math.round(height * 0.062);
  const k = Math.round(r * 0.5523);
  const dot: Path = {
    segments: 'MCCCCZ',
    // biome-ignore format: one quarter a line reads better
    points: [
      cx + r, cy, cx + r, cy + k, cx + k, cy + r, cx, cy + r,
      cx - k, cy + r, cx - r, cy + k, cx - r, cy,
      cx - r, cy - k, cx - k, cy - r, cx, cy - r,
      cx + k, cy - r, cx + r, cy - k, cx + r, cy,
    ],
  };
  return [
    { op: 'path', path: triangle, fill: mark, stroke: { colour: mark, width: Math.round(height * 0.1), join: 'round' } },
    { op: 'path', path: bar, fill: ground },
    { op: 'path', path: dot, fill: ground },
  ];
}

export function measureNotice(block: NoticeBlock, room: Room, kit: Kit, flow: MeasureFlow): Measured {
  const { sheet } = kit;
  const note = kit.structure.add(room.node, 'Note');
  const decor = [...room.decor, frameOf(block, room)];
  const panel = panelOf(block, room, kit.structure.add(note, 'P'), [], decor, kit);
  const pad = sheet.boxPad;
  const body = flow(
    block.body,
    { left: room.x + pad, x: room.x + pad, width: room.width - 2 * pad, node: note, cost: costs.notice, decor },
    kit,
  );
  const again = [panelOf(block, room, -1, [], decor, kit)];
  if (block.recall !== undefined) panel.anchors = [block.recall.anchor];
  const slabs = [panel];
  body.forEach((slab, index) => {
    slabs.push({
      ...slab,
      gap: index === 0 ? pt(6) : slab.gap,
      height: slab.height + (index === body.length - 1 ? pt(7) : 0),
      cost: index === 0 ? costs.notice * 2 : Math.max(slab.cost, costs.notice),
      of: 'notice',
      resume: slab.resume ?? again,
      group: `the ${block.panel} notice`,
    });
  });
  // Standing in the flow it guards what follows it, so it goes along.
  return { slabs, before: sheet.around, after: sheet.around, keepNext: costs.heading };
}

/** The head of a notice alone, for the page on which the step it guards goes on: says where the notice is to be read. */
export function noticeHeadAgain(block: NoticeBlock, anchor: string | undefined, room: Room, kit: Kit): Slab {
  const [before = '', after = ''] = kit.words.noticeAgain.split('{n}');
  const said: Inline[] =
    anchor === undefined
      ? [{ kind: 'text', text: `  ${before.trim()}` }]
      : [
          { kind: 'text', text: `  ${before}` },
          { kind: 'link', text: '', anchor, page: true },
          { kind: 'text', text: after },
        ];
  const panel = panelOf(block, room, -1, said, [], kit);
  return { ...panel, height: panel.height + pt(5) };
}

const frameOf = (block: NoticeBlock, room: Room): Decor => ({
  kind: 'box',
  x: room.x,
  width: room.width,
  edge: signals[block.word].edge,
  line: signals[block.word].small ? pt(0.6) : pt(1.25),
});

/** The signal word on its colour, `rest` behind it. With node -1 an artifact: it stands again, and is read aloud once. */
function panelOf(block: NoticeBlock, room: Room, node: NodeId, rest: readonly Inline[], decor: readonly Decor[], kit: Kit): Slab {
  const { sheet } = kit;
  const signal = signals[block.word];
  const look = { ...sheet.panel, colour: signal.word, face: signal.slanted ? ('italic' as const) : ('bold' as const) };
  const pad = signal.small ? pt(1.5) : pt(3);
  const row = sheet.panel.lead + 2 * pad;
  const base = pad + baselineIn(sheet.panel, kit);
  const symbolHeight = sheet.panel.size + pt(1.5);
  const symbolTop = Math.round((row - symbolHeight) / 2) - pt(0.3);
  const symbolWidth = signal.symbol ? Math.round(symbolHeight * 1.14) + pt(7) : 0;
  const x = room.x + sheet.boxPad + symbolWidth;
  const width = room.width - 2 * sheet.boxPad - symbolWidth;
  const inline: Inline[] = [{ kind: 'text', text: block.panel }];
  const lines =
    node >= 0
      ? linesIn(inline, look, node, width, kit)
      : linesIn([...inline, ...rest], look, 0, width, { ...kit, structure: new StructureBuilder() }).map(asArtifact);
  const height = row + Math.max(0, lines.length - 1) * look.lead;
  const widest = lines.reduce((most, line) => Math.max(most, line.width), 0);
  const wide = signal.small ? Math.min(room.width, widest + 2 * sheet.boxPad) : room.width;
  const ops: Op[] = [{ op: 'path', path: rectangle(0, 0, wide, height), fill: signal.ground }];
  if (signal.symbol) ops.push(...alertSymbol(sheet.boxPad, symbolTop, symbolHeight, signal.word, signal.ground));
  return {
    height,
    items: [
      { kind: 'art', x: room.x, y: 0, ops },
      ...lines.map((line, index) => ({
        kind: 'line' as const,
        x,
        width,
        baseline: base + index * look.lead,
        line,
        align: 'left' as const,
      })),
    ],
    gap: 0,
    cost: 0,
    decor,
    of: 'notice-panel',
  };
}
