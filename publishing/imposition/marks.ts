/** Marks outside the pages: where to cut, and where to fold. Drawn in black, a quarter point wide, off the corner they point at. */
import { type Op, segment } from '../layout/index.ts';
import type { Frame } from './impose.ts';

const off = 6_000;
const long = 14_000;
const black = [0, 0, 0] as const;

/** Corners of the pair of pages; the fold where the pages meet, dashed, at head and foot. Cut apart there when not folded. */
export function sheetMarks(frame: Frame, folded: boolean, width: number, height: number): Op[] {
  const right = frame.middle + frame.width;
  const foot = frame.top + frame.height;
  const line = (x1: number, y1: number, x2: number, y2: number, dash = false): Op => ({
    op: 'path',
    path: segment(Math.max(0, x1), Math.max(0, y1), Math.min(width, x2), Math.min(height, y2)),
    stroke: { colour: black, width: 250, ...(dash ? { dash: [2_000, 1_500] } : {}) },
  });
  const across = [frame.top, foot].flatMap((y) => [
    line(frame.left - off - long, y, frame.left - off, y),
    line(right + off, y, right + off + long, y),
  ]);
  const down = [frame.left, right].flatMap((x) => [
    line(x, frame.top - off - long, x, frame.top - off),
    line(x, foot + off, x, foot + off + long),
  ]);
  const middle = [
    line(frame.middle, frame.top - off - long, frame.middle, frame.top - off, folded),
    line(frame.middle, foot + off, frame.middle, foot + off + long, folded),
  ];
  return [...across, ...down, ...middle];
}
