/** Cuts running text into sentences: at full stops, question and exclamation marks, and semicolons between orders. Abbreviations and brackets hold together. */
import type { Prose } from '../format/index.ts';
import type { Tables } from './tables.ts';

export function sentencesOf(prose: Prose, tables: Tables): readonly { readonly at: number; readonly end: number }[] {
  const { text } = prose;
  const short = tables.abbreviations;
  const out: { at: number; end: number }[] = [];
  let start = 0;
  for (const found of text.matchAll(/[.!?]+(?=\s|$|["')\]])|;(?=\s)/g)) {
    const end = found.index + found[0].length;
    if (prose.marks.some((mark) => mark.at < end && end < mark.end)) continue;
    if (found[0] === ';' && !ordersAfter(text.slice(end), tables)) continue;
    const before = /([\p{L}.]+)$/u.exec(text.slice(Math.max(0, found.index - 12), found.index))?.[1]?.toLowerCase() ?? '';
    const next = /^\s+(.)/u.exec(text.slice(end, end + 3))?.[1] ?? '';
    if (found[0] === '.' && short.has(before) && next !== '' && !/\p{Lu}/u.test(next)) continue;
    if (found[0] === '.' && next !== '' && /\p{Ll}/u.test(next)) continue;
    push(out, text, start, end);
    start = end;
  }
  push(out, text, start, text.length);
  return out;
}

function push(out: { at: number; end: number }[], text: string, from: number, to: number): void {
  let at = from;
  let end = to;
  while (at < end && /\s/.test(text.charAt(at))) at += 1;
  while (end > at && /\s/.test(text.charAt(end - 1))) end -= 1;
  if (at < end) out.push({ at, end });
}

const OUTCOME = /^\s*(?:under|over|above|below|within|inside|outside|out of|more than|less than|not within)\b[^.;:]{0,60}:\s/i;

/** What follows a semicolon is an order or a condition of its own, not what must be seen. */
function ordersAfter(text: string, tables: Tables): boolean {
  const [first = '', second = ''] = text.trim().toLowerCase().split(/\s+/);
  const word = tables.sets.openers.has(first) ? second : first;
  // "..., over the limit: renew it": an outcome and what is done then.
  if (OUTCOME.test(text)) return true;
  return (
    tables.conditions.some(({ words }) => words[0] === word) ||
    (tables.verbs.get(word)?.some((form) => form.form === 'base' && !form.verb.noun) ?? false)
  );
}
