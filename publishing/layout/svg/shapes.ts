/** Basic shapes of SVG as outlines of lines and cubic curves (SVG 2, chapter 10). Leaves paint and transforms to draw.ts. */
import { readLength, type XmlNode } from '../../../procedures-schema/figures/index.ts';
import { type Outline, readPath } from './path-data.ts';

export function outlineOf(node: XmlNode, width: number, height: number): Outline | undefined {
  const a = node.attributes;
  const x = (name: string, otherwise = 0) => readLength(a[name], otherwise, width);
  const y = (name: string, otherwise = 0) => readLength(a[name], otherwise, height);
  switch (node.name) {
    case 'path':
      return readPath(a.d ?? '');
    case 'line':
      return { segments: 'ML', points: [x('x1'), y('y1'), x('x2'), y('y2')] };
    case 'rect': {
      const w = x('width');
      const h = y('height');
      if (w <= 0 || h <= 0) return undefined;
      const rx = Math.min(w / 2, Math.max(0, x('rx', y('ry', 0))));
      const ry = Math.min(h / 2, Math.max(0, y('ry', rx)));
      const [l, t, r, b] = [x('x'), y('y'), x('x') + w, y('y') + h];
      if (rx === 0 || ry === 0) return { segments: 'MLLLZ', points: [l, t, r, t, r, b, l, b] };
      return readPath(
        `M${l + rx} ${t}H${r - rx}A${rx} ${ry} 0 0 1 ${r} ${t + ry}V${b - ry}A${rx} ${ry} 0 0 1 ${r - rx} ${b}H${l + rx}A${rx} ${ry} 0 0 1 ${l} ${b - ry}V${t + ry}A${rx} ${ry} 0 0 1 ${l + rx} ${t}Z`,
      );
    }
    case 'circle':
    case 'ellipse': {
      const rx = node.name === 'circle' ? x('r') : x('rx');
      const ry = node.name === 'circle' ? rx : y('ry');
      if (rx <= 0 || ry <= 0) return undefined;
      const [cx, cy] = [x('cx'), y('cy')];
      return readPath(`M${cx + rx} ${cy}A${rx} ${ry} 0 0 1 ${cx - rx} ${cy}A${rx} ${ry} 0 0 1 ${cx + rx} ${cy}Z`);
    }
    case 'polyline':
    case 'polygon': {
      const points = (a.points ?? '').match(/[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/gi)?.map(Number) ?? [];
      const count = Math.floor(points.length / 2);
      if (count < 2) return undefined;
      return { segments: `M${'L'.repeat(count - 1)}${node.name === 'polygon' ? 'Z' : ''}`, points: points.slice(0, 2 * count) };
    }
    default:
      return undefined;
  }
}
