/**
 * YAML nodes as the plain data that the schemas judge, and the way back from a path to the node. Keys are folded as look-ups fold
 * them; a key without a value counts as not written, except where it names a thing that may have no fields of its own.
 */
import { foldText, type YamlMap, type YamlNode, type YamlScalar } from '../format/index.ts';
import { describeField, type SchemaName } from '../schemas/index.ts';
import type { FieldPath } from './problem.ts';

export function plainFor(name: SchemaName, node: YamlNode | undefined, path: FieldPath = []): unknown {
  if (node === undefined) return '';
  if (node.kind === 'scalar') return node.text.trim();
  if (node.kind === 'seq') return node.items.map((item, index) => plainFor(name, item, [...path, index]));
  const out: Record<string, unknown> = {};
  for (const { key, value } of firstEntries(node)) {
    const below = [...path, key];
    const read = isEmpty(value) ? emptyAt(name, below) : plainFor(name, value, below);
    // Names such as "constructor" are ordinary keys here.
    if (read !== undefined) Object.defineProperty(out, key, { value: read, enumerable: true, writable: true, configurable: true });
  }
  return out;
}

/** Where a key stands twice the first counts, as in look-ups. */
function firstEntries(node: YamlMap): { readonly key: string; readonly value: YamlNode | undefined }[] {
  const seen = new Set<string>();
  return node.entries.flatMap(({ key: { text }, value }) => {
    const key = foldText(text);
    if (key === '' || seen.has(key)) return [];
    seen.add(key);
    return [{ key, value }];
  });
}

function isEmpty(node: YamlNode | undefined): boolean {
  return node === undefined || (node.kind === 'scalar' && !node.quoted && node.text.trim() === '');
}

/** "stop button:" names a control without fields; "covers:" with nothing below it says nothing. */
function emptyAt(name: SchemaName, path: FieldPath): unknown {
  const holder = describeField(name, path.slice(0, -1));
  const last = path[path.length - 1];
  if (!holder?.open || holder.fields.includes(String(last))) return undefined;
  return describeField(name, path)?.forms.includes('fields') ? {} : '';
}

export interface Place {
  /** The key that leads to the value; undefined for the root and list items. */
  readonly key?: YamlScalar;
  readonly value: YamlNode | undefined;
}

/** The node at a path of folded keys; the nearest one above it that there is, where there is none. */
export function placeAt(root: YamlNode | undefined, path: FieldPath): Place {
  let at: Place = { value: root };
  for (const step of path) {
    const node = at.value;
    if (node?.kind === 'seq' && typeof step === 'number') {
      const value = node.items[step];
      if (!value) return at;
      at = { value };
    } else if (node?.kind === 'map') {
      const entry = node.entries.find(({ key }) => foldText(key.text) === step);
      if (!entry) return at;
      at = { key: entry.key, value: entry.value };
    } else return at;
  }
  return at;
}
