/** Boxes to write in and to tick, each with the field that stands for it in a form, and as what it is where it is printed on paper. Draws only; where they stand is decided by the measuring. */
import { type Op, rectangle } from './ops.ts';
import { leafBoxes } from './short-sheet.ts';
import type { SlabItem } from './slab.ts';
import type { NodeId } from './structure.ts';
import { colours } from './style.ts';
import { type Mp, pt } from './units.ts';

export interface FieldFacts {
  /** Its Form element. */
  readonly node: NodeId;
  readonly name: string;
  readonly says: string;
}

const frame = (width: Mp, height: Mp): Op => ({
  op: 'path',
  path: rectangle(0, 0, width, height),
  fill: colours.paper,
  stroke: { colour: colours.ink, width: leafBoxes.line },
});

/** Only drawn: what stands in it has boxes of its own. */
export const plainBox = (x: Mp, y: Mp, width: Mp, height: Mp): SlabItem => ({ kind: 'art', x, y, ops: [frame(width, height)] });

export function tickBox(x: Mp, y: Mp, field: FieldFacts): SlabItem {
  const side = leafBoxes.tick;
  const box: Op = { op: 'field', kind: 'tick', x: 0, y: 0, width: side, height: side, ...field };
  return { kind: 'art', x, y, node: field.node, ops: [frame(side, side), box] };
}

export interface WriteBox {
  readonly x: Mp;
  readonly y: Mp;
  readonly width: Mp;
  readonly height: Mp;
  /** Kept free at the top for words that say what is to be filled in. */
  readonly words: Mp;
  readonly many?: boolean;
}

export function writeBox(box: WriteBox, field: FieldFacts): SlabItem {
  const { x, y, width, height, words, many } = box;
  const inset = pt(2);
  const at = { x: inset, y: words + pt(1), width: width - 2 * inset, height: height - words - pt(2) };
  return {
    kind: 'art',
    x,
    y,
    node: field.node,
    ops: [frame(width, height), { op: 'field', kind: 'text', ...at, ...field, ...(many ? { many } : {}) }],
  };
}
