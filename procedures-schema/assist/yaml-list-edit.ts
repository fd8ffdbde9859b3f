/** Edits of a list in YAML: lines that stay keep their text and comments, lines that come or go are put in or taken out alone; those that say something else are changed in their place. */
import type { TextEdit } from '../finding.ts';
import type { YamlMap, YamlNode } from '../format/index.ts';
import { flowOf, indentOf, isFlow, itemLine, pastLine, setEntry, type YamlText, type YamlValue } from './yaml-edit.ts';
import { itemEdits, sameLines } from './yaml-item-edit.ts';

/** `known` is what the list holds now, read as `wanted` is written; an empty list is written `none`. */
export function listEdits(
  yaml: YamlText,
  root: YamlMap,
  entry: YamlMap['entries'][number],
  wanted: readonly YamlValue[],
  known: readonly YamlValue[],
): readonly TextEdit[] {
  const same = (a: YamlValue | undefined, b: YamlValue | undefined): boolean => JSON.stringify(a) === JSON.stringify(b);
  const list = entry.value;
  if (wanted.length === 0)
    return list?.kind === 'scalar' && list.text.trim().toLowerCase() === 'none' ? [] : [setEntry(yaml, root, entry, 'none')];
  if (same(wanted as YamlValue, known as YamlValue)) return [];
  if (list?.kind !== 'seq' || list.items.length !== known.length) return [setEntry(yaml, root, entry, wanted)];
  const inPlace = sameLines(wanted, known)
    ? list.items.map((item, at) =>
        same(wanted[at], known[at]) ? [] : itemEdits(yaml, list, item, wanted[at] ?? '', known[at] ?? '', listEdits),
      )
    : [undefined];
  if (inPlace.every((edits) => edits !== undefined)) return inPlace.flat();
  if (isFlow(yaml, list)) return [{ file: yaml.file, start: list.span.start, end: list.span.end, text: flowOf(wanted) }];
  const out: TextEdit[] = [];
  const indent = dashIndent(yaml, list.items[0], indentOf(yaml, root) + 2);
  const stay = commonOf(known, wanted, same);
  const bounds = list.items.map((item) => linesOf(yaml, item));
  let [index, at] = [0, bounds[0]?.start ?? entry.key.span.end];
  const gone = (until: number): void => {
    for (; index < until; index++) {
      const own = bounds[index];
      if (own) out.push({ file: yaml.file, ...own, text: '' });
      at = own?.end ?? at;
    }
  };
  let next = 0;
  for (const [from, to] of [...stay, [known.length, wanted.length] as const]) {
    const added = wanted
      .slice(next, to)
      .map((item) => itemLine(item, indent))
      .join('');
    if (added !== '') out.push({ file: yaml.file, start: at, end: at, text: at > 0 && yaml.text[at - 1] !== '\n' ? `\n${added}` : added });
    gone(from);
    at = bounds[from]?.end ?? at;
    index = from + 1;
    next = to + 1;
  }
  return out;
}

/** From the start of the item's first line to past its last. */
function linesOf({ text }: YamlText, item: YamlNode): { readonly start: number; readonly end: number } {
  return { start: text.lastIndexOf('\n', item.span.start - 1) + 1, end: pastLine(text, item.span.end) };
}

function dashIndent({ text }: YamlText, item: YamlNode | undefined, other: number): number {
  if (!item) return other;
  const line = text.slice(text.lastIndexOf('\n', item.span.start - 1) + 1, item.span.start);
  const dash = line.indexOf('-');
  return dash === -1 ? other : dash;
}

/** Longest common subsequence, as pairs of places. */
function commonOf<T>(a: readonly T[], b: readonly T[], same: (x: T, y: T) => boolean): readonly (readonly [number, number])[] {
  const table = Array.from({ length: a.length + 1 }, () => new Array<number>(b.length + 1).fill(0));
  const cell = (i: number, j: number): number => table[i]?.[j] ?? 0;
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--) {
      const row = table[i] as number[];
      row[j] = same(a[i] as T, b[j] as T) ? cell(i + 1, j + 1) + 1 : Math.max(cell(i + 1, j), cell(i, j + 1));
    }
  const out: (readonly [number, number])[] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    if (same(a[i] as T, b[j] as T)) out.push([i++, j++]);
    else if (cell(i + 1, j) >= cell(i, j + 1)) i++;
    else j++;
  }
  return out;
}
