/** `{#id key=value key="v w" flag}` (F4): reads them and says which keys a place knows. What they mean is for others. */
import { distance } from './signal-words.ts';
import type { Attributes, FormatProblem } from './tree.ts';

export type Place = 'step' | 'heading' | 'notice' | 'table' | 'figure';

/** Keys and flags by place. Only the reader of the key gives it a meaning. */
export const ATTRIBUTE_KEYS: Readonly<Record<Place, readonly string[]>> = {
  step: ['reads', 'because', 'by', 'of'],
  heading: ['aside'],
  notice: ['use'],
  table: [],
  figure: ['width'],
};

const ID = /^[a-z][a-z0-9-]*$/;

/** Attributes that start at `at` (a brace). Undefined: this is text. */
export function readAttributes(text: string, at: number, end: number): Attributes | undefined {
  if (text[at] !== '{') return undefined;
  const entries: { key: string; value?: string; span: { start: number; end: number } }[] = [];
  let id: Attributes['id'];
  const item =
    /[ \t]*(?:#([^\s{}"=]*)|([A-Za-z][\w-]*)(?:[ \t]*=[ \t]*(?:"([^"{}]*)"|[\u201c]([^\u201d{}]*)[\u201d]|([^\s{}"]+)))?)[ \t]*/y;
  item.lastIndex = at + 1;
  let found = false;
  for (;;) {
    if (text[item.lastIndex] === '}') break;
    const from = item.lastIndex;
    const match = item.exec(text);
    if (!match || match[0] === '' || item.lastIndex > end) return undefined;
    const start = from + (/^[ \t]*/.exec(match[0])?.[0].length ?? 0);
    const stop = from + match[0].trimEnd().length;
    found = true;
    const key = match[2];
    if (key === undefined) id = { value: match[1] ?? '', span: { start, end: stop } };
    else {
      const value = match[3] ?? match[4] ?? match[5];
      entries.push({ key, ...(value === undefined ? {} : { value }), span: { start, end: stop } });
    }
  }
  if (!found) return undefined;
  const close = item.lastIndex + 1;
  if (close > end) return undefined;
  return { span: { start: at, end: close }, ...(id ? { id } : {}), entries };
}

/** Attributes that end exactly at `end`. */
export function readTrailingAttributes(text: string, from: number, end: number): Attributes | undefined {
  if (text[end - 1] !== '}') return undefined;
  const at = text.lastIndexOf('{', end - 1);
  if (at < from || text[at - 1] === '\\') return undefined;
  const read = readAttributes(text, at, end);
  return read && read.span.end === end ? read : undefined;
}

export function attributeProblems(attributes: Attributes, place: Place): FormatProblem[] {
  const problems: FormatProblem[] = [];
  const known = ATTRIBUTE_KEYS[place];
  const id = attributes.id;
  if (id && !ID.test(id.value)) {
    const better = id.value
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^[^a-z]+|-+$/g, '');
    problems.push({
      rule: 'attributes',
      span: id.span,
      message: `"#${id.value}" is no id. An id starts with a small letter and holds small letters, digits and hyphens.`,
      actual: `#${id.value}`,
      ...(better === '' ? {} : { expected: `#${better}`, replacement: { span: id.span, text: `#${better}`, title: `Write #${better}` } }),
    });
  }
  const seen = new Set<string>();
  for (const entry of attributes.entries) {
    if (seen.has(entry.key)) {
      problems.push({ rule: 'attributes', span: entry.span, message: `"${entry.key}" is given twice in these braces.` });
    }
    seen.add(entry.key);
    if (known.includes(entry.key)) continue;
    const nearest = [...known].sort(
      (a, b) => distance(a, entry.key.slice(0, 30)) - distance(b, entry.key.slice(0, 30)) || (a < b ? -1 : 1),
    )[0];
    const near = nearest !== undefined && distance(nearest, entry.key.slice(0, 30)) <= 2 ? nearest : undefined;
    problems.push({
      rule: 'attributes',
      span: entry.span,
      message: `"${entry.key}" is not known in braces on a ${place}.`,
      actual: entry.key,
      expected: near ?? (known.length > 0 ? `one of ${known.join(', ')}, or an id such as #read` : 'an id such as #read'),
      ...(near
        ? {
            replacement: {
              span: { start: entry.span.start, end: entry.span.start + entry.key.length },
              text: near,
              title: `Write ${near}`,
            },
          }
        : {}),
    });
  }
  return problems;
}
