/**
 * Whether an order stands somewhere in a sentence, as far as its form tells: a verb with its object behind it, behind a joint or behind a clause. What it
 * orders is sentence/understand.ts's to say; that none is passed over, whole() there.
 */
import { verbAt } from './clauses.ts';
import { type Item, wordAt } from './items.ts';
import type { Tables } from './tables.ts';

/** "Remove the guard or the cover." */
export const eitherOf = (items: readonly Item[], tables: Tables): boolean =>
  items.some((item, index) => {
    if (item.kind !== 'word' || item.word !== 'or' || items[index - 1]?.kind !== 'name') return false;
    const next = tables.sets.determiners.has(wordAt(items, index + 1) ?? '') ? items[index + 2] : items[index + 1];
    const kinds = [items[index - 1], next].map((one) => (one?.kind === 'name' ? one.things[0]?.kind : undefined));
    return kinds.every((kind) => kind !== undefined && ['point', 'control', 'cover', 'part', 'fastener'].includes(kind));
  });

/** A verb with what it is done to behind it: "remove the guard", "take off all guards". */
export function ordersAt(items: readonly Item[], index: number, tables: Tables): boolean {
  const form = verbAt(items, index, false, tables);
  if (form === undefined) return false;
  const particle = wordAt(items, index + 1);
  const next = items[particle !== undefined && particle !== '' && Object.hasOwn(form.verb.senses, particle) ? index + 2 : index + 1];
  const { determiners, possessives, all } = tables.sets;
  return (
    next?.kind === 'name' ||
    (next?.kind === 'word' &&
      (determiners.has(next.word) || possessives.has(next.word) || all.has(next.word) || ['it', 'them'].includes(next.word)))
  );
}

/** "it is over the limit open the cock": behind a clause that is whole; not "you can open the cock", "it stops to open". */
export const ordersUnparted = (items: readonly Item[], tables: Tables): boolean =>
  items.some((_, index) => {
    const before = wordAt(items, index - 1);
    const led =
      before !== undefined &&
      (tables.sets.determiners.has(before) || tables.sets.subjects.has(before) || tables.lexicon.clauseWords.leadNoOrder.includes(before));
    return (
      index > 2 &&
      !led &&
      items.slice(0, index).some((one) => one.kind === 'word' && tables.sets.be.has(one.word)) &&
      ordersAt(items, index, tables)
    );
  });

/** Where an order with its object stands behind a comma, semicolon or "and" and was not read; -1 where there is none. */
export function orderBehind(items: readonly Item[], begun: ReadonlySet<number>, tables: Tables): number {
  return items.findIndex((item, index) => {
    if (item.kind !== 'word' || !jointBefore(items, index, tables)) return false;
    // "Something to lift and carry the plate with": one purpose.
    const purpose = tables.verbs.get(wordAt(items, index - 2) ?? '')?.some(({ form }) => form === 'base');
    if (purpose && wordAt(items, index - 1) === 'and' && wordAt(items, index - 3) === 'to') return false;
    if (!ordersAt(items, index, tables)) return false;
    return !begun.has(item.at);
  });
}

/** A comma, semicolon or "and", with perhaps "then" or "carefully" between. */
function jointBefore(items: readonly Item[], index: number, tables: Tables): boolean {
  let at = index - 1;
  const steers = (word: string): boolean => !['and', 'then'].includes(word) && (tables.sets.openers.has(word) || /ly$/.test(word));
  while (at > 0 && steers(wordAt(items, at) ?? '')) at -= 1;
  const item = items[at];
  return (item?.kind === 'mark' && [',', ';', ':', '–'].includes(item.word)) || ['and', 'then'].includes(wordAt(items, at) ?? '');
}

/** "..., then remove", "...; remove": no longer what is forbidden. */
export const partsAnew = (items: readonly Item[], index: number): boolean => {
  const before = items[index - 1];
  return (before?.kind === 'mark' && [';', ':'].includes(before.word)) || ['then', 'now', 'next'].includes(wordAt(items, index - 1) ?? '');
};
