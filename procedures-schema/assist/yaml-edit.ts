/**
 * Edits of YAML that change one entry and leave every other character as it is: set a value, put an entry in, take one out. Works on the
 * tree with its places; the text is never written anew.
 */
import type { TextEdit } from '../finding.ts';
import { foldText, type YamlMap, type YamlNode } from '../format/index.ts';
import { quotedScalar, yamlScalar } from './yaml-text.ts';

/** A value to be written: text, a list, or fields. An empty list is written as `[]`. */
export type YamlValue = string | readonly YamlValue[] | { readonly [key: string]: YamlValue };

export interface YamlText {
  readonly file: string;
  readonly text: string;
}

type Entry = YamlMap['entries'][number];

export function entryOf(map: YamlNode | undefined, key: string): Entry | undefined {
  return map?.kind === 'map' ? map.entries.find((entry) => foldText(entry.key.text) === foldText(key)) : undefined;
}

/** Whether a map or list is written inside brackets. */
export function isFlow({ text }: YamlText, node: YamlNode): boolean {
  return /^[[{]/.test(text.slice(node.span.start, node.span.start + 1));
}

/** Columns before the first key of a block map. */
export function indentOf({ text }: YamlText, map: YamlMap): number {
  const first = map.entries[0]?.key.span.start ?? map.span.start;
  return first - (text.lastIndexOf('\n', first - 1) + 1);
}

/** `key: value` as it stands below a map of that indent; a block value goes on the lines below. */
export function entryLines(key: string, value: YamlValue, indent: number): string {
  const pad = ' '.repeat(indent);
  const head = `${pad}${yamlScalar(key)}:`;
  if (typeof value === 'string') return `${head} ${yamlScalar(value)}\n`;
  if (isList(value)) {
    if (value.length === 0) return `${head} []\n`;
    return `${head}\n${value.map((item) => itemLine(item, indent + 2)).join('')}`;
  }
  const keys = Object.keys(value);
  if (keys.length === 0) return `${head} {}\n`;
  return `${head}\n${keys.map((own) => entryLines(own, value[own] as YamlValue, indent + 2)).join('')}`;
}

const isList = (value: YamlValue): value is readonly YamlValue[] => Array.isArray(value);

export function itemLine(item: YamlValue, indent: number): string {
  const pad = ' '.repeat(indent);
  if (typeof item === 'string') return `${pad}- ${yamlScalar(item)}\n`;
  if (isList(item)) return `${pad}- ${flowOf(item)}\n`;
  const keys = Object.keys(item);
  return keys
    .map((key, index) => entryLines(key, item[key] as YamlValue, indent + 2).replace(/^ +/, (all) => (index === 0 ? `${pad}- ` : all)))
    .join('');
}

/** The value on one line. */
export function flowOf(value: YamlValue): string {
  if (typeof value === 'string') return yamlScalar(value, true);
  if (isList(value)) return `[${value.map(flowOf).join(', ')}]`;
  return `{${Object.entries(value)
    .map(([key, own]) => `${yamlScalar(key, true)}: ${flowOf(own)}`)
    .join(', ')}}`;
}

/** Gives an entry that is there another value. */
export function setEntry(yaml: YamlText, map: YamlMap, entry: Entry, value: YamlValue): TextEdit {
  const { file } = yaml;
  const flow = isFlow(yaml, map);
  const inline = typeof value === 'string' || flow;
  const from = entry.key.span.end;
  const colon = yaml.text.indexOf(':', from) + 1;
  const written = typeof value === 'string' ? yamlScalar(value, flow) : flowOf(value);
  // What was typed in quotes stays in quotes.
  const quoted = typeof value === 'string' && entry.value?.kind === 'scalar' && entry.value.quoted ? quotedScalar(value) : undefined;
  if (
    inline &&
    entry.value?.kind === 'scalar' &&
    entry.value.span.end > entry.value.span.start &&
    !/^[|>]/.test(yaml.text.slice(entry.value.span.start))
  )
    return { file, start: entry.value.span.start, end: entry.value.span.end, text: quoted ?? written };
  if (flow) return { file, start: colon, end: entry.value ? Math.max(colon, entry.value.span.end) : colon, text: ` ${written}` };
  const end = endOfEntry(yaml, entry);
  const lines = entryLines(entry.key.text, value, indentOf(yaml, map));
  // The key stays as it was typed; what follows the colon is new.
  return { file, start: colon, end, text: lines.slice(lines.indexOf(':', yamlScalar(entry.key.text).length + indentOf(yaml, map)) + 1) };
}

/** Puts an entry in after another one, or first (`after` undefined). */
export function addEntry(yaml: YamlText, map: YamlMap, key: string, value: YamlValue, after: Entry | undefined): TextEdit {
  const { file, text } = yaml;
  if (isFlow(yaml, map)) {
    const written = `${yamlScalar(key, true)}: ${flowOf(value)}`;
    if (after) {
      const at = after.value ? after.value.span.end : after.key.span.end + 1;
      return { file, start: at, end: at, text: `, ${written}` };
    }
    const at = map.span.start + 1;
    return { file, start: at, end: at, text: map.entries.length === 0 ? written : `${written}, ` };
  }
  const lines = entryLines(key, value, indentOf(yaml, map));
  if (after) {
    const at = endOfEntry(yaml, after);
    return { file, start: at, end: at, text: at > 0 && text[at - 1] !== '\n' ? `\n${lines}` : lines };
  }
  const first = map.entries[0]?.key.span.start ?? map.span.start;
  const at = text.lastIndexOf('\n', first - 1) + 1;
  return { file, start: at, end: at, text: lines };
}

/** Takes an entry out with its line or lines. */
export function removeEntry(yaml: YamlText, map: YamlMap, entry: Entry): TextEdit {
  const { file, text } = yaml;
  if (isFlow(yaml, map)) {
    const index = map.entries.indexOf(entry);
    const next = map.entries[index + 1];
    const before = map.entries[index - 1];
    const end = entry.value?.span.end ?? entry.key.span.end + 1;
    if (next) return { file, start: entry.key.span.start, end: next.key.span.start, text: '' };
    const start = before ? (before.value?.span.end ?? before.key.span.end + 1) : entry.key.span.start;
    return { file, start, end, text: '' };
  }
  return { file, start: text.lastIndexOf('\n', entry.key.span.start - 1) + 1, end: endOfEntry(yaml, entry), text: '' };
}

/** Past the line on which the entry's value ends. */
export function endOfEntry({ text }: YamlText, entry: Entry): number {
  return pastLine(text, entry.span.end);
}

/** A block value ends with its last line break; a comment behind a value belongs to its line. */
export function pastLine(text: string, end: number): number {
  if (text[end - 1] === '\n') return end;
  const stop = text.indexOf('\n', end);
  return stop === -1 ? text.length : stop + 1;
}
