/** The measured page stuff: a slab is a stretch of the flow no page break may enter. Made by measure, ordered by break, given a place by place. */
import type { Op } from './ops.ts';
import type { Line } from './paragraph.ts';
import type { NodeId } from './structure.ts';
import type { bands, Colour } from './style.ts';
import type { Mp } from './units.ts';

export type SlabItem =
  /** A line of text standing in [x, x + width); `baseline` from the top of the slab. */
  | {
      readonly kind: 'line';
      readonly x: Mp;
      readonly width: Mp;
      readonly baseline: Mp;
      readonly line: Line;
      readonly align: 'left' | 'center' | 'right';
    }
  /** Drawing relative to the slab's top left corner; an artifact unless it belongs to a node. */
  | { readonly kind: 'art'; readonly x: Mp; readonly y: Mp; readonly ops: readonly Op[]; readonly node?: NodeId };

/** Something drawn behind all neighbouring slabs that share it (the same object), from the first one's top to the last one's foot. */
export type Decor =
  | { readonly kind: 'band'; readonly x: Mp; readonly width: Mp; readonly state: keyof typeof bands }
  /** In the outer margin, beside what changed since an earlier revision. */
  | { readonly kind: 'change' }
  /** A stroke there, at the head or the foot of what it stands with: something is gone. */
  | { readonly kind: 'gone'; readonly at: 'head' | 'foot' }
  | { readonly kind: 'box'; readonly x: Mp; readonly width: Mp; readonly edge: Colour; readonly line: Mp };

export interface Bookmark {
  readonly level: number;
  readonly title: string;
  readonly anchor: string;
  /** The heading's element, in a book of two languages: it knows which one the title is in. */
  readonly node?: NodeId;
}

export interface Slab {
  readonly height: Mp;
  readonly items: readonly SlabItem[];
  /** Space above it, left out at the top of a page. */
  gap: Mp;
  /** Cost of a page break above it (style.ts, costs). */
  cost: number;
  /** Added where the break is also the turn of a leaf: hands may be in the machine. */
  turn?: number;
  readonly decor: readonly Decor[];
  /** Stands again at the top of a page that begins with this slab: a table's head, a notice's panel. */
  resume?: readonly Slab[];
  anchors?: readonly string[];
  bookmark?: Bookmark;
  /** Heading in force from here, for the running head. */
  section?: string;
  /** For tests and findings: what the slab is part of. */
  readonly of: 'text' | 'heading' | 'notice' | 'notice-panel' | 'table' | 'table-head' | 'recall' | 'figure' | 'other';
  /** Nothing but room: on a cover it may give way, or take what is left. */
  readonly space?: 'fill' | 'give';
  /** Name of the group that must not be parted, where there is one, in words: "step 4 and its notice". */
  group?: string;
}

/** A measured block: its slabs and the space it wants around it. */
export interface Measured {
  readonly slabs: Slab[];
  readonly before: Mp;
  readonly after: Mp;
  /** Least cost of a break between this block and the next. */
  readonly keepNext?: number;
}

/** Where a block may stand. `left` is where labels hang, `x` where text begins; both from the left edge of the body frame. */
export interface Room {
  readonly left: Mp;
  readonly x: Mp;
  readonly width: Mp;
  readonly node: NodeId;
  /** Added cost of any break inside. */
  readonly cost: number;
  readonly decor: readonly Decor[];
}
