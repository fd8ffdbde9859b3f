/** Drawings as vectors. The XML, path and matrix parts stand; putting them together is not written, so no SVG can be drawn yet and its frame with the words for it is printed instead. */
import type { Op } from '../ops.ts';
import type { Shaper } from '../shaped.ts';

export interface SvgDrawing {
  readonly width: number;
  readonly height: number;
}

export function readSvg(_source: string): SvgDrawing | undefined {
  return undefined;
}

export function drawSvg(_svg: SvgDrawing, _scale: number, _shaper: Shaper): readonly Op[] {
  return [];
}
