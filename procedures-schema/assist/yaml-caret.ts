/**
 * Where the caret stands in YAML: the path of fields down to it, and whether a key or a value is being typed. Told from indents and
 * brackets of the lines themselves, because half-written YAML seldom parses. Leaves what may stand there to field-choices.ts.
 */
import type { Span } from '../finding.ts';

export interface YamlCaret {
  /** Of the map or list that the caret stands in; numbers are list items. */
  readonly path: readonly (string | number)[];
  /** A key is typed; else the value of `path`. */
  readonly at: 'key' | 'value';
  readonly typed: string;
  readonly replace: Span;
  /** Keys and items that stand beside it already. */
  readonly beside: readonly string[];
  /** Inside `{}` or `[]`. */
  readonly flow: boolean;
  /** Columns in which the line's content starts; the indent of what is written below. */
  readonly indent: number;
}

interface Line {
  readonly start: number;
  readonly text: string;
  readonly indent: number;
  /** Content after list markers. */
  readonly content: string;
  readonly contentAt: number;
  /** Columns of the list markers. */
  readonly dashes: readonly number[];
}

export function yamlCaret(text: string, from: number, offset: number): YamlCaret {
  const lines = linesOf(text.slice(from, offset), from);
  const last = lines.at(-1) as Line;
  const path = pathAbove(lines);
  const found = flowIn(last.content) ?? blockIn(last);
  const all = found.inside.length === 0 ? path : [...path, ...found.inside];
  // The rest of the word goes with a key, the rest of the value with a value.
  const rest = /^[^\r\n]*/.exec(text.slice(offset))?.[0] ?? '';
  const pattern = found.at === 'key' ? /^[\w-]*/ : found.flow ? /^[^,[\]{}]*/ : /^.*?(?=\s*(?:\s#.*)?$)/;
  const tail = pattern.exec(rest)?.[0] ?? '';
  const beside = found.flow ? found.beside : besideIn(text, from, last, found.at, offset);
  return {
    path: all,
    at: found.at,
    typed: found.typed,
    replace: { start: offset - found.typed.length, end: offset + tail.length },
    beside,
    flow: found.flow,
    indent: last.contentAt - last.start,
  };
}

function linesOf(text: string, from: number): Line[] {
  const out: Line[] = [];
  let at = from;
  for (const raw of text.split('\n')) {
    out.push(lineOf(raw.replace(/\r$/, ''), at));
    at += raw.length + 1;
  }
  return out;
}

function lineOf(text: string, start: number): Line {
  const indent = /^ */.exec(text)?.[0].length ?? 0;
  const dashes: number[] = [];
  let column = indent;
  for (let marker = /^- +|^-$/.exec(text.slice(column)); marker; marker = /^- +|^-$/.exec(text.slice(column))) {
    dashes.push(column);
    column += marker[0].length;
  }
  return { start, text, indent, content: text.slice(column), contentAt: start + column, dashes };
}

/** Keys and list items under which the last line stands, from the outermost in. */
function pathAbove(lines: readonly Line[]): (string | number)[] {
  const path: (string | number)[] = [];
  const last = lines.at(-1) as Line;
  let column = last.indent;
  for (const _ of last.dashes) path.unshift(0);
  // The content after a dash stands below the key above the dash, at the same indent or more.
  let listed = last.dashes.length > 0;
  for (let index = lines.length - 2; index >= 0; index--) {
    const line = lines[index] as Line;
    if (line.content.trim() === '' || line.content.startsWith('#')) continue;
    const key = /^("[^"]*"|'[^']*'|[^\s:#][^:#]*?)\s*:(?:\s|$)/.exec(line.content)?.[1]?.replace(/^["']|["']$/g, '');
    const at = line.contentAt - line.start;
    if (key !== undefined && (at < column || (listed && at === column && line.dashes.length === 0))) {
      const opens = /:\s*(?:#.*)?$/.test(line.content);
      if (opens) path.unshift(key);
      for (const _ of line.dashes) path.unshift(0);
      listed = line.dashes.length > 0;
      column = line.indent;
      continue;
    }
    if (line.dashes.length > 0 && (line.dashes[0] as number) < column && at <= column) {
      // The caret stands in a further field of this list item.
      for (const _ of line.dashes) path.unshift(0);
      listed = true;
      column = line.dashes[0] as number;
    }
    if (column === 0 && !listed) break;
  }
  return path;
}

interface Found {
  readonly inside: readonly (string | number)[];
  readonly at: 'key' | 'value';
  readonly typed: string;
  readonly beside: readonly string[];
  readonly flow: boolean;
}

function blockIn(line: Line): Found {
  const key = /^("[^"]*"|'[^']*'|[^\s:#][^:#]*?)\s*:\s+(.*)$/.exec(line.content);
  if (key) return { inside: [(key[1] ?? '').replace(/^["']|["']$/g, '')], at: 'value', typed: key[2] ?? '', beside: [], flow: false };
  // Behind a dash may come a plain value or the first key of a map.
  return { inside: [], at: line.dashes.length > 0 ? 'value' : 'key', typed: line.content, beside: [], flow: false };
}

/** The caret inside `{a: b, c` or `[a, b`, on one line. */
function flowIn(content: string): Found | undefined {
  interface Level {
    readonly kind: '{' | '[';
    key: string | undefined;
    readonly done: string[];
  }
  const head = /^("[^"]*"|'[^']*'|[^\s:#{[][^:#{[]*?)\s*:\s+(?=[{[])/.exec(content);
  const stack: Level[] = [];
  const inside: (string | number)[] = head ? [(head[1] ?? '').replace(/^["']|["']$/g, '')] : [];
  let word = '';
  let quote = '';
  for (let at = head ? head[0].length : 0; at < content.length; at++) {
    const c = content[at] ?? '';
    const level = stack.at(-1);
    if (quote !== '') {
      word += c;
      if (c === quote) quote = '';
    } else if (c === '"' || c === "'") {
      quote = c;
      word += c;
    } else if (c === '{' || c === '[') {
      if (level) inside.push(level.kind === '[' ? level.done.length : (level.key ?? ''));
      stack.push({ kind: c, key: undefined, done: [] });
      word = '';
    } else if (c === '}' || c === ']') {
      stack.pop();
      if (stack.length > 0) inside.pop();
      word = '';
    } else if (!level) {
      // Outside any bracket: a block line.
      if (!head) return undefined;
    } else if (c === ',') {
      level.done.push(level.kind === '{' ? (level.key ?? word.trim()) : word.trim());
      level.key = undefined;
      word = '';
    } else if (c === ':' && level.kind === '{' && level.key === undefined && /\s/.test(content[at + 1] ?? ' ')) {
      level.key = word.trim().replace(/^["']|["']$/g, '');
      word = '';
    } else word += c;
  }
  const level = stack.at(-1);
  if (!level) return undefined;
  const typed = word.trimStart();
  if (level.kind === '[') return { inside: [...inside, level.done.length], at: 'value', typed, beside: level.done, flow: true };
  if (level.key === undefined) return { inside, at: 'key', typed, beside: level.done, flow: true };
  return { inside: [...inside, level.key], at: 'value', typed, beside: [], flow: true };
}

/** Keys at the same indent up and down to the end of their map; items of the same list. */
function besideIn(text: string, from: number, line: Line, at: 'key' | 'value', offset: number): string[] {
  const column = at === 'key' ? line.contentAt - line.start : (line.dashes.at(-1) ?? -1);
  if (column === -1) return [];
  const out: string[] = [];
  const look = (raw: string): boolean => {
    const other = lineOf(raw.replace(/\r$/, ''), 0);
    if (other.content.trim() === '') return true;
    if (other.indent < column && !(at === 'key' && other.dashes.length > 0 && other.contentAt === column)) return false;
    if (at === 'key') {
      const key = other.contentAt === column ? /^("[^"]*"|'[^']*'|[^\s:#][^:#]*?)\s*:(?:\s|$)/.exec(other.content)?.[1] : undefined;
      if (key !== undefined) out.push(key);
      // A dash at or before the column starts another item.
      return !(other.dashes.length > 0 && (other.dashes.at(-1) as number) < column);
    }
    if (other.indent === column && other.dashes.length === 0) return false;
    if (other.dashes.at(-1) === column) out.push(other.content.trim().replace(/^name:\s*/, ''));
    return true;
  };
  const above = text.slice(from, line.start).split('\n');
  for (let index = above.length - 2; index >= 0 && look(above[index] ?? ''); index--);
  const next = text.indexOf('\n', offset);
  if (next === -1) return out;
  for (const raw of text.slice(next + 1).split('\n')) {
    if (/^(?:---|#{1,6}\s)/.test(raw)) break;
    const other = lineOf(raw, 0);
    if (at === 'key' && other.dashes.length > 0 && (other.dashes.at(-1) as number) < column) break;
    if (!look(raw)) break;
  }
  return out;
}
