/**
 * Where a YAML text is really broken. After one slip the YAML package tells of everything behind it, a long register three thousand times; here each slip is
 * told once, at the line it was made in. Words for it are yaml-messages.ts.
 */
import { entryLines, type Line } from './yaml-lines.ts';

export interface YamlError {
  readonly code: string;
  readonly start: number;
  readonly end: number;
  /** The package's own words. */
  readonly original: string;
}

/** Nobody mends more than these at once, and each is looked for with a parse of its own. */
const MOST = 5;
const LONGEST = 60_000;

/** `errorsOf` parses a text of the same length and gives what is wrong with it, first things first. */
export function faultsOf(
  text: string,
  errors: readonly YamlError[],
  errorsOf: (text: string) => readonly YamlError[],
): readonly YamlError[] {
  const out: YamlError[] = [];
  let left = text;
  let next = first(errors);
  while (next !== undefined) {
    const lines = entryLines(left);
    const fault = placed(next, lines);
    out.push(fault);
    if (out.length >= MOST || text.length > LONGEST) break;
    // Without the entry that holds the slip the rest is read as it was meant. What then stands before is owed to the gap.
    const without = blanked(left, lines, fault);
    next = first(errorsOf(without).filter(({ start }) => start >= fault.start));
    if (without === left) break;
    left = without;
  }
  return out;
}

function first(errors: readonly YamlError[]): YamlError | undefined {
  let least: YamlError | undefined;
  for (const error of errors) if (least === undefined || error.start < least.start) least = error;
  return least;
}

function placed(error: YamlError, lines: readonly Line[]): YamlError {
  const open = neverClosed(lines, error.start);
  if (open !== undefined) return { ...error, code: open.code, start: open.at, end: open.at + 1 };
  const at = lineAt(lines, error.start);
  if (at === undefined) return error;
  const line = lines[at] as Line;
  if (line.text.startsWith('```')) return { ...error, code: 'FENCE', start: line.start, end: line.start + line.text.length };
  const odd = oddIndent(error, lines, at);
  if (odd === undefined) return error;
  const { start, indent, text: words } = odd;
  const from = start + indent;
  return { ...error, code: 'BAD_INDENT', start: from, end: from + words.trim().length };
}

/** The first bracket, brace or quote that is still open where a line of its own depth begins the next field. */
function neverClosed(lines: readonly Line[], before: number): { readonly at: number; readonly code: string } | undefined {
  for (const [n, line] of lines.entries()) {
    if (line.start > before) return undefined;
    const next = lines[n + 1];
    if (line.open !== undefined && (next === undefined || (next.entry && (line.open.quote || next.indent <= line.indent))))
      return { at: line.open.at, code: line.open.quote ? 'OPEN_QUOTE' : 'OPEN_BRACKET' };
  }
  return undefined;
}

function lineAt(lines: readonly Line[], offset: number): number | undefined {
  let found: number | undefined;
  for (const [n, line] of lines.entries()) {
    if (line.start > offset) break;
    found = n;
  }
  return found;
}

const OF_INDENT = new Set(['BAD_INDENT', 'UNEXPECTED_TOKEN', 'MULTILINE_IMPLICIT_KEY', 'BLOCK_AS_IMPLICIT_KEY', 'IMPOSSIBLE']);

/** The line whose indent makes the trouble, where another than the one told of: the first of a list that all others differ from, or one that hangs under a value. */
function oddIndent(error: YamlError, lines: readonly Line[], at: number): Line | undefined {
  const line = lines[at] as Line;
  if (!OF_INDENT.has(error.code)) return undefined;
  const below = lines[at + 1];
  // "kind: spring" with a field hung under it: the value does not end where it seems to.
  if (error.code === 'BLOCK_AS_IMPLICIT_KEY' && line.entry && line.value && below?.entry && below.indent > line.indent) return below;
  // Of fields that belong together the one that stands apart is odd, though it came first.
  let head: Line | undefined;
  for (let n = at - 1; n >= 0; n -= 1) {
    const above = lines[n] as Line;
    if (above.entry && Math.abs(above.indent - line.indent) === 1) head = above;
    if (above.indent < line.indent - 1) break;
  }
  if (head === undefined) return undefined;
  const like = (indent: number): number => alike(lines, lines.indexOf(head as Line), indent);
  return like(line.indent) > like(head.indent) ? head : undefined;
}

/** How many lines from one on stand at an indent, up to the end of what they belong to. */
function alike(lines: readonly Line[], from: number, indent: number): number {
  let count = 0;
  const least = Math.min(indent, (lines[from] as Line).indent) - 1;
  for (let n = from; n < lines.length; n += 1) {
    const line = lines[n] as Line;
    if (line.indent < least) break;
    if (line.entry && line.indent === indent) count += 1;
  }
  return count;
}

/** The text with the entry at a fault, and what hangs under it, as blanks. */
function blanked(text: string, lines: readonly Line[], fault: YamlError): string {
  const at = lineAt(lines, fault.start);
  if (at === undefined) return text;
  const own = lines[at] as Line;
  let to = at + 1;
  while (to < lines.length && ((lines[to] as Line).indent > own.indent || !(lines[to] as Line).entry)) to += 1;
  const end = lines[to]?.start ?? text.length;
  return text.slice(0, own.start) + text.slice(own.start, end).replace(/[^\r\n]/g, ' ') + text.slice(end);
}
