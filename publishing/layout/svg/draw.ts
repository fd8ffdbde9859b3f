/** An SVG drawing as drawing operations: shapes and text. Reading it, and what is passed over, is for the core's figures. */
import {
  apply,
  type Matrix,
  type Paint,
  type SvgDrawing,
  scaleOf,
  stretchesOf,
  walkSvg,
  type XmlNode,
} from '../../../procedures-schema/figures/index.ts';
import { type Op, type Path, rectangle } from '../ops.ts';
import { type Face, type Shaper, widthOfAll } from '../shaped.ts';
import { outlineOf } from './shapes.ts';

/** Operations inside [0, width * scale) by [0, height * scale). */
export function drawSvg(svg: SvgDrawing, scale: number, shaper: Shaper): readonly Op[] {
  const [minX, minY, boxWidth, boxHeight] = svg.viewBox;
  const grow = (svg.width * scale) / boxWidth;
  const ops: Op[] = [{ op: 'clip', path: rectangle(0, 0, Math.round(svg.width * scale), Math.round(svg.height * scale)) }];
  walkSvg(svg, [grow, 0, 0, grow, -minX * grow, -minY * grow], (node, paint, matrix) => {
    if (node.name === 'text') return drawText(node, paint, matrix, shaper, ops);
    const outline = outlineOf(node, boxWidth, boxHeight);
    if (outline !== undefined) drawShape(node.name, outline, paint, matrix, ops);
  });
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

const faceOf = ({ bold, italic }: Paint): Face => (bold ? (italic ? 'boldItalic' : 'bold') : italic ? 'italic' : 'regular');

function drawText(root: XmlNode, first: Paint, matrix: Matrix, shaper: Shaper, ops: Op[]): void {
  let x = 0;
  let y = 0;
  const grow = scaleOf(matrix);
  for (const stretch of stretchesOf(root, first)) {
    x = (stretch.x ?? x) + stretch.dx;
    y = (stretch.y ?? y) + stretch.dy;
    const shaped = stretch.pieces.map((piece) => ({
      ...piece,
      run: shaper.shape(faceOf(piece.paint), piece.text),
    }));
    const widths = shaped.map(({ run, paint }) => widthOfAll(run, Math.round(paint.fontSize * 1000)) / 1000);
    const whole = widths.reduce((sum, width) => sum + width, 0);
    const anchor = stretch.pieces[0]?.paint.anchor ?? 'start';
    x -= anchor === 'middle' ? whole / 2 : anchor === 'end' ? whole : 0;
    shaped.forEach(({ run, paint }, index) => {
      const drop = paint.baseline === 'middle' ? paint.fontSize * 0.33 : 0;
      const [px, py] = apply(matrix, x, y + drop);
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
  }
}
