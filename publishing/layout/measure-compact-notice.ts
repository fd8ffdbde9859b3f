/** A safety notice for a form that is copied again and again: the colour stands in a block of its own, the word is black on white beside it. */
import type { BookBlock, Flow, NoticeBlock } from '../book.ts';
import { baselineIn, type Kit, linesIn } from './kit.ts';
import type { MeasureFlow } from './measure.ts';
import { alertSymbol } from './measure-notice.ts';
import { type Op, rectangle } from './ops.ts';
import { isSmall } from './short-sheet.ts';
import type { Decor, Measured, Room, Slab, SlabItem } from './slab.ts';
import { colours, signals } from './style.ts';
import { type Mp, mm, pt } from './units.ts';

const block: Mp = mm(10.5);

/** One slab, so that nothing can part it; undefined where it would not fit half a page. */
export function measureCompactNotice(notice: NoticeBlock, room: Room, kit: Kit, flow: MeasureFlow): Measured | undefined {
  const { sheet } = kit;
  const signal = signals[notice.word];
  const note = kit.structure.add(room.node, 'Note');
  const x = room.x + block + pt(6);
  const wide = room.x + room.width - x - pt(5);
  const look = sheet.panel;
  // On a small leaf the word opens the first line of what it says.
  const together = isSmall(kit) ? opened(notice) : undefined;
  const word = together === undefined ? linesIn([{ kind: 'text', text: notice.panel }], look, kit.structure.add(note, 'P'), wide, kit) : [];
  const body = flow((together ?? notice.body).map(strong), { left: x, x, width: wide, node: note, cost: 0, decor: [] }, kit);
  const pad = isSmall(kit) ? pt(3) : pt(4);
  const items: SlabItem[] = [];
  let y = pad;
  for (const line of word) {
    items.push({ kind: 'line', x, width: wide, baseline: y + baselineIn(look, kit), line, align: 'left' });
    y += look.lead;
  }
  for (const slab of body) {
    y += slab === body[0] ? 0 : slab.gap;
    for (const item of slab.items) items.push(item.kind === 'line' ? { ...item, baseline: item.baseline + y } : { ...item, y: item.y + y });
    y += slab.height;
  }
  const height = Math.max(y + pad, block + pt(2));
  if (height > kit.pageHeight / 2) return undefined;
  const side = mm(7.2);
  const ops: Op[] = [{ op: 'path', path: rectangle(0, 0, block, height), fill: signal.ground }];
  if (signal.symbol)
    ops.push(...alertSymbol(Math.round((block - side * 1.14) / 2), Math.round((height - side) / 2), side, signal.word, signal.ground));
  ops.push({
    op: 'path',
    path: rectangle(0, 0, room.width, height),
    stroke: { colour: colours.ink, width: pt(1.1) },
  });
  const slab: Slab = {
    height,
    items: [{ kind: 'art', x: room.x, y: 0, ops }, ...items],
    gap: 0,
    cost: 0,
    decor: [...room.decor, ...marksOf(body, room)],
    of: 'notice',
    group: `the ${notice.panel} notice`,
  };
  return { slabs: [slab], before: sheet.between, after: sheet.between };
}

function opened({ panel, body }: NoticeBlock): Flow | undefined {
  const [first, ...rest] = body;
  if (first?.kind !== 'paragraph') return undefined;
  return [{ ...first, inline: [{ kind: 'strong', text: `${panel}\u2003` }, ...first.inline] }, ...rest];
}

/** Marks of its words stand beside all of it: it is read as one. */
function marksOf(body: readonly Slab[], room: Room): readonly Decor[] {
  if (room.decor.some(({ kind }) => kind === 'change')) return [];
  const marks = body.flatMap(({ decor }) => decor.filter(({ kind }) => kind === 'change' || kind === 'gone'));
  return marks.length === 0 ? [] : [{ kind: 'change' }];
}

/** In bold: the words that must come through the last copy. */
const strong = (block: BookBlock): BookBlock => {
  if (block.kind === 'bullets') return { ...block, items: block.items.map((item) => item.map(strong)) };
  if (block.kind !== 'paragraph') return block;
  const bold = { text: 'strong', em: 'strong-em' } as const;
  return {
    ...block,
    inline: block.inline.map((one) => (one.kind === 'text' || one.kind === 'em' ? { ...one, kind: bold[one.kind] } : one)),
  };
};
