/** Drawings as they were drawn last: with every key of a text all its pages are measured anew, and its figures are what they were. Adds nothing to them. */
import { readSvg, type SvgDrawing } from '../../../procedures-schema/figures/index.ts';
import type { Op } from '../ops.ts';
import type { Shaper } from '../shaped.ts';
import { drawSvg } from './draw.ts';

interface Drawn {
  readonly read: ReturnType<typeof readSvg>;
  /** By scale: a figure may stand in a column and on a turned page. */
  readonly ops: Map<number, readonly Op[]>;
}

/** Drawings of one document, or a little more: beyond, those drawn first are drawn again. */
const MOST = 60;

const drawn = new WeakMap<Shaper, Map<string, Drawn>>();

export interface SvgKept {
  readonly read: ReturnType<typeof readSvg>;
  readonly ops: (svg: SvgDrawing, scale: number) => readonly Op[];
}

export function keptSvg(source: string, shaper: Shaper): SvgKept {
  const own = drawn.get(shaper) ?? new Map<string, Drawn>();
  drawn.set(shaper, own);
  const known = own.get(source) ?? { read: readSvg(source), ops: new Map<number, readonly Op[]>() };
  own.delete(source);
  own.set(source, known);
  for (const [first] of own) if (own.size > MOST) own.delete(first);
  return {
    read: known.read,
    ops: (svg, scale) => {
      const ops = known.ops.get(scale) ?? drawSvg(svg, scale, shaper);
      known.ops.set(scale, ops);
      return ops;
    },
  };
}
