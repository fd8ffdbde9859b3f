/** One printed page on a canvas, from the same operations that the PDF is written from. Decides nothing about it. */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { DrawnPage, Op } from '../../publishing/index.ts';

interface Props {
  readonly page: DrawnPage;
  /** CSS pixels. */
  readonly width: number;
  readonly label: string;
  /** Names of places on the page to mark, with the place's own height. */
  readonly marked?: string;
}

export function PageCanvas({ page, width, label, marked }: Props): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const height = Math.round((width * page.height) / page.width);
  // A guide has hundreds of pages; only those near the window are painted, and unpainted ones hold no memory.
  const [near, setNear] = useState(false);
  useEffect(() => {
    const watcher = new IntersectionObserver((seen) => setNear(seen.some(({ isIntersecting }) => isIntersecting)), { rootMargin: '100%' });
    if (canvas.current) watcher.observe(canvas.current);
    return () => watcher.disconnect();
  }, []);
  useEffect(() => {
    const element = canvas.current;
    if (element && !near) {
      element.width = 0;
      return;
    }
    const context = element?.getContext('2d');
    if (!element || !context) return;
    const dots = globalThis.devicePixelRatio || 1;
    element.width = Math.round(width * dots);
    element.height = Math.round(height * dots);
    const scale = element.width / page.width;
    context.setTransform(scale, 0, 0, scale, 0, 0);
    context.fillStyle = '#fff';
    context.fillRect(0, 0, page.width, page.height);
    for (const op of page.ops) paint(context, op);
    const target = marked === undefined ? undefined : page.ops.find((op) => op.op === 'target' && op.name === marked);
    if (target?.op === 'target') {
      context.fillStyle = '#7a2e12';
      context.fillRect(0, target.y, page.width / 90, 22_000);
    }
  }, [page, width, height, marked, near]);
  return <canvas ref={canvas} className="page-canvas" style={{ width, height }} role="img" aria-label={label} />;
}

const css = ([r, g, b]: readonly [number, number, number]): string => `rgb(${r} ${g} ${b})`;

function paint(context: CanvasRenderingContext2D, op: Op): void {
  switch (op.op) {
    case 'path': {
      const path = pathOf(op.path);
      context.globalAlpha = op.opacity ?? 1;
      if (op.fill) {
        context.fillStyle = css(op.fill);
        context.fill(path, op.evenOdd ? 'evenodd' : 'nonzero');
      }
      if (op.stroke) {
        context.strokeStyle = css(op.stroke.colour);
        context.lineWidth = op.stroke.width;
        context.setLineDash([...(op.stroke.dash ?? [])]);
        context.lineCap = op.stroke.cap ?? 'butt';
        context.lineJoin = op.stroke.join ?? 'miter';
        context.stroke(path);
      }
      context.globalAlpha = 1;
      return;
    }
    case 'clip':
      context.save();
      context.clip(pathOf(op.path));
      return;
    case 'unclip':
      context.restore();
      return;
    case 'text':
      paintText(context, op);
      return;
    default:
  }
}

const ENLARGED = 100;

/** Glyph by glyph at the printed places, so that lines end where they end on paper. */
function paintText(context: CanvasRenderingContext2D, op: Extract<Op, { op: 'text' }>): void {
  context.save();
  context.translate(op.x, op.y);
  // A canvas sets no type larger than 10,000 pixels: the type is set small and the sheet enlarged.
  const size = op.size / ENLARGED;
  context.scale(ENLARGED, ENLARGED);
  if (op.turn) {
    const [a, b, c, d] = op.turn;
    context.transform(a / 1000, -b / 1000, -c / 1000, d / 1000, 0, 0);
  }
  context.fillStyle = css(op.colour);
  let x = 0;
  let face = '';
  for (const run of op.run) {
    // Reading a font's name takes longer than a word does.
    if (run.face !== face) context.font = `${size}px print-${run.face}`;
    face = run.face;
    run.glyphs.forEach((_, index) => {
      const text = run.texts[index] === '\u00ad' ? '-' : (run.texts[index] ?? '');
      const [dx, dy] = run.offsets?.[index] ?? [0, 0];
      if (text.trim() !== '') context.fillText(text, x + (dx * size) / 1000, (-dy * size) / 1000);
      x += ((run.advances[index] ?? 0) * size) / 1000;
    });
  }
  context.restore();
}

function pathOf({ segments, points }: { readonly segments: string; readonly points: readonly number[] }): Path2D {
  const path = new Path2D();
  let at = 0;
  const next = (): number => {
    at += 1;
    return points[at - 1] ?? 0;
  };
  for (const letter of segments) {
    if (letter === 'M') path.moveTo(next(), next());
    else if (letter === 'L') path.lineTo(next(), next());
    else if (letter === 'C') path.bezierCurveTo(next(), next(), next(), next(), next(), next());
    else path.closePath();
  }
  return path;
}
