/** Who does it: an order to the second person reads as one, with that role. */
import { type Item, wordAt } from '../items.ts';
import type { Reader } from './reader.ts';

export function roleOf(reader: Reader, main: readonly Item[]): string | undefined {
  const item = main[beforeRole(reader, main)];
  return item?.kind === 'name' && item.things[0]?.kind === 'role' ? item.things[0].name : undefined;
}

/** "The second person lifts", "have the second person lift", "ask the second person to lift": how many words stand before the role. */
function beforeRole(reader: Reader, main: readonly Item[]): number {
  const asked = reader.tables.verbs.get(wordAt(main, 0) ?? '')?.some((one) => one.form === 'base' && one.verb.senses[''] === 'have')
    ? 1
    : 0;
  return reader.tables.sets.determiners.has(wordAt(main, asked) ?? '') ? asked + 1 : asked;
}

export function asksSomeone(reader: Reader, main: readonly Item[]): boolean {
  return reader.tables.verbs.get(wordAt(main, 0) ?? '')?.some((one) => one.form === 'base' && one.verb.senses[''] === 'have') ?? false;
}

/** After "the second person", verbs stand in the third person: read as orders to that person. */
export function afterRole(reader: Reader, main: readonly Item[]): readonly Item[] {
  const rest = main.slice(beforeRole(reader, main) + 1);
  return (wordAt(rest, 0) === 'to' ? rest.slice(1) : rest).map((item) => {
    if (item.kind !== 'word') return item;
    const form = reader.tables.verbs.get(item.word)?.find((one) => one.form === 'third');
    return form && !reader.tables.verbs.get(item.word)?.some((one) => one.form === 'base') ? { ...item, word: form.base } : item;
  });
}
