/** Drawing operations: all a writer (PDF, canvas) needs to know, and all it may know. Origin top left, y down, millipoints. */
import type { Shaped } from './shaped.ts';
import type { NodeId } from './structure.ts';
import type { Colour } from './style.ts';
import type { Mp } from './units.ts';

/** One letter a segment: M and L take one point, C takes three, Z none. `points` holds x, y in turn. */
export interface Path {
  readonly segments: string;
  readonly points: readonly Mp[];
}

export interface Stroke {
  readonly colour: Colour;
  readonly width: Mp;
  readonly dash?: readonly Mp[];
  readonly cap?: 'butt' | 'round' | 'square';
  readonly join?: 'miter' | 'round' | 'bevel';
}

export type Op =
  | { readonly op: 'begin'; readonly node: NodeId }
  | { readonly op: 'artifact'; readonly type: 'Pagination' | 'Layout'; readonly part?: 'Header' | 'Footer' | 'Watermark' }
  | { readonly op: 'end' }
  | {
      readonly op: 'text';
      readonly x: Mp;
      /** Baseline. */
      readonly y: Mp;
      readonly size: Mp;
      readonly colour: Colour;
      readonly run: readonly Shaped[];
      /** Turned text: a, b, c, d of the text matrix in thousandths, y up. */
      readonly turn?: readonly [number, number, number, number];
    }
  | {
      readonly op: 'path';
      readonly path: Path;
      readonly fill?: Colour;
      readonly evenOdd?: boolean;
      readonly stroke?: Stroke;
      readonly opacity?: number;
    }
  | { readonly op: 'clip'; readonly path: Path }
  | { readonly op: 'unclip' }
  | { readonly op: 'image'; readonly image: number; readonly x: Mp; readonly y: Mp; readonly width: Mp; readonly height: Mp }
  | {
      readonly op: 'link';
      readonly x: Mp;
      readonly y: Mp;
      readonly width: Mp;
      readonly height: Mp;
      readonly to: string;
      readonly node: NodeId;
      /** Read aloud for the link. */
      readonly says: string;
    }
  /** A place to fill in. The box is drawn by other operations; a form lets it be filled in on the screen. */
  | {
      readonly op: 'field';
      readonly kind: 'text' | 'tick';
      readonly x: Mp;
      readonly y: Mp;
      readonly width: Mp;
      readonly height: Mp;
      /** Fields of one name hold one value. */
      readonly name: string;
      readonly node: NodeId;
      /** Read aloud for the field. */
      readonly says: string;
      readonly many?: boolean;
    }
  | { readonly op: 'target'; readonly name: string; readonly y: Mp };

export const rectangle = (x: Mp, y: Mp, width: Mp, height: Mp): Path => ({
  segments: 'MLLLZ',
  points: [x, y, x + width, y, x + width, y + height, x, y + height],
});

export const segment = (x1: Mp, y1: Mp, x2: Mp, y2: Mp): Path => ({ segments: 'ML', points: [x1, y1, x2, y2] });

/** Control points of a quarter circle stand 0.5523 of the radius off its ends. */
const kappa = 0.5522847498;

export function roundedRectangle(x: Mp, y: Mp, width: Mp, height: Mp, rx: Mp, ry: Mp = rx): Path {
  const kx = Math.round(rx * (1 - kappa));
  const ky = Math.round(ry * (1 - kappa));
  const r = x + width;
  const b = y + height;
  return {
    segments: 'MLCLCLCLCZ',
    // biome-ignore format: one side a line reads better
    points: [
      x + rx, y, r - rx, y, r - kx, y, r, y + ky, r, y + ry,
      r, b - ry, r, b - ky, r - kx, b, r - rx, b,
      x + rx, b, x + kx, b, x, b - ky, x, b - ry,
      x, y + ry, x, y + ky, x + kx, y, x + rx, y,
    ],
  };
}

export const movedPath = (path: Path, dx: Mp, dy: Mp): Path => ({
  segments: path.segments,
  points: path.points.map((value, index) => value + (index % 2 === 0 ? dx : dy)),
});

export function moved(op: Op, dx: Mp, dy: Mp): Op {
  switch (op.op) {
    case 'text':
    case 'image':
    case 'link':
    case 'field':
      return { ...op, x: op.x + dx, y: op.y + dy };
    case 'path':
    case 'clip':
      return { ...op, path: movedPath(op.path, dx, dy) };
    case 'target':
      return { ...op, y: op.y + dy };
    default:
      return op;
  }
}
