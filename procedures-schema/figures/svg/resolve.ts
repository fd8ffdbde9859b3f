/**
 * A drawing made plain before it is drawn: rules of its style sheet written to the elements they are for, what is used again put where it is used, of a
 * switch the first choice, a gradient as its mean colour. What cannot be drawn is named, so that it is never missed without a word.
 */
import { styleRules } from './css.ts';
import { meanColours } from './gradients.ts';
import type { XmlNode } from './xml.ts';

export interface Resolved {
  readonly root: XmlNode;
  /** Elements and properties that are not drawn, or not as they are meant, each once, in the order met. */
  readonly lost: readonly string[];
}

/** Elements that something would be seen of, were they drawn. */
const undrawn: ReadonlySet<string> = new Set(['image', 'foreignObject', 'textPath', 'video', 'animate', 'animateTransform']);
/** Properties that change what is seen, by way of something defined elsewhere. */
const beyond = ['marker', 'marker-start', 'marker-mid', 'marker-end', 'clip-path', 'mask', 'filter'] as const;
const unseen: ReadonlySet<string> = new Set([
  ...['defs', 'title', 'desc', 'metadata', 'style', 'script', 'symbol', 'clipPath', 'mask', 'marker', 'pattern', 'filter'],
  ...['linearGradient', 'radialGradient'],
]);

/** Things used in things used: deeper than this they go round in a circle, or might as well. */
const deepest = 8;
/** Of a drawing that unfolds to more elements than this, the rest is left out. */
const most = 50_000;

export function resolveSvg(root: XmlNode): Resolved {
  const byId = new Map<string, XmlNode>();
  const sheets: string[] = [];
  collect(root, byId, sheets);
  const rulesFor = styleRules(sheets.join('\n'));
  const colours = meanColours(byId);
  const lost = new Set<string>();
  let count = 0;

  const resolve = (node: XmlNode, used: number): XmlNode => {
    count += 1;
    if (count > most) {
      lost.add('what goes beyond 50,000 elements');
      return { name: 'g', attributes: {}, children: [] };
    }
    const attributes = painted(node);
    if (undrawn.has(node.name)) lost.add(node.name);
    if (unseen.has(node.name)) return { ...node, attributes };
    if (node.name === 'use') return resolveUse(node, attributes, used);
    if (node.name === 'switch') {
      const first = node.children.find(
        (child): child is XmlNode =>
          typeof child !== 'string' && child.attributes.systemLanguage === undefined && child.name !== 'foreignObject',
      );
      return { name: 'g', attributes, children: first === undefined ? [] : [resolve(first, used)] };
    }
    return {
      name: node.name,
      attributes,
      children: node.children.map((child) => (typeof child === 'string' ? child : resolve(child, used))),
    };
  };

  /** With the rules of the style sheet below its own style, and a colour where a gradient is asked for. */
  const painted = (node: XmlNode): Readonly<Record<string, string>> => {
    const ruled = rulesFor(node);
    const style = [ruled, node.attributes.style ?? ''].filter((part) => part !== '').join(';');
    const attributes: Record<string, string> = { ...node.attributes };
    if (style !== '') attributes.style = asColour(style);
    for (const name of ['fill', 'stroke'] as const) if (attributes[name] !== undefined) attributes[name] = asColour(attributes[name]);
    for (const name of beyond) {
      const said = attributes[name] ?? new RegExp(`(?:^|;)\\s*${name}\\s*:\\s*([^;]+)`).exec(style)?.[1];
      if (said !== undefined && said.trim() !== 'none') lost.add(name.replace(/-(?:start|mid|end)$/, ''));
    }
    return attributes;
  };

  const asColour = (text: string): string =>
    text.replace(/url\(\s*["']?#([^"')]+)["']?\s*\)(\s+(?:#[0-9a-f]+|[a-z]+))?/gi, (whole, id: string, otherwise = '') => {
      const mean = colours.get(id);
      const kind = byId.get(id)?.name;
      // Of a clip or a marker: told above.
      if (kind !== undefined && !/Gradient$|^pattern$/.test(kind)) return whole;
      lost.add(mean === undefined ? (kind ?? 'paint that is defined nowhere') : `${kind}, drawn in one colour`);
      return mean ?? (otherwise.trim() === '' ? '#808080' : otherwise.trim());
    });

  const resolveUse = (node: XmlNode, attributes: Readonly<Record<string, string>>, used: number): XmlNode => {
    const { href = '', x = '0', y = '0', transform = '', ...own } = attributes;
    const target = href.startsWith('#') ? byId.get(href.slice(1)) : undefined;
    if (target === undefined || used >= deepest) {
      lost.add(target === undefined ? 'use of what is not in the drawing' : 'use within itself');
      return { name: 'g', attributes: own, children: [] };
    }
    const moved = `${transform} translate(${Number.parseFloat(x) || 0} ${Number.parseFloat(y) || 0})`.trim();
    const inside = resolve(target.name === 'symbol' || target.name === 'svg' ? asGroup(target, node) : target, used + 1);
    return { name: 'g', attributes: { ...own, transform: moved }, children: [inside] };
  };

  return { root: resolve(root, 0), lost: [...lost] };
}

/** A symbol with a box of its own is fitted to the width and height where it is used. */
function asGroup(symbol: XmlNode, use: XmlNode): XmlNode {
  const box = (symbol.attributes.viewBox ?? '')
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const [left = 0, top = 0, wide = 0, tall = 0] = box;
  const size = (name: 'width' | 'height'): number => Number.parseFloat(use.attributes[name] ?? symbol.attributes[name] ?? '');
  const scale = Math.min(size('width') / wide, size('height') / tall);
  const { viewBox: _, width: __, height: ___, ...rest } = symbol.attributes;
  const fitted = box.length === 4 && Number.isFinite(scale) && scale > 0 ? `scale(${scale}) translate(${-left} ${-top})` : '';
  return { name: 'g', attributes: fitted === '' ? rest : { ...rest, transform: fitted }, children: symbol.children };
}

function collect(node: XmlNode, byId: Map<string, XmlNode>, sheets: string[]): void {
  const { id } = node.attributes;
  if (id !== undefined && !byId.has(id)) byId.set(id, node);
  if (node.name === 'style') sheets.push(node.children.filter((child) => typeof child === 'string').join(''));
  for (const child of node.children) if (typeof child !== 'string') collect(child, byId, sheets);
}
