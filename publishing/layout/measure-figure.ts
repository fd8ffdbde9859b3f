/** Figures: SVG as vectors, PNG and JPEG as they are, scaled to the room, caption below and never parted. */
import { LEAST_PRINT, MOST_ENLARGED } from '../../procedures-schema/figures/index.ts';
import type { BookBlock, Inline } from '../book.ts';
import { fill } from '../printed-words/index.ts';
import { captionDecor } from './change-marks.ts';
import type { BitmapImage } from './images.ts';
import { baselineIn, type Kit, linesIn, textSlabs } from './kit.ts';
import { moved, type Op, rectangle } from './ops.ts';
import { languageFacts } from './runs.ts';
import type { Measured, Room, Slab, SlabItem } from './slab.ts';
import { colours, costs } from './style.ts';
import { keptSvg } from './svg/index.ts';
import { type Mp, pt } from './units.ts';

type FigureBlock = Extract<BookBlock, { kind: 'figure' }>;

/** No figure takes more than this share of the page, so that its caption and some text stay with it. */
const tallest = 600;

export function measureFigure(block: FigureBlock, room: Room, kit: Kit): Measured {
  const { sheet } = kit;
  const alt = block.alt === '' ? (block.caption ?? '') : block.alt;
  const node = kit.structure.add(room.node, 'Figure', { alt, ...languageFacts(alt, kit) });
  const drawn = picture(block, room.width, Math.round((kit.pageHeight * tallest) / 1000), kit);
  const slabs: Slab[] = [];
  const items: SlabItem[] = [{ kind: 'art', x: room.x, y: 0, ops: drawn.ops, node }];
  if (drawn.text !== undefined) items.push(...drawn.text.map((item) => ({ ...item, x: item.x + room.x })));
  slabs.push({ height: drawn.height, items, gap: 0, cost: 0, decor: room.decor, of: 'figure' });
  if (block.caption !== undefined) {
    // Beside the figure in the tree, not inside: what stands inside a figure is replaced by its alternate text.
    const caption = kit.structure.add(room.node, 'P');
    const inline: Inline[] = [{ kind: 'text', text: block.caption }];
    const place = {
      x: room.x,
      width: Math.min(room.width, sheet.measure),
      node: caption,
      decor: captionDecor(block, room),
      cost: costs.heading,
      of: 'figure' as const,
    };
    const lines = textSlabs(inline, sheet.caption, place, kit);
    lines.forEach((slab, index) => {
      if (index === 0) slab.gap = pt(6);
      slab.cost = costs.heading;
      slab.group = 'a figure and its caption';
    });
    slabs.push(...lines);
  }
  if (block.anchor !== undefined) (slabs[0] as Slab).anchors = [block.anchor];
  return { slabs, before: sheet.around, after: sheet.around, ...(block.leads ? { keepNext: costs.orphan } : {}) };
}

interface Picture {
  readonly height: Mp;
  readonly ops: readonly Op[];
  readonly text?: readonly Extract<SlabItem, { kind: 'line' }>[];
}

function picture(block: FigureBlock, width: Mp, height: Mp, kit: Kit): Picture {
  const { image } = block;
  if (image.kind === 'svg') {
    const kept = keptSvg(image.source, kit.shaper);
    const { read } = kept;
    if ('fault' in read) return placeholder(kit.words.damagedFigure, width, block, kit, read.fault.says);
    const svg = read.drawing;
    const scale = Math.min(width / svg.width, height / svg.height, maxEnlarged(svg.width, width));
    const ops = kept.ops(svg, scale);
    if (svg.lost.length > 0)
      kit.notes.push({
        kind: 'figure-part',
        message: `Of the figure "${block.alt}" is not drawn as meant: ${svg.lost.join(', ')}.`,
        ...placeOf(block),
      });
    const smallest = Math.min(...ops.flatMap((op) => (op.op === 'text' && op.run.length > 0 ? [op.size] : [])));
    if (smallest < LEAST_PRINT)
      kit.notes.push({
        kind: 'small-print',
        message: `The smallest print of the figure "${block.alt}" comes out at ${(smallest / 1000).toFixed(1)} pt; less than ${LEAST_PRINT / 1000} pt is not read at arm's length.`,
        ...placeOf(block),
      });
    return cropped(ops, Math.round(svg.height * scale));
  }
  if (image.kind === 'missing')
    return placeholder(fill(kit.words.missingFigure, { path: image.path }), width, block, kit, `There is no ${image.path}.`);
  const index = kit.images.add(image.kind, image.bytes);
  if (typeof index !== 'number') return placeholder(kit.words.damagedFigure, width, block, kit, index.says);
  const facts = kit.images.images[index] as BitmapImage;
  const scale = Math.min(1, width / facts.width, height / facts.height);
  const w = Math.floor(facts.width * scale);
  const h = Math.floor(facts.height * scale);
  return { height: h, ops: [{ op: 'image', image: index, x: 0, y: 0, width: w, height: h }] };
}

