/** SVG path data to moves, lines and cubic curves (SVG 2, chapter 9 and appendix B.2.4 for arcs). Leaves transforms to the caller. */
import { turn } from '../../../procedures-schema/figures/index.ts';

export interface Outline {
  readonly segments: string;
  readonly points: readonly number[];
}

const argumentCount: Readonly<Record<string, number>> = { m: 2, l: 2, h: 1, v: 1, c: 6, s: 4, q: 4, t: 2, a: 7, z: 0 };

/** Reads until the first error, as the standard asks, and draws what came before it. */
export function readPath(text: string): Outline {
  let segments = '';
  const points: number[] = [];
  let x = 0;
  let y = 0;
  let startX = 0;
  let startY = 0;
  let controlX = 0;
  let controlY = 0;
  let previous = '';
  const curve = (x1: number, y1: number, x2: number, y2: number, x3: number, y3: number) => {
    segments += 'C';
    points.push(x1, y1, x2, y2, x3, y3);
    x = x3;
    y = y3;
  };
  let at = 0;
  const skip = () => {
    while (at < text.length && /[\s,]/.test(text[at] as string)) at += 1;
  };
  const numberPattern = /[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/iy;
  const readNumber = (flag: boolean): number | undefined => {
    skip();
    if (flag) {
      const digit = text[at];
      if (digit !== '0' && digit !== '1') return undefined;
      at += 1;
      return digit === '1' ? 1 : 0;
    }
    numberPattern.lastIndex = at;
    const match = numberPattern.exec(text);
    if (match === null) return undefined;
    at = numberPattern.lastIndex;
    return Number(match[0]);
  };
  let command = '';
  for (;;) {
    skip();
    if (at >= text.length) break;
    const letter = text[at] as string;
    if (/[a-z]/i.test(letter)) {
      command = letter;
      at += 1;
    } else if (command === '' || command === 'z' || command === 'Z') break;
    else if (command === 'm') command = 'l';
    else if (command === 'M') command = 'L';
    const kind = command.toLowerCase();
    const count = argumentCount[kind];
    if (count === undefined || (segments === '' && kind !== 'm')) break;
    const n: number[] = [];
    for (let i = 0; i < count; i += 1) {
      const value = readNumber(kind === 'a' && (i === 3 || i === 4));
      if (value === undefined) return { segments, points };
      n.push(value);
    }
    const relative = command === kind;
    const ax = (i: number) => (n[i] as number) + (relative ? x : 0);
    const ay = (i: number) => (n[i] as number) + (relative ? y : 0);
    switch (kind) {
      case 'm':
      case 'l': {
        const [nx, ny] = [ax(0), ay(1)];
        segments += kind === 'm' ? 'M' : 'L';
        points.push(nx, ny);
        x = nx;
        y = ny;
        if (kind === 'm') {
          startX = x;
          startY = y;
        }
        break;
      }
      case 'h':
      case 'v': {
        if (kind === 'h') x = ax(0);
        else y = ay(0);
        segments += 'L';
        points.push(x, y);
        break;
      }
      case 'c': {
        const c = [ax(0), ay(1), ax(2), ay(3), ax(4), ay(5)] as const;
        [controlX, controlY] = [c[2], c[3]];
        curve(...c);
        break;
      }
      case 's': {
        const smooth = previous === 'c' || previous === 's';
        const first = smooth ? [2 * x - controlX, 2 * y - controlY] : [x, y];
        const c = [ax(0), ay(1), ax(2), ay(3)] as const;
        [controlX, controlY] = [c[0], c[1]];
        curve(first[0] as number, first[1] as number, ...c);
        break;
      }
      case 'q':
      case 't': {
        const smooth = previous === 'q' || previous === 't';
        const [qx, qy] = kind === 'q' ? [ax(0), ay(1)] : smooth ? [2 * x - controlX, 2 * y - controlY] : [x, y];
        const [ex, ey] = kind === 'q' ? [ax(2), ay(3)] : [ax(0), ay(1)];
        [controlX, controlY] = [qx, qy];
        curve(x + (2 / 3) * (qx - x), y + (2 / 3) * (qy - y), ex + (2 / 3) * (qx - ex), ey + (2 / 3) * (qy - ey), ex, ey);
        break;
      }
      case 'a': {
        const [ex, ey] = [ax(5), ay(6)];
        for (const c of arcCurves(x, y, n[0] as number, n[1] as number, n[2] as number, n[3] === 1, n[4] === 1, ex, ey)) {
          if (c.length === 2) {
            segments += 'L';
            points.push(...c);
          } else {
            segments += 'C';
            points.push(...c);
          }
        }
        x = ex;
        y = ey;
        break;
      }
      default:
        segments += 'Z';
        x = startX;
        y = startY;
    }
    previous = kind;
  }
  return { segments, points };
}

/** Curves of an elliptical arc, each of a quarter turn at most; one point alone means a straight line. */
export function arcCurves(
  x1: number,
  y1: number,
  rx0: number,
  ry0: number,
  degrees: number,
  large: boolean,
  sweep: boolean,
  x2: number,
  y2: number,
): readonly (readonly number[])[] {
  let rx = Math.abs(rx0);
  let ry = Math.abs(ry0);
  if (rx === 0 || ry === 0 || (x1 === x2 && y1 === y2)) return x1 === x2 && y1 === y2 ? [] : [[x2, y2]];
  const [s, c] = turn(degrees);
  // Into the frame where the ellipse is the unit circle.
  const dx = (c * (x1 - x2) + s * (y1 - y2)) / 2;
  const dy = (-s * (x1 - x2) + c * (y1 - y2)) / 2;
  const grow = (dx * dx) / (rx * rx) + (dy * dy) / (ry * ry);
  if (grow > 1) {
    rx *= Math.sqrt(grow);
    ry *= Math.sqrt(grow);
  }
  const ux = dx / rx;
  const uy = dy / ry;
  const square = ux * ux + uy * uy;
  const away = Math.sqrt(Math.max(0, (1 - square) / Math.max(square, 1e-12))) * (large === sweep ? -1 : 1);
  const cx = away * uy;
  const cy = -away * ux;
  let from: readonly [number, number] = [ux - cx, uy - cy];
  const to: readonly [number, number] = [-ux - cx, -uy - cy];
  const direction = sweep ? 1 : -1;
  const out: number[][] = [];
  const place = (u: number, v: number): [number, number] => {
    const px = (u + cx) * rx;
    const py = (v + cy) * ry;
    return [c * px - s * py + (x1 + x2) / 2, s * px + c * py + (y1 + y2) / 2];
  };
  for (let quarter = 0; quarter < 5; quarter += 1) {
    const cross = (from[0] * to[1] - from[1] * to[0]) * direction;
    const dot = from[0] * to[0] + from[1] * to[1];
    const last = cross >= -1e-9 && dot >= -1e-9 && !(quarter === 0 && large);
    const next: readonly [number, number] = last ? to : [-from[1] * direction, from[0] * direction];
    const cosine = Math.min(1, Math.max(-1, from[0] * next[0] + from[1] * next[1]));
    // tan of half the angle from its cosine, then of a quarter of it.
    const half = Math.sqrt((1 - cosine) / (1 + cosine));
    const k = ((4 / 3) * half) / (1 + Math.sqrt(1 + half * half)) || 0;
    const a = place(from[0] - k * direction * from[1], from[1] + k * direction * from[0]);
    const b = place(next[0] + k * direction * next[1], next[1] - k * direction * next[0]);
    const end = last ? ([x2, y2] as [number, number]) : place(next[0], next[1]);
    out.push([...a, ...b, ...end]);
    from = next;
    if (last) break;
  }
  return out;
}
