/** The little XML an SVG drawing needs: elements, attributes, text. No entities but the five and numbers, no DTD, no fetching. */

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

/** The outermost element, or undefined where the text is not well formed enough to draw. */
export function readXml(source: string): XmlNode | undefined {
  const root: XmlNode = { name: '', attributes: {}, children: [] };
  const open: XmlNode[] = [root];
  const token =
    /<!--[\s\S]*?-->|<\?[\s\S]*?\?>|<!\[CDATA\[([\s\S]*?)\]\]>|<![^>[]*(?:\[[^\]]*\])?[^>]*>|<\/([^\s>]+)\s*>|<([^\s/>]+)((?:[^>"']|"[^"]*"|'[^']*')*?)(\/?)>|([^<]+)/g;
  let at = 0;
  for (let match = token.exec(source); match !== null; match = token.exec(source)) {
    if (match.index !== at) return undefined;
    at = token.lastIndex;
    const [, cdata, closing, name, attributeText, selfClosing, text] = match;
    const top = open[open.length - 1] as XmlNode;
    if (cdata !== undefined) top.children.push(cdata);
    else if (text !== undefined) top.children.push(decoded(text));
    else if (closing !== undefined) {
      if (open.length === 1 || top.name !== local(closing)) return undefined;
      open.pop();
    } else if (name !== undefined) {
      const attributes: Record<string, string> = {};
      for (const [, key, double, single] of (attributeText ?? '').matchAll(/([^\s=]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g)) {
        attributes[local(key as string)] = decoded(double ?? single ?? '');
      }
      const node: XmlNode = { name: local(name), attributes, children: [] };
      top.children.push(node);
      if (selfClosing !== '/') open.push(node);
      if (open.length > maxDepth) return undefined;
    }
  }
  if (open.length !== 1 || at !== source.length) return undefined;
  return root.children.find((child): child is XmlNode => typeof child !== 'string');
}

const local = (name: string): string => name.slice(name.indexOf(':') + 1);
