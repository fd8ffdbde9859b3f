/** A sentence as items: names, references, quantities, words, marks of punctuation. What each means is decided later. */
import { foldText, type Prose, type ReferenceMark } from '../format/index.ts';
import { decimalMarkOf, findQuantities } from '../quantities/index.ts';
import type { Thing } from '../registers/index.ts';
import type { ReadingContext } from './context.ts';

export type Item =
  | { readonly kind: 'word'; readonly word: string; readonly text: string; readonly at: number; readonly end: number }
  | {
      readonly kind: 'name';
      readonly things: readonly Thing[];
      readonly plural: boolean;
      readonly text: string;
      readonly at: number;
      readonly end: number;
    }
  /** A bracket that is no known name: a step, section, table, or a name to settle. */
  | { readonly kind: 'reference'; readonly mark: ReferenceMark; readonly text: string; readonly at: number; readonly end: number }
  | { readonly kind: 'amount'; readonly text: string; readonly unit: string; readonly at: number; readonly end: number }
  | { readonly kind: 'mark'; readonly word: string; readonly text: string; readonly at: number; readonly end: number };

const TOKEN = /[\p{L}\p{N}]+(?:[-'’./][\p{L}\p{N}]+)*|[°µΩ%]|[^\s\p{L}\p{N}]/gu;
const TIME = /^(?:s|ms|min|h|d)$/;

/** Items of a stretch of prose. Brackets that are registered names become names; a second value in brackets is left out. */
export function itemsOf(prose: Prose, at: number, end: number, { names, registers }: Pick<ReadingContext, 'names' | 'registers'>): Item[] {
  const text = prose.text.slice(at, end);
  const out: Item[] = [];
  const marks = prose.marks.filter((mark): mark is ReferenceMark => mark.kind === 'reference' && mark.at >= at && mark.end <= end);
  const amounts = findQuantities(text, decimalMarkOf(registers.house.language));
  const tokens = [...text.matchAll(TOKEN)].map((found) => ({
    text: found[0],
    word: foldText(found[0]).replace(/’/g, "'"),
    at: at + found.index,
    end: at + found.index + found[0].length,
  }));
  const words = tokens.map((token) => token.word);
  for (let index = 0; index < tokens.length; ) {
    const token = tokens[index] as (typeof tokens)[number];
    const mark = marks.find((one) => one.at <= token.at && token.end <= one.end);
    if (mark) {
      const item = markItem(mark, prose, names);
      if (item) out.push(item);
      while (index < tokens.length && (tokens[index]?.at ?? 0) < mark.end) index += 1;
      continue;
    }
    const named = names.match(words, index);
    const amount = amounts.find((one) => at + one.at <= token.at && token.at < at + one.end);
    const nameEnd = named ? (tokens[index + named.length - 1]?.end ?? 0) : 0;
    if (amount && nameEnd <= at + amount.end) {
      const from = at + amount.at;
      const to = at + (amount.second?.end ?? amount.end);
      const own = at + amount.end;
      while (out.length > 0 && (out[out.length - 1]?.at ?? -1) >= from) out.pop();
      out.push({
        kind: 'amount',
        text: prose.text
          .slice(from, amount.second ? at + amount.at + amount.quantity.text.length : own)
          .replace(/^[^\d½¼¾⅛⅜⅝⅞⅓⅔+−±-]+/u, ''),
        unit: amount.quantity.unit.symbol,
        at: from,
        end: to,
      });
      while (index < tokens.length && (tokens[index]?.at ?? 0) < to) index += 1;
      continue;
    }
    if (named) {
      const last = tokens[index + named.length - 1] as (typeof tokens)[number];
      out.push({
        kind: 'name',
        things: named.things,
        plural: named.plural,
        text: prose.text.slice(token.at, last.end),
        at: token.at,
        end: last.end,
      });
      index += named.length;
      continue;
    }
    out.push(/^[\p{L}\p{N}°%]/u.test(token.text) ? { kind: 'word', ...token } : { kind: 'mark', ...token });
    index += 1;
  }
  return out;
}

export const wordAt = (items: readonly Item[], index: number): string | undefined => {
  const item = items[index];
  return item?.kind === 'word' ? item.word : undefined;
};

export function isTime(unit: string): boolean {
  return TIME.test(unit);
}

function markItem(mark: ReferenceMark, prose: Prose, names: ReadingContext['names']): Item | undefined {
  const text = prose.text.slice(mark.at, mark.end);
  const place = { text, at: mark.at, end: mark.end };
  if (mark.form.kind === 'second-value' || mark.form.kind === 'callout') return undefined;
  if (mark.form.kind !== 'name') return { kind: 'reference', mark, ...place };
  const things = names.lookup(mark.form.name);
  if (things.length === 0) return { kind: 'reference', mark, ...place };
  return { kind: 'name', things, plural: /s$/i.test(mark.form.name), ...place };
}
