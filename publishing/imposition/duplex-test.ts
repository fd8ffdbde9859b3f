/** One sheet to try the printer with before a booklet: crosses that must meet in the light, and words that must stand the same way up. */
import { type DrawnPage, type Op, rectangle, type Shaper, segment, widthOfAll } from '../layout/index.ts';
import type { PrintedWords } from '../printed-words/index.ts';
import { sheets } from './sheet.ts';

const ink = [24, 26, 28] as const;

export function duplexTest(sheet: keyof typeof sheets, shaper: Shaper, sides: PrintedWords['duplex']): readonly DrawnPage[] {
  const { width, height } = sheets[sheet];
  const [cx, cy] = [Math.round(width / 2), Math.round(height / 2)];
  const stroke = (wide: number) => ({ colour: ink, width: wide });
  const cross = (x: number, y: number): Op[] => [
    { op: 'path', path: segment(x - 14_000, y, x + 14_000, y), stroke: stroke(500) },
    { op: 'path', path: segment(x, y - 14_000, x, y + 14_000), stroke: stroke(500) },
    { op: 'path', path: rectangle(x - 5_000, y - 5_000, 10_000, 10_000), stroke: stroke(500) },
  ];
  const text = (said: string, size: number, y: number): Op => {
    const run = shaper.shape('bold', said);
    return { op: 'text', x: cx - Math.round(widthOfAll(run, size) / 2), y, size, colour: ink, run };
  };
  // Crosses lie mirrored on the middle of the sheet, so that both sides have them in the same places.
  const places = [0.1, 0.5, 0.9].flatMap((u) => [0.12, 0.88].map((v) => [Math.round(width * u), Math.round(height * v)] as const));
  const arrow: Op = {
    op: 'path',
    path: {
      segments: 'MLLLLLLZ',
      points: [
        cx,
        cy - 130_000,
        cx + 30_000,
        cy - 95_000,
        cx + 10_000,
        cy - 95_000,
        cx + 10_000,
        cy - 50_000,
        cx - 10_000,
        cy - 50_000,
        cx - 10_000,
        cy - 95_000,
        cx - 30_000,
        cy - 95_000,
      ],
    },
    fill: ink,
  };
  return sides.map(([name, said]) => ({
    width,
    height,
    ops: [
      { op: 'artifact', type: 'Layout' },
      ...places.flatMap(([x, y]) => cross(x, y)),
      arrow,
      text(name, 40_000, cy),
      text(said, 12_000, cy + 34_000),
      { op: 'end' },
    ],
  }));
}
