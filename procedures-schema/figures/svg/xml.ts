/** The little XML an SVG drawing needs: elements, attributes, text. No entities but the five and numbers, no DTD, no fetching. */
import type { Fault } from '../model.ts';

export interface XmlNode {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: (XmlNode | string)[];
}

const named: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

const decoded = (text: string): string =>
  text.replace(/&(#x?[0-9a-f]+|\w+);/gi, (whole, name: string) => {
    if (name[0] !== '#') return named[name] ?? whole;
    const code = name[1] === 'x' || name[1] === 'X' ? Number.parseInt(name.slice(2), 16) : Number.parseInt(name.slice(1), 10);
    return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : '';
  });

const maxDepth = 64;

/** An element that is begun, and where. */
interface Begun {
  readonly node: XmlNode;
  readonly at: number;
}

/** The outermost element, or why there is none: where the text is not well formed enough to draw, and how. */
export function readXml(source: string): { readonly root: XmlNode } | { readonly fault: Fault } {
  const root: XmlNode = { name: '', attributes: {}, children: [] };
  const open: Begun[] = [{ node: root, at: 0 }];
  const fault = (says: string): { readonly fault: Fault } => ({ fault: { says, right: SOUND } });
  const line = (offset: number): number => source.slice(0, offset).split('\n').length;
  const token =
    /<!--[\s\S]*?-->|<\?[\s\S]*?\?>|<!\[CDATA\[([\s\S]*?)\]\]>|<![^>[]*(?:\[[^\]]*\])?[^>]*>|<\/([^\s>]+)\s*>|<([^\s/>]+)((?:[^>"']|"[^"]*"|'[^']*')*?)(\/?)>|([^<]+)/g;
  let at = 0;
  for (let match = token.exec(source); match !== null; match = token.exec(source)) {
    if (match.index !== at) break;
    at = token.lastIndex;
    const [, cdata, closing, name, attributeText, selfClosing, text] = match;
    const top = open[open.length - 1] as Begun;
    if (cdata !== undefined) top.node.children.push(cdata);
    else if (text !== undefined) top.node.children.push(decoded(text));
    else if (closing !== undefined) {
      if (open.length === 1) return fault(`Line ${line(match.index)} closes <${closing}>, which is not open.`);
      if (top.node.name !== local(closing))
        return fault(`Line ${line(match.index)} closes <${closing}> while <${top.node.name}> of line ${line(top.at)} is open.`);
      open.pop();
    } else if (name !== undefined) {
      const attributes: Record<string, string> = {};
      for (const [, key, double, single] of (attributeText ?? '').matchAll(/([^\s=]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g)) {
        attributes[local(key as string)] = decoded(double ?? single ?? '');
      }
      const node: XmlNode = { name: local(name), attributes, children: [] };
      top.node.children.push(node);
      if (selfClosing !== '/') open.push({ node, at: match.index });
      if (open.length > maxDepth) return fault(`Line ${line(match.index)} lies more than ${maxDepth} elements deep.`);
    }
  }
  if (at !== source.length) return fault(`What begins in line ${line(at)} has no end: the file is cut off, or a sign is missing there.`);
  const left = open.length > 1 ? open.at(-1) : undefined;
  if (left !== undefined) return fault(`<${left.node.name}> of line ${line(left.at)} is never closed: the file may be cut off.`);
  const outermost = root.children.find((child): child is XmlNode => typeof child !== 'string');
  return outermost === undefined ? fault('There is no element in it.') : { root: outermost };
}

const SOUND = 'The drawing saved anew as SVG by the program that it was made with.';

const local = (name: string): string => name.slice(name.indexOf(':') + 1);
