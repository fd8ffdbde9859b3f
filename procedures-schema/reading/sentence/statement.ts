/** A sentence that tells and does not order: a remark, what must be so, what a gauge must show. What may hide an order is unread. */
import type { Sentence } from '../action.ts';
import type { Item } from '../items.ts';
import { shownProof } from './proofs-told.ts';
import { type Reader, unread } from './reader.ts';

/** A sentence that tells and does not order. */
export function readStatement(reader: Reader, main: readonly Item[], items: readonly Item[], base: Omit<Sentence, 'status'>): Sentence {
  const words = main.flatMap((item) => (item.kind === 'word' ? [item.word] : []));
  const must = words.some((word) => ['must', 'shall', 'should'].includes(word));
  const held =
    base.mentions.some((use) => use.thing.kind === 'point') &&
    words.some((word) => reader.tables.positions.has(word)) &&
    !words.includes('not');
  if (held && (must || /\bha(?:s|ve) to\b/.test(base.text))) return unread(base, 'it says how a point must stand, not who puts it there');
  const allowed = words.some((word, index) => {
    const past = word === 'be' && reader.tables.verbs.get(words[index + 1] ?? '')?.some(({ form }) => form === 'past');
    return past && words.slice(Math.max(0, index - 2), index).some((one) => ['can', 'may', 'could'].includes(one));
  });
  if (allowed && base.mentions.some(({ thing }) => ['part', 'cover', 'fastener', 'point', 'control'].includes(thing.kind)))
    return unread(base, 'it allows what is done and does not order it');
  const proof = shownProof(reader, main, base.text);
  if (proof) return { ...base, status: 'read', actions: [proof] };
  if (must) return { ...base, status: 'confirmation' };
  const first = main[0];
  const tells =
    first?.kind === 'name' ||
    (first?.kind === 'word' &&
      (reader.tables.sets.determiners.has(first.word) ||
        reader.tables.sets.possessives.has(first.word) ||
        reader.tables.sets.subjects.has(first.word) ||
        reader.tables.sets.all.has(first.word) ||
        reader.tables.sets.adjectives.has(first.word) ||
        reader.tables.sets.places.has(first.word) ||
        // "Two people are needed."
        (reader.tables.lexicon.numbers[first.word] !== undefined && words.some((word) => reader.tables.sets.be.has(word)))));
  // An order by a verb nobody listed: "Roll the gate by hand", "lap it as in [section ...]".
  const second = main[1]?.kind === 'word' ? main[1].word : main[1]?.kind;
  const ordered =
    second !== undefined &&
    (reader.tables.sets.determiners.has(second) ||
      reader.tables.sets.possessives.has(second) ||
      reader.tables.sets.all.has(second) ||
      ['it', 'them', 'name', 'reference', 'amount'].includes(second));
  const orders =
    ordered ||
    items.some(
      (item, index) =>
        index > 0 && item.kind === 'word' && reader.tables.verbs.get(item.word)?.some((form) => form.form === 'base' && !form.verb.noun),
    );
  if (!tells && (base.mentions.length > 0 || orders)) return unread(base, 'its verb is not known');
  const verb = words.some(
    (word) => reader.tables.sets.statives.has(word) || reader.tables.verbs.get(word)?.some((form) => form.form === 'third'),
  );
  if (verb) return { ...base, status: 'remark' };
  if (
    base.mentions.length === 0 &&
    !words.some((word) => reader.tables.verbs.get(word)?.some((form) => form.form === 'base' && !form.verb.noun))
  )
    return { ...base, status: 'remark' };
  return unread(base, 'no order could be found in it');
}
