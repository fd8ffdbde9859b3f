/** Goes through YAML with a path to every scalar and key, for whoever knows what stands where. */
import type { YamlNode, YamlScalar } from '../format/index.ts';

export interface YamlVisit {
  /** Keys down to it; list items are left out. For a key, the path ends before it. */
  readonly path: readonly string[];
  readonly scalar: YamlScalar;
  readonly key: boolean;
  /** Inside `{}` or `[]`. */
  readonly flow: boolean;
}

export function yamlVisits(root: YamlNode | undefined, text: string): readonly YamlVisit[] {
  const out: YamlVisit[] = [];
  const visit = (node: YamlNode | undefined, path: readonly string[], flow: boolean): void => {
    if (!node) return;
    if (node.kind === 'scalar') {
      if (node.text !== '') out.push({ path, scalar: node, key: false, flow });
      return;
    }
    const inside = flow || /^[[{]/.test(text.slice(node.span.start, node.span.start + 1));
    if (node.kind === 'seq') {
      for (const item of node.items) visit(item, path, inside);
      return;
    }
    for (const { key, value } of node.entries) {
      out.push({ path, scalar: key, key: true, flow: inside });
      visit(value, [...path, key.text.trim()], inside);
    }
  };
  visit(root, [], false);
  return out;
}
