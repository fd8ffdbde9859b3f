/** Words that are left out where everybody knows them, put back: "main isolator off", a verb that stands above its list, a label before a colon. */
import type { Action, ActionKind, Sentence } from '../action.ts';
import { verbAt } from '../clauses.ts';
import { type Item, wordAt } from '../items.ts';
import type { Tables } from '../tables.ts';
import { bare, type Reader, wordsOf } from './reader.ts';

/** "Tools away, people clear.": orders without a verb. */
export function fragmentOf(text: string, at: number, { sayings }: Tables['lexicon']): readonly Action[] | undefined {
  const parts = text
    .toLowerCase()
    .replace(/[.!]\s*$/, '')
    .split(/\s*(?:,|;| and )\s*/);
  const kinds = parts.map((part): ActionKind | undefined => {
    if (sayings.toolsAway.test(part)) return 'take-tools';
    return sayings.peopleAway.test(part) ? 'clear-people' : undefined;
  });
  return kinds.every((kind) => kind !== undefined) ? kinds.map((kind) => bare(kind, at, at + text.length)) : undefined;
}

/** "Main isolator off.", "Side door open, ...": a step of a few words is an order all the same. Only as the first words of a step. */
export function inFull(reader: Reader, items: readonly Item[], at: number): readonly Item[] {
  const name = items[0];
  const position = wordAt(items, 1) ?? '';
  const next = items[2];
  const ends = next === undefined || (next.kind === 'mark' && [',', '.', ';'].includes(next.word));
  if (reader.context.kind !== 'lead' || at !== 0 || name?.kind !== 'name' || !ends || !reader.tables.positions.has(position)) return items;
  const kind = name.things.length === 1 ? name.things[0]?.kind : undefined;
  const word = (text: string): Item => ({ kind: 'word', word: text, text, at: name.at, end: name.at });
  if (kind === 'point') return [word('turn'), ...items];
  if (kind === 'cover' && position === 'open') return [word('open'), name, ...items.slice(2)];
  const worn = name.things.every((thing) => thing.kind === 'tool' && reader.equipment.tool(thing.name)?.protective);
  return worn && position === 'on' ? [word('put'), word('on'), name, ...items.slice(2)] : items;
}

/** "Lock the fan out": a name that is also a verb is one where an order starts and an object follows. */
export function verbsFirst(reader: Reader, items: readonly Item[]): readonly Item[] {
  return items.map((item, index) => {
    if (item.kind !== 'name' || /\s/.test(item.text)) return item;
    const before = items[index - 1];
    const opens = index === 0 || before?.kind === 'mark' || (before?.kind === 'word' && ['and', 'then'].includes(before.word));
    const next = items[index + 1];
    const { determiners, possessives, all } = reader.tables.sets;
    const starts = (one: Item | undefined): boolean =>
      one?.kind === 'name' ||
      (one?.kind === 'word' &&
        (determiners.has(one.word) || possessives.has(one.word) || all.has(one.word) || ['it', 'them', 'both'].includes(one.word)));
    // "Lock and tag it": the second verb stands between the first and the object.
    const second = next?.kind === 'word' && next.word === 'and' && !/\s/.test(items[index + 2]?.text ?? ' ') ? items[index + 3] : undefined;
    const off =
      next?.kind === 'word' &&
      reader.tables.verbs.get(item.text.toLowerCase())?.some(({ verb }) => Object.hasOwn(verb.senses, next.word)) === true;
    const object = starts(next) || starts(second) || (off && starts(items[index + 2]));
    const word = item.text.toLowerCase();
    const bracket = reader.prose.marks.some((mark) => mark.kind === 'reference' && mark.at <= item.at && item.end <= mark.end);
    const verb = reader.tables.verbs.get(word)?.some((form) => form.base === word) ?? false;
    return opens && object && !bracket && verb ? { kind: 'word', word, text: item.text, at: item.at, end: item.end } : item;
  });
}

/** A bullet with the verb of its lead in front: "Remove:" and then "the guard". */
export function hangOn(reader: Reader, hung: NonNullable<Sentence['hanging']>, items: readonly Item[]): readonly Item[] {
  const first = items[0];
  if (!first || (first.kind === 'word' && reader.tables.verbs.get(first.word)?.some((form) => form.form === 'base' && !form.verb.noun)))
    return items;
  const { at } = first;
  const word = (text: string): Item => ({ kind: 'word', word: text, text, at, end: at });
  return [...hung.verb.split(' ').map(word), ...(hung.particle === undefined ? [] : [word(hung.particle)]), ...items];
}

/** "Leak test: look at the joint", "test run with the grille off: press the switch": what stands before the colon names what follows. */
export function withoutLabel(reader: Reader, items: readonly Item[]): readonly Item[] {
  const colon = items.findIndex((item) => item.kind === 'mark' && item.word === ':');
  if (colon < 1 || !reader.tables.lexicon.sayings.testLabel.test(wordsOf(reader, items.slice(0, colon)))) return items;
  const after = items.slice(colon + 1);
  return verbAt(after, 0, true, reader.tables) ? after : items;
}
