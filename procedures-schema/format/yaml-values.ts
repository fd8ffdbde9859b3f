/** Ways into YAML nodes: one field by its path, or the whole as plain data for a schema. */
import { foldText } from './fold.ts';
import type { YamlNode } from './tree.ts';

/** Keys are compared folded; numbers count list items from 0. Where a key stands twice the first counts. */
export function yamlGet(node: YamlNode | undefined, ...path: readonly (string | number)[]): YamlNode | undefined {
  let at = node;
  for (const part of path) {
    if (at === undefined || at.kind === 'scalar') return undefined;
    if (at.kind === 'seq') at = typeof part === 'number' ? at.items[part] : undefined;
    else {
      const folded = foldText(String(part));
      at = at.entries.find((entry) => foldText(entry.key.text) === folded)?.value;
    }
  }
  return at;
}

/** Every scalar as its text, a missing value as ''. Names such as "constructor" are ordinary keys of the result. */
export function yamlToPlain(node: YamlNode | undefined): unknown {
  if (node === undefined) return '';
  if (node.kind === 'scalar') return node.text;
  if (node.kind === 'seq') return node.items.map(yamlToPlain);
  const out: Record<string, unknown> = {};
  for (const { key, value } of node.entries) {
    if (Object.hasOwn(out, key.text)) continue;
    Object.defineProperty(out, key.text, { value: yamlToPlain(value), enumerable: true, writable: true, configurable: true });
  }
  return out;
}
