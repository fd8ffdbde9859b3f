/** Locks, isolation and restraints are read word for word: what stands in such an order and is not understood may take it back. */
import type { Sentence } from './action.ts';
import { clausesOf } from './clauses.ts';
import type { Item } from './items.ts';
import type { Tables } from './tables.ts';

const HOLDS: ReadonlySet<string> = new Set(['isolate', 'restrain', 'lock']);

/** The first word of the order that nothing accounts for, or undefined. "for show", "on Mondays", "in your mind". */
export function unaccounted(items: readonly Item[], { actions }: Pick<Sentence, 'actions'>, tables: Tables): string | undefined {
  if (!actions.some(({ kind }) => HOLDS.has(kind))) return undefined;
  if (actions.some(({ kind, until }) => kind === 'lock' && until !== undefined)) return 'until';
  if (actions.some(({ kind, amounts }) => HOLDS.has(kind) && amounts.length > 0)) return 'for how long, or how far';
  const { main, more } = clausesOf(items, tables);
  const held = actions.filter(({ kind }) => HOLDS.has(kind));
  const names = new Set(held.flatMap(({ things }) => things.flatMap(({ thing }) => thing.name.toLowerCase().split(/\s+/))));
  const within = (item: Item): boolean => held.some(({ at, end }) => item.at >= at && item.end <= end);
  const words = [...main, ...more].flatMap((item) => (item.kind === 'word' && within(item) ? [item.word] : []));
  const locks = actions.some(({ kind }) => kind === 'lock');
  if (locks && words.some((word) => tables.positions.get(word) === 'unlocked')) return 'unlocked';
  return words.find((word) => !names.has(word) && !/^\d+$/.test(word) && !accounted(word, tables));
}

function accounted(word: string, tables: Tables): boolean {
  const { sets, lexicon } = tables;
  return (
    [
      sets.openers,
      sets.determiners,
      sets.possessives,
      sets.prepositions,
      sets.places,
      sets.all,
      sets.be,
      sets.positionNouns,
      sets.adjectives,
    ].some((set) => set.has(word)) ||
    tables.verbs.has(word) ||
    tables.positions.has(word) ||
    tables.nouns.has(word) ||
    lexicon.numbers[word] !== undefined ||
    lexicon.beside.harmless.includes(word) ||
    [...lexicon.adverbs, ...lexicon.asides, ...lexicon.manners, ...lexicon.testRun].some((phrase) => phrase.split(' ').includes(word)) ||
    /ly$/.test(word)
  );
}
