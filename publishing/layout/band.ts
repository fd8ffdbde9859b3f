/** The energy band: a stripe whose colour and hatch both tell the state. Draws only; where it stands is decided before. */
import { type Op, rectangle, segment } from './ops.ts';
import { bands } from './style.ts';
import { type Mp, pt } from './units.ts';

export function drawBand(x: Mp, y: Mp, width: Mp, height: Mp, state: keyof typeof bands): Op[] {
  const { colour, ground, hatch } = bands[state];
  const ops: Op[] = [{ op: 'path', path: rectangle(x, y, width, height), fill: hatch === 'solid' ? colour : ground }];
  if (hatch === 'solid') return ops;
  if (hatch === 'chequer') {
    const half = Math.round(width / 2);
    for (let at = 0; at * half < height; at += 1) {
      const tall = Math.min(half, height - at * half);
      ops.push({
        op: 'path',
        path: rectangle(at % 2 === 0 ? x : x + half, y + at * half, at % 2 === 0 ? half : width - half, tall),
        fill: colour,
      });
    }
  }
  const segments: string[] = [];
  const points: Mp[] = [];
  const add = (x1: Mp, y1: Mp, x2: Mp, y2: Mp) => {
    segments.push('ML');
    points.push(x1, y1, x2, y2);
  };
  if (hatch === 'slant' || hatch === 'cross') {
    const pitch = hatch === 'slant' ? pt(4.2) : pt(5);
    // From the foot of each stroke up to the right, cut at the band's own edges; for a cross the same again, mirrored.
    for (let at = y; at < y + height + width; at += pitch) {
      const low = Math.min(at, y + height);
      const high = Math.max(at - width, y);
      if (low <= high) continue;
      add(x + (at - low), low, x + (at - high), high);
      if (hatch === 'cross') add(x + width - (at - low), low, x + width - (at - high), high);
    }
  }
  // One upright stroke as wide as the band, dashed: a band down a page would be a hundred strokes.
  if (hatch === 'rungs') {
    const middle = x + Math.round(width / 2);
    const path = segment(middle, Math.min(y + pt(1.9), y + height), middle, y + height);
    ops.push({ op: 'path', path, stroke: { colour, width, dash: [pt(2.2), pt(3.8)] } });
  }
  const weight = hatch === 'slant' ? pt(1.5) : pt(1);
  if (segments.length > 0) {
    ops.push({ op: 'clip', path: rectangle(x, y, width, height) });
    ops.push({ op: 'path', path: { segments: segments.join(''), points }, stroke: { colour, width: weight } });
    ops.push({ op: 'unclip' });
  }
  const line = pt(0.6);
  ops.push({
    op: 'path',
    path: rectangle(x + line / 2, y + line / 2, width - line, Math.max(0, height - line)),
    stroke: { colour, width: line },
  });
  return ops;
}
