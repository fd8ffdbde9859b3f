/** A gradient as one colour: the mean of its stops. The page has flat inks only; a mean in grey keeps what is light light and what is dark dark. */
import { readColour } from './paint.ts';
import type { XmlNode } from './xml.ts';

/** By id, as #rrggbb. */
export function meanColours(byId: ReadonlyMap<string, XmlNode>): ReadonlyMap<string, string> {
  const out = new Map<string, string>();
  for (const [id, node] of byId) {
    if (!/Gradient$/.test(node.name)) continue;
    const stops = stopsOf(node, byId, 0);
    if (stops.length === 0) continue;
    const mean = [0, 1, 2].map((part) => Math.round(stops.reduce((sum, stop) => sum + (stop[part] as number), 0) / stops.length));
    out.set(id, `#${mean.map((part) => part.toString(16).padStart(2, '0')).join('')}`);
  }
  return out;
}

/** Its own stops, or those of the gradient it leans on. */
function stopsOf(node: XmlNode, byId: ReadonlyMap<string, XmlNode>, depth: number): readonly (readonly [number, number, number])[] {
  const own = node.children.flatMap((child) => {
    if (typeof child === 'string' || child.name !== 'stop') return [];
    const said = child.attributes['stop-color'] ?? /stop-color\s*:\s*([^;]+)/.exec(child.attributes.style ?? '')?.[1] ?? 'black';
    const colour = readColour(said, [0, 0, 0]);
    return colour === undefined || colour === 'same' ? [] : [colour];
  });
  const href = node.attributes.href ?? '';
  const other = href.startsWith('#') ? byId.get(href.slice(1)) : undefined;
  return own.length > 0 || other === undefined || depth > 8 ? own : stopsOf(other, byId, depth + 1);
}
