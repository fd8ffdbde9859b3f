/** What tells of a deed without ordering it: no order, and no mere remark either. */
import type { Sentence } from './action.ts';
import { type Item, wordAt } from './items.ts';
import { ordersAt } from './orders-behind.ts';
import type { Tables } from './tables.ts';
import { TOUCHED, touchedAfter } from './touched.ts';

/** Senses of a hand at work, or of energy let in: what a statement may not say in passing. */
export const DEEDS: ReadonlySet<string> = new Set([
  'open',
  'out',
  'remove',
  'renew',
  'replace',
  'loosen',
  'tighten',
  'adjust',
  'clean',
  'apply',
  'turn',
  'move',
  'put',
  'fit',
  'unlock',
  'untag',
  'restore',
  'on',
  'start',
  'release',
  'feel',
  'unplug',
  'plug-in',
]);

/**
 * Why something that only tells is no mere remark: "the guard is removed and the drum is wiped", "the chain needs greasing", "grease goes on the chain",
 * "your lock can come off now". Who writes so may order it; that nobody does it cannot be assumed.
 */
export function toldInPassing(
  items: readonly Item[],
  { mentions, status }: Pick<Sentence, 'mentions' | 'status'>,
  tables: Tables,
): string | undefined {
  const why = 'it tells of something done and does not order it';
  const named = mentions.some(({ thing }) => TOUCHED.has(thing.kind));
  const word = (index: number): string => wordAt(items, index) ?? '';
  const { beside } = tables.lexicon;
  const forms = (index: number) => tables.verbs.get(word(index)) ?? [];
  const deed = (index: number, form: 'past' | 'gerund' | 'base'): boolean =>
    forms(index).some(({ form: own, verb }) => own === form && Object.values(verb.senses).some((sense) => DEEDS.has(sense)));
  for (let index = 0; index < items.length; index += 1) {
    if (items[index]?.kind !== 'word') continue;
    const before = items.slice(Math.max(0, index - 4), index).flatMap((item) => (item.kind === 'word' ? [item.word] : []));
    const being = before.some((one) => ['is', 'are', 'be', 'been', 'being', 'gets', 'get'].includes(one));
    const not = before.some((one) => tables.sets.negators.has(one));
    if (being && beside.alike.includes(word(index)) && before.some((one) => ['other', 'others', 'rest', 'same'].includes(one) || named))
      return why;
    // "The power may come on now."
    const comes =
      ['on', 'back'].includes(word(index)) && ['come', 'comes', 'go', 'goes', 'coming', 'be', 'is', 'back'].includes(word(index - 1));
    if (comes && items.slice(0, index).some((item) => beside.power.includes(item.text.toLowerCase())) && !not) return why;
    // "The helper may stay under it."
    const person = items
      .slice(0, index)
      .some((item) =>
        item.kind === 'name'
          ? item.things.some(({ kind }) => kind === 'role')
          : tables.nouns.get(item.text.toLowerCase()) === 'people' || beside.someone.includes(item.text.toLowerCase()),
      );
    const stays = tables.lexicon.modals.may.includes(word(index)) && beside.goes.includes(word(index + 1));
    const nobody = items.slice(0, index).some((item) => beside.noBody.includes(item.text.toLowerCase()));
    if (person && stays && !nobody && !not && (beside.within.includes(word(index + 2)) || touchedAfter(items, index))) return why;
    if (!named) continue;
    // "The shaft must feel cool": felt by a hand.
    if (['feel', 'feels'].includes(word(index)) && items.slice(0, index).some((item) => item.kind === 'name')) return why;
    // "A wipe of the scraper does no harm."
    const sensed = (form: 'base' | 'past', senses: ReadonlySet<string>): boolean =>
      forms(index).some(({ form: own, verb }) => own === form && senses.has(verb.senses[''] ?? ''));
    const bound = tables.sets.determiners.has(word(index - 1)) || tables.sets.adjectives.has(word(index - 1));
    const at = tables.sets.prepositions.has(word(index + 1)) && touchedAfter(items, index + 1);
    if (bound && at && sensed('base', BY_NAME) && !before.includes('no')) return why;
    // "The cloth is held to the scraper."
    const inHand = items
      .slice(0, index)
      .some((item) => item.kind === 'name' && item.things.every(({ kind }) => kind === 'tool' || kind === 'consumable'));
    if (being && !not && inHand && at && sensed('past', LAID_ON)) return why;
    // "Make sure that it is tight by pulling it", "gets its brushing", "the job is brushing the guide".
    const leads = word(index - 1);
    const gerund = forms(index).some(({ form }) => form === 'gerund');
    if (gerund && leads === 'by') return why;
    if (deed(index, 'gerund') && ['its', 'their', 'your'].includes(leads)) return why;
    if (deed(index, 'gerund') && ['is', 'are'].includes(leads) && touchedAfter(items.slice(index, index + 4), 0)) return why;
    // "is open", "is fitted with", "is set": how it stands, and nothing is done.
    if (
      being &&
      !not &&
      deed(index, 'past') &&
      (!tables.positions.has(word(index)) || (status === 'remark' && doneToIt(items, index))) &&
      (!['with', 'at', 'by'].includes(word(index + 1)) || ['now', 'then', 'hand'].includes(word(index + 2)))
    )
      return why;
    if (
      deed(index, 'gerund') &&
      ['needs', 'need', 'want', 'wants', 'requires', 'require', 'after', 'for', 'of', 'to'].includes(word(index - 1)) &&
      !not
    )
      return why;
    if (
      word(index) === 'to' &&
      deed(index + 1, 'base') &&
      !not &&
      !beside.serves.includes(word(index - 1)) &&
      ordersAt(items, index + 1, tables) &&
      touchedAfter(items, index + 1)
    )
      return why;
    if (
      ['goes', 'go', 'comes', 'come'].includes(word(index)) &&
      word(index - 1) !== 'you' &&
      tables.sets.prepositions.has(word(index + 1)) &&
      !not
    )
      return why;
    // "What you do next is wipe the scraper."
    if (['is', 'then', 'now'].includes(word(index)) && ordersAt(items, index + 1, tables) && touchedAfter(items, index + 1)) return why;
    if (beside.hands.includes(word(index)) && before.every((one) => one !== 'no') && !not) return why;
  }
  const locks = items.some(
    (item) =>
      ['lock', 'tag'].includes(tables.nouns.get(item.text.toLowerCase()) ?? '') && !(item.kind === 'word' && /^locks$/.test(item.word)),
  );
  const off = items.some((_, index) => ['off', 'away'].includes(word(index)) && !['is', 'are'].includes(word(index - 1)));
  return locks && off ? why : undefined;
}

