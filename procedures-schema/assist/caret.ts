/** What the caret stands in, told from the text alone: it may be newer than the last facts, and half written. */
import type { Span } from '../finding.ts';

export type CaretPlace =
  | { readonly kind: 'yaml'; readonly from: number; readonly to: number }
  /** `typed` is what stands between the bracket and the caret; `replace` runs on to the closing bracket where there is one. */
  | { readonly kind: 'reference'; readonly typed: string; readonly replace: Span; readonly closed: boolean }
  | {
      readonly kind: 'braces';
      readonly on: 'step' | 'heading' | 'notice';
      readonly typed: string;
      readonly replace: Span;
      readonly inside: string;
    }
  | { readonly kind: 'notice'; readonly typed: string; readonly replace: Span }
  | { readonly kind: 'unit'; readonly typed: string; readonly replace: Span }
  | { readonly kind: 'step start'; readonly typed: string; readonly replace: Span }
  /** After the dash of a bullet below a step. */
  | { readonly kind: 'branch'; readonly typed: string; readonly replace: Span }
  /** Inside the quotes of an attribute. */
  | { readonly kind: 'attribute value'; readonly key: string; readonly typed: string; readonly replace: Span }
  | { readonly kind: 'table'; readonly typed: string; readonly replace: Span; readonly column: number }
  | { readonly kind: 'prose'; readonly typed: string; readonly replace: Span }
  | { readonly kind: 'none' };

/** A paragraph is looked back at no further than this for an open bracket. */
const FARTHEST = 2000;

export function caretPlace(path: string, text: string, offset: number): CaretPlace {
  const at = Math.max(0, Math.min(offset, text.length));
  if (/\.ya?ml$/i.test(path)) return { kind: 'yaml', from: 0, to: text.length };
  const front = frontOf(text);
  if (front && at >= front.start && at <= front.end) return { kind: 'yaml', from: front.start, to: front.end };
  const lineStart = text.lastIndexOf('\n', at - 1) + 1;
  const lineBreak = text.indexOf('\n', at);
  const lineEnd = lineBreak === -1 ? text.length : text[lineBreak - 1] === '\r' ? lineBreak - 1 : lineBreak;
  const before = text.slice(lineStart, at);
  const after = text.slice(at, Math.max(at, lineEnd));

  const fence = /^\s*:::[ \t]*([a-z]*)$/i.exec(before);
  if (fence) return { kind: 'notice', typed: fence[1] ?? '', replace: { start: at - (fence[1] ?? '').length, end: at } };
  return (
    braces(before, after, at) ??
    reference(text, at, after) ??
    tableCell(before, at) ??
    unit(before, at) ??
    stepStart(before, at) ??
    branch(before, at) ??
    prose(before, at)
  );
}

/** From the line after the opening fence to the end of the last line before the closing one. */
export function frontOf(text: string): Span | undefined {
  const open = /^(?:[ \t]*\r?\n)*---[ \t]*\r?\n/.exec(text);
  if (!open) return undefined;
  const start = open[0].length;
  const close = /^---[ \t]*\r?$/m.exec(text.slice(start));
  const heading = /^#{2,6}\s/m.exec(text.slice(start));
  if (close && (!heading || close.index < heading.index)) return { start, end: Math.max(start, start + close.index - 1) };
  return heading ? { start, end: start + heading.index } : { start, end: text.length };
}

const STEP = /^\s*(?:>\s*)*(?:\d{1,3}(?:\.\d{1,3})*[.)]|[A-Za-z][.)]|\([a-z]\))[ \t]+/;

