/** Orders that stand where no order belongs: in a clause of time, in what is said first, behind "by". None may be lost. */
import { type FoundCondition, verbPhrases } from '../clauses.ts';
import { type Item, wordAt } from '../items.ts';
import { ordersAt } from '../orders-behind.ts';
import type { Reader } from './reader.ts';

/** What may be said to come later without being lost: it makes nothing live and opens nothing. */
const LATER: ReadonlySet<string> = new Set(['shut', 'fit', 'lock', 'tag', 'isolate', 'tighten', 'handle', 'look', 'feel', 'measure']);

/** A verb with what it is done to right behind it. */
export function ordersIn(reader: Reader, head: readonly Item[]): boolean {
  return head.some((_, index) => {
    const bound = reader.tables.sets.determiners.has(wordAt(head, index - 1) ?? '');
    return index > 1 && !bound && ordersAt(head, index, reader.tables);
  });
}

/**
 * "after releasing both clips", "while you insert the pin": something is done there, and nobody reads it as a step. "Before closing the door", "before you
 * touch the blade" say when: what is closed or touched there is done nowhere until a step does it.
 */
export function hidesOrder(reader: Reader, { kind, items }: FoundCondition): boolean {
  const deed = deedIn(reader, items);
  if (deed < 0) return false;
  const said = reader.tables.verbs.get(wordAt(items, deed) ?? '') ?? [];
  if (kind === 'before' && said.some(({ verb }) => LATER.has(verb.senses[''] ?? ''))) return false;
  return items
    .slice(deed)
    .some(
      (item) =>
        item.kind === 'name' && item.things.some((thing) => ['part', 'cover', 'fastener', 'point', 'control', 'zone'].includes(thing.kind)),
    );
}

/** Where a clause tells of a deed: "releasing", "you release"; -1 where it tells of none. */
function deedIn(reader: Reader, items: readonly Item[]): number {
  return items.findIndex((item, index) => {
    if (item.kind !== 'word') return false;
    const forms = reader.tables.verbs.get(item.word) ?? [];
    if (forms.some((form) => form.form === 'gerund' && !['go', 'wait', 'continue'].includes(form.base))) return true;
    const before = items[index - 1];
    const person =
      (before?.kind === 'name' && before.things.some(({ kind }) => kind === 'role')) ||
      reader.tables.nouns.get(wordAt(items, index - 1) ?? '') === 'people' ||
      reader.tables.lexicon.beside.someone.includes(wordAt(items, index - 1) ?? '');
    if (person && forms.some((form) => form.form === 'third' || form.form === 'base')) return true;
    return wordAt(items, index - 1) === 'you' && forms.some((form) => form.form === 'base');
  });
}

/** What stands at the end of an order for itself: "by opening the valve" is a deed, "on the PK-40" says on which machine. */
export function broughtOut(
  reader: Reader,
  main: readonly Item[],
): {
  rest: readonly Item[];
  deeds: readonly (readonly Item[])[];
  model: readonly (readonly Item[])[];
} {
  const by = main.findIndex(
    (item, index) =>
      index > 0 &&
      wordAt(main, index) === 'by' &&
      item.kind === 'word' &&
      reader.tables.verbs.get(wordAt(main, index + 1) ?? '')?.some(({ form }) => form === 'gerund') === true,
  );
  if (by > 0) return { rest: main.slice(0, by), deeds: [main.slice(by + 1)], model: [] };
  const on = main.findIndex(
    (_, index) =>
      index > 0 &&
      ['on', 'for'].includes(wordAt(main, index) ?? '') &&
      main.slice(index + 1).every((item) => saysModel(reader, item)) &&
      main.slice(index + 1).some((item) => item.kind === 'name'),
  );
  return on > 0 ? { rest: main.slice(0, on), deeds: [], model: [main.slice(on)] } : { rest: main, deeds: [], model: [] };
}

function saysModel(reader: Reader, item: Item): boolean {
  if (item.kind === 'name') return item.things[0]?.kind === 'model';
  return (
    (item.kind === 'mark' && [',', '.', '!'].includes(item.word)) ||
    (item.kind === 'word' && (['and', 'or', 'only'].includes(item.word) || reader.tables.sets.determiners.has(item.word)))
  );
}

/** "Hold the roller while you loosen the bolt": both are done, and whoever follows it does both. */
export function doneMeanwhile(reader: Reader, items: readonly Item[]): ReturnType<typeof verbPhrases> {
  const deed = deedIn(reader, items);
  const [first, ...rest] = items.slice(deed);
  if (first?.kind !== 'word') return undefined;
  const form = reader.tables.verbs.get(first.word)?.find((one) => one.form === 'gerund' || one.form === 'base');
  return form && verbPhrases([{ ...first, word: form.base }, ...rest], reader.tables);
}
