/** An SVG drawing as drawing operations: groups, shapes, text, transforms. What it was made plain of, and what is passed over: resolve.ts. */
import { type Op, type Path, rectangle } from '../ops.ts';
import { type Shaper, widthOfAll } from '../shaped.ts';
import { apply, type Matrix, multiply, readTransform, scaleOf } from './matrix.ts';
import { firstPaint, type Paint, paintOf, readLength } from './paint.ts';
import { resolveSvg } from './resolve.ts';
import { outlineOf } from './shapes.ts';
import { readXml, type XmlNode } from './xml.ts';

export interface SvgDrawing {
  /** Natural size in millipoints: a px is three quarters of a point. */
  readonly width: number;
  readonly height: number;
  readonly viewBox: readonly [number, number, number, number];
  readonly root: XmlNode;
  /** What is not drawn, or not as it is meant. */
  readonly lost: readonly string[];
}

/** undefined where the text is no SVG or has no size. */
export function readSvg(source: string): SvgDrawing | undefined {
  const read = readXml(source.replace(/^\ufeff/, '').trim());
  if (read?.name !== 'svg') return undefined;
  const { root, lost } = resolveSvg(read);
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
  if (!(width > 0 && height > 0 && width < 1e6 && height < 1e6)) return undefined;
  const viewBox = hasBox ? (box as unknown as SvgDrawing['viewBox']) : ([0, 0, width, height] as const);
  return { width: Math.round(width * 750), height: Math.round(height * 750), viewBox, root, lost };
}

const hidden = new Set(['defs', 'title', 'desc', 'metadata', 'style', 'script', 'symbol', 'clipPath', 'mask', 'marker', 'pattern']);

/** Operations inside [0, width * scale) by [0, height * scale). */
export function drawSvg(svg: SvgDrawing, scale: number, shaper: Shaper): readonly Op[] {
  const [minX, minY, boxWidth, boxHeight] = svg.viewBox;
  const grow = (svg.width * scale) / boxWidth;
  const ops: Op[] = [{ op: 'clip', path: rectangle(0, 0, Math.round(svg.width * scale), Math.round(svg.height * scale)) }];
  const walk = (node: XmlNode, inherited: Paint, above: Matrix) => {
    if (hidden.has(node.name) || node.attributes.display === 'none') return;
    const paint = paintOf(node.attributes, inherited);
    const matrix = node === svg.root ? above : multiply(above, readTransform(node.attributes.transform));
    if (node.name === 'text') {
      if (paint.shown) drawText(node, paint, matrix, shaper, ops);
      return;
    }
    const outline = paint.shown ? outlineOf(node, boxWidth, boxHeight) : undefined;
    if (outline !== undefined) drawShape(node.name, outline, paint, matrix, ops);
    if (node.name === 'svg' || node.name === 'g' || node.name === 'a') {
      for (const child of node.children) if (typeof child !== 'string') walk(child, paint, matrix);
    }
  };
  walk(svg.root, firstPaint, [grow, 0, 0, grow, -minX * grow, -minY * grow]);
  ops.push({ op: 'unclip' });
  return ops;
}

/** Keeps numbers where a page description can hold them, whatever the drawing says. */
const bounded = (value: number): number => (Number.isFinite(value) ? Math.round(Math.min(5e6, Math.max(-5e6, value))) : 0);