/** White above and below what is drawn is left out: it stands on paper as a hole. */
function cropped(ops: readonly Op[], height: Mp): Picture {
  let top = height;
  let foot = 0;
  const see = (from: Mp, to: Mp): void => {
    top = Math.min(top, from);
    foot = Math.max(foot, to);
  };
  for (const op of ops) {
    if (op.op === 'text' && op.turn !== undefined) return { height, ops };
    if (op.op === 'text') see(op.y - op.size, op.y + Math.round(op.size * 0.3));
    else if (op.op === 'image') see(op.y, op.y + op.height);
    else if (op.op === 'path' && isSeen(op)) {
      const edge = Math.round((op.stroke?.width ?? 0) / 2);
      for (let at = 1; at < op.path.points.length; at += 2) {
        const y = op.path.points[at] as Mp;
        see(y - edge, y + edge);
      }
    }
  }
  const from = Math.max(0, Math.round(top) - pt(2));
  const to = Math.min(height, Math.round(foot) + pt(2));
  if (to <= from || (from === 0 && to === height)) return { height, ops };
  return { height: to - from, ops: from === 0 ? ops : ops.map((op) => moved(op, 0, -from)) };
}

/** A ground as white as the paper is not seen. */
const isSeen = ({ fill, stroke, opacity }: Extract<Op, { op: 'path' }>): boolean =>
  opacity !== 0 && (stroke !== undefined || fill?.some((part) => part !== 255) === true);

/** Drawings smaller than the column are enlarged, but not beyond one and a half times: lines would grow clumsy. */
const maxEnlarged = (width: number, room: Mp): number => (width < room ? Math.min(MOST_ENLARGED, room / width) : 1);

const placeOf = ({ anchor }: FigureBlock): { readonly anchor?: string } => (anchor === undefined ? {} : { anchor });

/** A frame where the picture belongs, and in it that it is missing. `why`: for whoever prints, in the language of all notes; `what` is printed. */
function placeholder(what: string, width: Mp, block: FigureBlock, kit: Kit, why: string): Picture {
  const named = block.alt === '' ? '' : ` "${block.alt}"`;
  kit.notes.push({ kind: 'bad-image', message: `The figure${named} cannot be drawn. ${why.replace(/\.?$/, '.')}`, ...placeOf(block) });
  const look = kit.sheet.body;
  const pad = pt(10);
  // Furniture of the page; the figure's alternate text carries the meaning.
  const set = (inline: readonly Inline[]) => linesIn(inline, look, -1, width - 2 * pad, kit);
  const shows = block.alt === '' ? '' : fill(kit.words.shouldShow, { alt: block.alt });
  const lines = [...set([{ kind: 'strong', text: what }]), ...(shows === '' ? [] : set([{ kind: 'text', text: shows }]))];
  const height = pt(44) + lines.length * look.lead;
  return {
    height,
    ops: [
      {
        op: 'path',
        path: rectangle(0, 0, width, height),
        fill: colours.wash,
        stroke: { colour: colours.ink, width: pt(1.2), dash: [pt(5), pt(3)] },
      },
    ],
    text: lines.map((line, index) => ({
      kind: 'line',
      x: pad,
      width: width - 2 * pad,
      baseline: pt(22) + baselineIn(look, kit) + index * look.lead,
      line,
      align: 'center',
    })),
  };
}