/** "The guard is removed." is how it stands where something must be so or waits for it; said alone, in a step, somebody removes it. */
const doneToIt = (items: readonly Item[], index: number): boolean =>
  ['is', 'are', 'gets', 'get'].includes(wordAt(items, index - 1) ?? '') &&
  items.slice(0, index).every((_, at) => !BEHIND.has(wordAt(items, at) ?? ''));
const BEHIND: ReadonlySet<string> = new Set(
  'if when whenever while once until till unless after before because since as so where that which who whether with without'.split(' '),
);

/** Senses that are said as a thing: "a wipe", "a rub". */
const BY_NAME: ReadonlySet<string> = new Set(['clean', 'apply', 'adjust', 'feel', 'tighten', 'loosen', 'handle']);

/** What is done with a thing in the hand. */
const LAID_ON: ReadonlySet<string> = new Set(['handle', 'move', 'press', 'put']);

/** Senses that leave nothing to be seen as a state: "with the guide brushed" has it brushed, "with the guard removed" finds it so. */
const DONE: ReadonlySet<string> = new Set(['clean', 'apply', 'adjust', 'feel']);

/** Whether what stands in front or in a condition tells of a hand at work, or of power that is on: "as soon as the guide is brushed". */
export function doneBefore(items: readonly Item[], tables: Tables): boolean {
  const named = items.some((item) => item.kind === 'name' && item.things.some(({ kind }) => TOUCHED.has(kind)));
  const deed = (index: number): boolean =>
    tables.verbs.get(wordAt(items, index) ?? '')?.some(({ form, verb }) => form === 'past' && DONE.has(verb.senses[''] ?? '')) ?? false;
  const power = items.some(
    (item, index) => tables.lexicon.beside.power.includes(item.text.toLowerCase()) && wordAt(items, index + 1) === 'on',
  );
  return power || (named && items.some((_, index) => deed(index)));
}
