/** Edits of lines of a YAML list that stay where they are and say something else: a name, or what is said beside it. The rest of each line, its comment and the order of its fields stay. */
import type { TextEdit } from '../finding.ts';
import { foldText, type YamlMap, type YamlNode } from '../format/index.ts';
import {
  addEntry,
  entryLines,
  entryOf,
  flowOf,
  isFlow,
  pastLine,
  removeEntry,
  setEntry,
  type YamlText,
  type YamlValue,
} from './yaml-edit.ts';
import { quotedScalar, yamlScalar } from './yaml-text.ts';

/** How a list inside a line is edited, which is as any list is. */
type ListEdits = (
  yaml: YamlText,
  root: YamlMap,
  entry: YamlMap['entries'][number],
  wanted: readonly YamlValue[],
  known: readonly YamlValue[],
) => readonly TextEdit[];

type Fields = { readonly [key: string]: YamlValue };

/** Undefined: this line cannot be changed in its place, and is written anew. */
export function itemEdits(
  yaml: YamlText,
  list: YamlNode,
  item: YamlNode,
  wanted: YamlValue,
  known: YamlValue,
  listEdits: ListEdits,
): readonly TextEdit[] | undefined {
  if (item.kind === 'scalar') return scalarEdits(yaml, item, wanted, known, isFlow(yaml, list));
  if (item.kind === 'map') return mapEdits(yaml, item, fieldsOf(wanted), fieldsOf(known), listEdits);
  return undefined;
}

/** A name alone is its field. */
const fieldsOf = (value: YamlValue): Fields => (typeof value === 'string' ? { name: value } : (value as Fields));

function scalarEdits(
  { file, text }: YamlText,
  item: Extract<YamlNode, { kind: 'scalar' }>,
  wanted: YamlValue,
  known: YamlValue,
  flow: boolean,
): readonly TextEdit[] | undefined {
  const { start, end } = item.span;
  const typed = text.slice(start, end);
  // A text over several lines has rules of its own.
  if (typed.includes('\n') || /^[|>]/.test(typed) || typeof known !== 'string') return undefined;
  const written = (name: string): string => (name === known ? typed : item.quoted ? quotedScalar(name) : yamlScalar(name, flow));
  if (typeof wanted === 'string') return [{ file, start, end, text: written(wanted) }];
  if (flow) return [{ file, start, end, text: flowOf(wanted) }];
  const { name = '', ...more } = fieldsOf(wanted);
  const column = start - (text.lastIndexOf('\n', start - 1) + 1);
  const line = pastLine(text, end);
  const lines = Object.entries(more)
    .map(([key, value]) => entryLines(key, value, column))
    .join('');
  return [
    { file, start, end, text: `name: ${written(name as string)}` },
    { file, start: line, end: line, text: line > 0 && text[line - 1] !== '\n' ? `\n${lines}` : lines },
  ];
}

function mapEdits(yaml: YamlText, map: YamlMap, wanted: Fields, known: Fields, listEdits: ListEdits): readonly TextEdit[] {
  const out: TextEdit[] = [];
  for (const key of Object.keys(known)) {
    const entry = entryOf(map, key);
    if (!(key in wanted) && entry) out.push(removed(yaml, map, entry));
  }
  for (const [key, value] of Object.entries(wanted)) {
    if (JSON.stringify(value) === JSON.stringify(known[key])) continue;
    const entry = entryOf(map, key);
    if (!entry) out.push(addEntry(yaml, map, key, value, map.entries.at(-1)));
    else if (typeof value === 'string') out.push(setEntry(yaml, map, entry, value));
    else out.push(...listEdits(yaml, map, entry, value as readonly YamlValue[], (known[key] ?? []) as readonly YamlValue[]));
  }
  return out;
}

/** The dash stands before the first field, and is not part of it. */
function removed(yaml: YamlText, map: YamlMap, entry: YamlMap['entries'][number]): TextEdit {
  const next = map.entries[1];
  if (isFlow(yaml, map) || map.entries[0] !== entry || !next) return removeEntry(yaml, map, entry);
  return { file: yaml.file, start: entry.key.span.start, end: next.key.span.start, text: '' };
}

function nameOf(value: YamlValue | undefined): string {
  const { name = '' } = value === undefined ? {} : fieldsOf(value);
  return foldText(String(name));
}

/** Whether the lines are the same ones in the same order: at most one has another name. */
export function sameLines(wanted: readonly YamlValue[], known: readonly YamlValue[]): boolean {
  return wanted.length === known.length && wanted.filter((one, at) => nameOf(one) !== nameOf(known[at])).length <= 1;
}
