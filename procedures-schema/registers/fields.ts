/** Ways to take typed fields out of YAML nodes without ever failing. Problems are told by the schemas, not here. */
import { foldText, type YamlMap, type YamlNode, type YamlScalar, yamlGet } from '../format/index.ts';
import type { Fitted, Origin } from './model.ts';

export type Entry = { readonly name: string; readonly key: YamlScalar; readonly value: YamlNode | undefined };

/** A key that is no name is told by reading the form, and left out here. */
export function entriesOf(node: YamlNode | undefined): readonly Entry[] {
  if (node?.kind !== 'map') return [];
  return node.entries.map(({ key, value }) => ({ name: key.text.trim(), key, value })).filter(({ name }) => name !== '');
}

export function mapOf(node: YamlNode | undefined): YamlMap | undefined {
  return node?.kind === 'map' ? node : undefined;
}

/** The text of a scalar field; undefined where it is missing, empty or no scalar. */
export function textOf(node: YamlNode | undefined, ...path: readonly string[]): string | undefined {
  const at = yamlGet(node, ...path);
  if (at?.kind !== 'scalar') return undefined;
  const text = at.text.trim();
  return text === '' ? undefined : text;
}

/** A list field: one scalar stands for a list of one. */
export function listOf(node: YamlNode | undefined, ...path: readonly string[]): readonly string[] {
  const at = yamlGet(node, ...path);
  return scalarsOf(at).map(({ text }) => text.trim());
}

export function scalarsOf(node: YamlNode | undefined): readonly YamlScalar[] {
  if (node?.kind === 'scalar') return node.text.trim() === '' ? [] : [node];
  if (node?.kind === 'seq') return node.items.filter((item): item is YamlScalar => item.kind === 'scalar' && item.text.trim() !== '');
  return [];
}

export function yes(node: YamlNode | undefined, ...path: readonly string[]): boolean {
  return /^(?:yes|true|on)$/i.test(textOf(node, ...path) ?? '');
}

export function numberOf(node: YamlNode | undefined, ...path: readonly string[]): number | undefined {
  const text = textOf(node, ...path);
  return text !== undefined && /^\d{1,9}$/.test(text) ? Number(text) : undefined;
}

/** One of a set of words, else undefined. */
export function wordOf<T extends string>(node: YamlNode | undefined, words: readonly T[], ...path: readonly string[]): T | undefined {
  const text = foldText(textOf(node, ...path) ?? '');
  return words.find((word) => foldText(word) === text);
}

/** What every named thing carries. */
export function namedOf(
  file: string,
  { name, key, value }: Entry,
): { name: string; aliases: readonly string[]; origin: Origin; fitted?: Fitted } {
  const only = listOf(value, 'only on');
  return {
    name,
    aliases: listOf(value, 'also'),
    origin: { file, span: key.span },
    // Models and options share one list; which is which is settled when the machine is made.
    ...(only.length > 0 ? { fitted: { models: only, options: only } } : {}),
  };
}

/** Leaves out undefined values, so that optional fields are absent rather than undefined. */
export function present<T extends object>(fields: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}