function braces(before: string, after: string, at: number): CaretPlace | undefined {
  const open = before.lastIndexOf('{');
  if (open === -1 || before.indexOf('}', open) !== -1 || before[open - 1] === '\\') return undefined;
  const lead = before.slice(0, open);
  const rest = after.indexOf('}') === -1 ? after : after.slice(0, after.indexOf('}'));
  const on = /^\s*:::/.test(lead) ? 'notice' : /^#{1,6}\s/.test(lead) ? 'heading' : STEP.test(before) ? 'step' : undefined;
  // Elsewhere a brace is text, but for the id of a table.
  if (on === undefined && lead.trim() !== '') return undefined;
  const inside = before.slice(open + 1);
  const value = /(?:^|\s)([a-z]+)="([^"]*)$/.exec(inside);
  if (value) {
    const typedValue = value[2] ?? '';
    const tail = /^[^"{}]*/.exec(after)?.[0] ?? '';
    return {
      kind: 'attribute value',
      key: value[1] ?? '',
      typed: typedValue,
      replace: { start: at - typedValue.length, end: at + tail.length },
    };
  }
  const typed = /[^\s{}]*$/.exec(inside)?.[0] ?? '';
  return { kind: 'braces', on: on ?? 'notice', typed, replace: { start: at - typed.length, end: at }, inside: inside + rest };
}

function reference(text: string, at: number, after: string): CaretPlace | undefined {
  const from = Math.max(0, at - FARTHEST);
  const paragraph = Math.max(from, text.lastIndexOf('\n\n', at - 1) + 1);
  let depth = 0;
  for (let open = at - 1; open >= paragraph; open--) {
    const c = text[open];
    if (c === ']' && text[open - 1] !== '\\') depth++;
    else if (c === '[' && text[open - 1] !== '\\') {
      if (depth > 0) {
        depth--;
        continue;
      }
      const close = /^[^[\]\r\n]*\]/.exec(after);
      const typed = text
        .slice(open + 1, at)
        .replace(/\s+/g, ' ')
        .trimStart();
      return { kind: 'reference', typed, closed: close !== null, replace: { start: open + 1, end: close ? at + close[0].length - 1 : at } };
    }
  }
  return undefined;
}

function tableCell(before: string, at: number): CaretPlace | undefined {
  if (!/^\s*\|/.test(before)) return undefined;
  const column = (before.match(/(?<!\\)\|/g)?.length ?? 1) - 1;
  const typed = (/[^|]*$/.exec(before)?.[0] ?? '').trimStart();
  if (column > 0 && /\d[ \u00a0]?[^\d\s|]*$/.test(typed)) return undefined;
  return { kind: 'table', typed, column, replace: { start: at - typed.length, end: at } };
}

/** A number, a space, and the beginning of a unit or nothing yet. */
function unit(before: string, at: number): CaretPlace | undefined {
  const found = /(?:^|[\s([±–-])\d+(?:[.,/]\d+)*(?:[ \u00a0\u202f])([^\s\d()[\]{},.;:|]*)$/.exec(before);
  if (!found) return undefined;
  const typed = found[1] ?? '';
  return { kind: 'unit', typed, replace: { start: at - typed.length, end: at } };
}

function stepStart(before: string, at: number): CaretPlace | undefined {
  const marker = STEP.exec(before);
  if (!marker) return undefined;
  const rest = before.slice(marker[0].length).replace(/^\{[^{}]*\}\s*/, '');
  // Three words in, the writer knows what to say.
  if (!/^(?:[A-Za-z]+(?: [a-z]*){0,2})?$/.test(rest)) return undefined;
  return { kind: 'step start', typed: rest, replace: { start: at - rest.length, end: at } };
}

function branch(before: string, at: number): CaretPlace | undefined {
  const found = /^[ \t]+[-*+][ \t]+([A-Za-z]*(?: [a-z]*){0,4})$/.exec(before);
  const typed = found?.[1] ?? '';
  return found ? { kind: 'branch', typed, replace: { start: at - typed.length, end: at } } : undefined;
}

function prose(before: string, at: number): CaretPlace {
  const typed = /[\p{L}\p{N}][\p{L}\p{N}'’-]*$/u.exec(before)?.[0] ?? '';
  return typed.length < 2 ? { kind: 'none' } : { kind: 'prose', typed, replace: { start: at - typed.length, end: at } };
}
