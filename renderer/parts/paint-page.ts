/** Paints a printed page, or a part of it, from the same operations that the PDF is written from. Decides nothing about it. */
import type { DrawnPage, Op } from '../../publishing/index.ts';
import type { Band } from './changed-band.ts';

/** In dots of the canvas: where the part begins on the page, which is drawn `scale` dots to the millipoint. */
export interface Part {
  readonly left: number;
  readonly top: number;
  readonly scale: number;
}

/** By the number that the page has it under; undefined: it is not there, or not yet. */
export type PictureOf = (image: number) => CanvasImageSource | undefined;

/** The canvas is as large as the part. `only`: what lies above and below stays as it was painted before. */
export function paintPage(
  context: CanvasRenderingContext2D,
  page: DrawnPage,
  { left, top, scale }: Part,
  pictureOf: PictureOf,
  only?: Band,
): void {
  context.setTransform(scale, 0, 0, scale, -left, -top);
  let begin = top / scale;
  let end = (top + context.canvas.height) / scale;
  context.save();
  if (only) {
    // Whole dots, so that no edge shines through.
    begin = Math.max(begin, Math.floor(only.top * scale) / scale);
    end = Math.min(end, Math.ceil(only.bottom * scale) / scale);
    context.beginPath();
    context.rect(0, begin, page.width, end - begin);
    context.clip();
  }
  context.fillStyle = '#fff';
  context.fillRect(0, 0, page.width, page.height);
  for (const op of page.ops) {
    // Letters take the time; lines of text above and below the part are left out. Twice their size is more than any letter reaches.
    if (op.op === 'text' && op.turn === undefined && (op.y + 2 * op.size < begin || op.y - 2 * op.size > end)) continue;
    paint(context, op, pictureOf);
  }
  context.restore();
}

const css = ([r, g, b]: readonly [number, number, number]): string => `rgb(${r} ${g} ${b})`;

function paint(context: CanvasRenderingContext2D, op: Op, pictureOf: PictureOf): void {
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
    case 'image': {
      const picture = pictureOf(op.image);
      if (picture) context.drawImage(picture, op.x, op.y, op.width, op.height);
      return;
    }
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
