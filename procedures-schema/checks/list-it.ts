/** The fix for a thing that steps use and the front matter does not list: one line more in its list, whatever form the list has. Words nothing but its title. */
import type { Finding } from '../finding.ts';
import { foldText } from '../format/index.ts';
import type { ProcedureFacts } from './check.ts';

/** A name that needs no quotes, in brackets neither. */
const PLAIN = /^[\p{L}\p{N}](?:[\p{L}\p{N} ./()+-]*[\p{L}\p{N})])?$/u;

export function listIt(
  { file, tree }: ProcedureFacts,
  key: 'tools' | 'consumables' | 'parts' | 'protection',
  name: string,
): Required<Pick<Finding, 'fix'>> | undefined {
  const root = tree.front?.root;
  if (root?.kind !== 'map' || !PLAIN.test(name) || foldText(name) === 'none') return undefined;
  const entries = root.entries.filter((one) => foldText(one.key.text) === key);
  const [entry] = entries;
  if (entry === undefined || entries.length > 1) return undefined;
  const { value } = entry;
  const { text } = tree.source;
  const end = text.includes('\r\n') ? '\r\n' : '\n';
  const put = (start: number, to: number, words: string) => ({
    fix: { title: `List it under ${key}`, edits: [{ file, start, end: to, text: words }] },
  });
  // "tools: none" becomes a list.
  if (value?.kind === 'scalar' && foldText(value.text) === 'none' && !value.quoted)
    return put(text.lastIndexOf(':', value.span.start) + 1, value.span.end, `${end}  - ${name}`);
  if (value?.kind !== 'seq') return undefined;
  const last = value.items.at(-1);
  if (text[value.span.start] === '[') return last && put(last.span.end, last.span.end, `, ${name}`);
  const first = value.items[0];
  if (last === undefined || first === undefined) return undefined;
  const dash = /(?:^|\n)([ \t]*)- *$/.exec(text.slice(0, first.span.start))?.[1];
  // The last item may go on over lines, and a remark may stand behind it.
  const stop = text.indexOf('\n', last.span.end - 1);
  const at = stop < 0 ? last.span.end : text[stop - 1] === '\r' ? stop - 1 : stop;
  return dash === undefined ? undefined : put(at, at, `${end}${dash}- ${name}`);
}
