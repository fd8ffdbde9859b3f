/** An SVG drawing read and walked: its size, what is drawn in which order, the words that stand in it. Leaves drawing to publishing. */
import type { Fault } from '../model.ts';
import { heldAsDrawing } from '../sniff.ts';
import { type Matrix, multiply, readTransform, scaleOf } from './matrix.ts';
import { firstPaint, type Paint, paintOf, readLength } from './paint.ts';
import { resolveSvg } from './resolve.ts';
import { readXml, type XmlNode } from './xml.ts';

export interface SvgDrawing {
  /** Natural size in thousandths of a point: a px is three quarters of a point. */
  readonly width: number;
  readonly height: number;
  readonly viewBox: readonly [number, number, number, number];
  readonly root: XmlNode;
  /** What is not drawn, or not as it is meant. */
  readonly lost: readonly string[];
}

/** A drawing, or why the text is none. */
export function readSvg(source: string): { readonly drawing: SvgDrawing } | { readonly fault: Fault } {
  const other = heldAsDrawing(source);
  if (other) return other;
  const read = readXml(source.replace(/^\ufeff/, ''));
  if ('fault' in read) return read;
  if (read.root.name !== 'svg')
    return {
      fault: { says: `Its outermost element is <${read.root.name}>, not <svg>.`, right: 'A drawing saved as plain SVG.' },
    };
  const { root, lost } = resolveSvg(read.root);
  const box = (root.attributes.viewBox ?? '')
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const hasBox = box.length === 4 && box.every(Number.isFinite) && (box[2] as number) > 0 && (box[3] as number) > 0;
  const boxWidth = hasBox ? (box[2] as number) : 300;
  const boxHeight = hasBox ? (box[3] as number) : 150;
  const given = readLength(root.attributes.width, 0, 0);
  const width = given > 0 ? given : boxWidth;
  const tall = readLength(root.attributes.height, 0, 0);
  // With a box the drawing keeps its proportions whatever width and height say (preserveAspectRatio is taken as "meet").
  const height = hasBox ? (width * boxHeight) / boxWidth : tall > 0 ? tall : 150;
  if (!(width > 0 && height > 0 && width < 1e6 && height < 1e6))
    return {
      fault: { says: 'Its width or height is nothing that a page can hold.', right: 'A width and a height in px, mm or in, or a viewBox.' },
    };
  const viewBox = hasBox ? (box as unknown as SvgDrawing['viewBox']) : ([0, 0, width, height] as const);
  return { drawing: { width: Math.round(width * 750), height: Math.round(height * 750), viewBox, root, lost } };
}

const hidden = new Set(['defs', 'title', 'desc', 'metadata', 'style', 'script', 'symbol', 'clipPath', 'mask', 'marker', 'pattern']);

/** Every element that is shown, in the order drawn, with its paint and the transform that it stands under. `from` is that of the whole. */
export function walkSvg(svg: SvgDrawing, from: Matrix, see: (node: XmlNode, paint: Paint, matrix: Matrix) => void): void {
  const walk = (node: XmlNode, inherited: Paint, above: Matrix) => {
    if (hidden.has(node.name) || node.attributes.display === 'none') return;
    const paint = paintOf(node.attributes, inherited);
    const matrix = node === svg.root ? above : multiply(above, readTransform(node.attributes.transform));
    if (paint.shown) see(node, paint, matrix);
    if (node.name === 'svg' || node.name === 'g' || node.name === 'a') {
      for (const child of node.children) if (typeof child !== 'string') walk(child, paint, matrix);
    }
  };
  walk(svg.root, firstPaint, from);
}

/** Words that stand in one go. Where a place is given it is taken; else they go on where the last ended. */
export interface Stretch {
  readonly x: number | undefined;
  readonly y: number | undefined;
  readonly dx: number;
  readonly dy: number;
  readonly pieces: readonly { readonly text: string; readonly paint: Paint }[];
}

/** Text and tspan, each stretch with its own place where it names one. */
export function stretchesOf(root: XmlNode, first: Paint): readonly Stretch[] {
  const out: { x: number | undefined; y: number | undefined; dx: number; dy: number; pieces: { text: string; paint: Paint }[] }[] = [];
  const begin = () => {
    const made = { x: undefined, y: undefined, dx: 0, dy: 0, pieces: [] } as (typeof out)[number];
    out.push(made);
    return made;
  };
  let last = begin();
  const walk = (node: XmlNode, paint: Paint) => {
    const { x, y, dx, dy } = node.attributes;
    if (x !== undefined || y !== undefined || dx !== undefined || dy !== undefined) last = begin();
    if (x !== undefined) last.x = readLength(x.split(/[\s,]+/)[0], 0);
    if (y !== undefined) last.y = readLength(y.split(/[\s,]+/)[0], 0);
    last.dx += readLength(dx?.split(/[\s,]+/)[0], 0);
    last.dy += readLength(dy?.split(/[\s,]+/)[0], 0);
    for (const child of node.children) {
      if (typeof child !== 'string') {
        if (child.name === 'tspan' || child.name === 'a') walk(child, paintOf(child.attributes, paint));
      } else {
        const text = child.replace(/\s+/g, ' ');
        const said = last.pieces.length === 0 ? text.trimStart() : text;
        if (said !== '') last.pieces.push({ text: said, paint });
      }
    }
  };
  walk(root, first);
  const end = last.pieces.at(-1);
  if (end !== undefined) last.pieces[last.pieces.length - 1] = { ...end, text: end.text.trimEnd() };
  return out;
}

/** What stands in a drawing for people to read: each stretch once, and the size of the smallest print as drawn. */
export function wordsOf(svg: SvgDrawing): { readonly labels: readonly string[]; readonly smallest: number | undefined } {
  const labels = new Set<string>();
  let smallest: number | undefined;
  const grow = svg.width / svg.viewBox[2];
  walkSvg(svg, [grow, 0, 0, grow, 0, 0], (node, first, matrix) => {
    if (node.name !== 'text') return;
    for (const { pieces } of stretchesOf(node, first)) {
      const seen = pieces.filter(({ text, paint }) => paint.fill !== undefined && paint.fontSize > 0 && text.trim() !== '');
      const said = seen
        .map(({ text }) => text)
        .join('')
        .trim();
      if (said !== '' && scaleOf(matrix) > 0) labels.add(said);
      for (const { paint } of seen) {
        const size = Math.round(paint.fontSize * scaleOf(matrix));
        if (size > 0) smallest = Math.min(smallest ?? size, size);
      }
    }
  });
  return { labels: [...labels], smallest };
}