function drawShape(name: string, outline: Path, paint: Paint, matrix: Matrix, ops: Op[]): void {
  if (outline.segments.length < 2) return;
  const points: number[] = [];
  for (let i = 0; i < outline.points.length; i += 2) {
    const [x, y] = apply(matrix, outline.points[i] as number, outline.points[i + 1] as number);
    points.push(bounded(x), bounded(y));
  }
  const path: Path = { segments: outline.segments, points };
  const grow = scaleOf(matrix);
  const fill = name === 'line' ? undefined : paint.fill;
  const stroke =
    paint.stroke === undefined || paint.strokeWidth === 0
      ? undefined
      : {
          colour: paint.stroke,
          width: bounded(paint.strokeWidth * grow),
          cap: paint.cap,
          join: paint.join,
          ...(paint.dash === undefined ? {} : { dash: paint.dash.map((part) => bounded(part * grow)) }),
        };
  const rest = { evenOdd: paint.evenOdd };
  const fillOpacity = paint.opacity * paint.fillOpacity;
  const strokeOpacity = paint.opacity * paint.strokeOpacity;
  if (fill !== undefined && stroke !== undefined && fillOpacity === strokeOpacity)
    ops.push({ op: 'path', path, fill, stroke, ...rest, ...see(fillOpacity) });
  else {
    if (fill !== undefined) ops.push({ op: 'path', path, fill, ...rest, ...see(fillOpacity) });
    if (stroke !== undefined) ops.push({ op: 'path', path, stroke, ...see(strokeOpacity) });
  }
}

const see = (opacity: number): { opacity?: number } => (opacity < 1 ? { opacity: Math.round(opacity * 100) / 100 } : {});

/** Text and tspan, each stretch with its own place where it names one. */
function drawText(root: XmlNode, first: Paint, matrix: Matrix, shaper: Shaper, ops: Op[]): void {
  interface Piece {
    readonly text: string;
    readonly paint: Paint;
  }
  let x = 0;
  let y = 0;
  let pieces: Piece[] = [];
  const flush = () => {
    const shaped = pieces.map((piece) => ({
      ...piece,
      run: shaper.shape(piece.paint.bold ? 'bold' : piece.paint.italic ? 'italic' : 'regular', piece.text),
    }));
    const widths = shaped.map(({ run, paint }) => widthOfAll(run, Math.round(paint.fontSize * 1000)) / 1000);
    const whole = widths.reduce((sum, width) => sum + width, 0);
    const anchor = pieces[0]?.paint.anchor ?? 'start';
    x -= anchor === 'middle' ? whole / 2 : anchor === 'end' ? whole : 0;
    shaped.forEach(({ run, paint }, index) => {
      const drop = paint.baseline === 'middle' ? paint.fontSize * 0.33 : 0;
      const [px, py] = apply(matrix, x, y + drop);
      const grow = scaleOf(matrix);
      x += widths[index] as number;
      if (paint.fill === undefined || grow === 0 || paint.fontSize === 0) return;
      const turned = matrix[1] !== 0 || matrix[2] !== 0 || matrix[0] !== matrix[3];
      const part = (value: number) => Math.round((value * 1000) / grow);
      ops.push({
        op: 'text',
        x: bounded(px),
        y: bounded(py),
        size: Math.max(1, bounded(paint.fontSize * grow)),
        colour: paint.fill,
        run,
        ...(turned ? { turn: [part(matrix[0]), part(-matrix[1]), part(-matrix[2]), part(matrix[3])] as const } : {}),
      });
    });
    pieces = [];
  };
  const walk = (node: XmlNode, paint: Paint) => {
    const a = node.attributes;
    const moves = a.x !== undefined || a.y !== undefined;
    if (moves) flush();
    if (a.x !== undefined) x = readLength(a.x.split(/[\s,]+/)[0], 0);
    if (a.y !== undefined) y = readLength(a.y.split(/[\s,]+/)[0], 0);
    if (a.dx !== undefined || a.dy !== undefined) {
      if (!moves) flush();
      x += readLength(a.dx?.split(/[\s,]+/)[0], 0);
      y += readLength(a.dy?.split(/[\s,]+/)[0], 0);
    }
    for (const child of node.children) {
      if (typeof child !== 'string') {
        if (child.name === 'tspan' || child.name === 'a') walk(child, paintOf(child.attributes, paint));
      } else {
        const text = child.replace(/\s+/g, ' ');
        const opening = pieces.length === 0;
        const said = opening ? text.trimStart() : text;
        if (said !== '') pieces.push({ text: said, paint });
      }
    }
  };
  walk(root, first);
  const last = pieces[pieces.length - 1];
  if (last !== undefined) pieces[pieces.length - 1] = { ...last, text: last.text.trimEnd() };
  flush();
}
