/** One sentence understood: forbidden, asked, told or ordered, with its conditions. What stands beside its order and would change it makes it unread. */
import type { Sentence } from '../action.ts';
import { clausesOf, goesOn, verbPhrases } from '../clauses.ts';
import { readCondition } from '../conditions.ts';
import { type Item, wordAt } from '../items.ts';
import { leftOver, mayNotCome } from '../left-over.ts';
import { orderBehind, ordersUnparted, partsAnew } from '../orders-behind.ts';
import { passiveOf } from '../passive.ts';
import type { Tables } from '../tables.ts';
import { doneBefore, toldInPassing } from '../told-in-passing.ts';
import { unaccounted } from '../word-for-word.ts';
import { conditionsOf, NO_HEADS } from './conditions-of.ts';
import { broughtOut, doneMeanwhile, hidesOrder, ordersIn } from './hidden-orders.ts';
import { readOrders } from './orders.ts';
import { confirms, provingCheck, shownProof } from './proofs-told.ts';
import { bare, type Reader, remember, unread, wordsOf } from './reader.ts';
import { calledBy } from './special.ts';
import { readStatement } from './statement.ts';
import { afterRole, asksSomeone, roleOf } from './who.ts';

/** Nothing that is ordered is passed over: what stands behind something that is only said, forbidden or shown is read for itself, or the sentence is unread. */
export function whole(reader: Reader, items: readonly Item[], text: string, base: Omit<Sentence, 'status'>): Sentence {
  reader.begun.clear();
  const sentence = understand(reader, items, text, base);
  if (sentence.status === 'unread') return sentence;
  const on = orderBehind(items, reader.begun, reader.tables);
  if (on < 0 || (sentence.status === 'prohibition' && !partsAnew(items, on))) return sentence;
  const before = items.slice(0, on);
  // For whom or when the second holds, is not said.
  const bound = clausesOf(items, reader.tables).leading.some(({ kind }) => ['if', 'unless', 'when'].includes(kind));
  if (bound || sentence.status === 'prohibition') return unread(base, 'an order stands behind what is said first');
  const first = understand(reader, before, wordsOf(reader, before), base);
  remember(
    reader,
    first,
    base.mentions.filter((use) => use.at < (items[on] as Item).at),
  );
  const behind = items.slice(on);
  const second = whole(reader, behind, wordsOf(reader, behind), base);
  if (first.status === 'unread') return first;
  const passing = first.status === 'remark' || first.status === 'confirmation' ? toldInPassing(before, first, reader.tables) : undefined;
  if (passing !== undefined) return unread(base, passing);
  return second.status === 'read'
    ? { ...second, actions: [...first.actions, ...second.actions] }
    : unread(base, second.why ?? 'an order stands behind what is said first');
}

/** A sentence is read only where nothing stands beside what was read that would change it. */
export function besides(reader: Reader, items: readonly Item[], sentence: Sentence, base: Omit<Sentence, 'status'>): Sentence {
  const { tables } = reader;
  const { leading, heads, main } = clausesOf(items, tables);
  const early =
    sentence.status === 'read' &&
    [...leading.filter(({ kind }) => kind !== 'if').map((one) => one.items), ...heads].some((said) => doneBefore(said, tables));
  if (early) return unread(base, 'something else is done in it');
  // "Out of limits: switch off", "from 3 mm up: renew": done at all times it would be another order.
  const bounded = sentence.status === 'read' && heads.some(boundsIt) && sentence.actions.some(({ when }) => when.length === 0);
  if (bounded) return unread(base, 'its condition could not be read');
  const why =
    sentence.status === 'read'
      ? leftOver(items, sentence, verbPhrases(main, tables) === undefined, tables)
      : sentence.status === 'remark' || sentence.status === 'confirmation'
        ? toldInPassing(saidFirst(items, tables), sentence, tables)
        : undefined;
  const stray = why === undefined && sentence.status === 'read' ? unaccounted(items, sentence, tables) : undefined;
  if (stray !== undefined)
    return unread(base, `an order to lock, isolate or hold is read word for word, and "${stray}" is not understood in it`);
  return why === undefined ? sentence : unread(base, why);
}

function understand(reader: Reader, items: readonly Item[], text: string, base: Omit<Sentence, 'status'>): Sentence {
  const { tables, context } = reader;
  const clauses = clausesOf(items, tables);
  const { rest: main, deeds, model } = broughtOut(reader, clauses.main);
  const first = main[0];
  const word = first?.kind === 'word' ? first.word : '';
  const second = main[1]?.kind === 'word' ? main[1].word : '';
  if (main.length === 0)
    return {
      ...base,
      status: base.mentions.length > 0 ? 'unread' : 'remark',
      ...(base.mentions.length > 0 ? { why: 'no order could be found in it' } : {}),
    };
  // "Not wiping the blade is a mistake": it is to be wiped.
  const undone = main[1]?.kind === 'word' && tables.verbs.get(main[1].word)?.some(({ form }) => form === 'gerund');
  if (word === 'not' && undone && base.mentions.length > 0 && main.some((item) => item.kind === 'word' && tables.sets.be.has(item.word)))
    return unread(base, 'it tells of something done and does not order it');
  if (
    tables.sets.negators.has(word) ||
    (word === 'do' && second === 'not') ||
    (word === 'take' && second === 'care' && wordAt(main, 2) !== 'of') ||
    word === 'no'
  )
    return { ...base, status: 'prohibition' };
  if (word === 'take' && second === 'care' && wordAt(main, 2) === 'of' && base.mentions.length > 0)
    return unread(base, 'it does not say what is done');
  if (tables.caring.some((parts) => parts.every((part, offset) => wordAt(main, offset) === part)))
    return goesOn(main, tables) >= 0 || ordersIn(reader, main)
      ? unread(base, 'an order stands in a warning')
      : { ...base, status: 'remark' };
  const conditions = conditionsOf(reader, clauses.leading, [...clauses.heads, ...model], text);
  if (conditions === undefined) return unread(base, 'its condition could not be read');
  if (confirms(reader, main) && !reader.tables.lexicon.sayings.clears.test(wordsOf(reader, main).toLowerCase())) {
    const proof = provingCheck(reader, main, text, base);
    if (proof) return { ...base, status: 'read', actions: [{ ...proof, when: conditions.when }] };
    return { ...base, status: 'confirmation' };
  }
  const role = roleOf(reader, main);
  const order = role === undefined ? main : afterRole(reader, main);
  // "Ask the helper to stand clear, put the fuse in": whose the second deed is, the words do not say.
  if (role !== undefined && asksSomeone(reader, main) && (verbPhrases(order, tables) ?? []).length > 1)
    return unread(base, 'it does not say who does the second of them');
  const stated = role === undefined && !verbPhrases(order, tables) ? afterStatement(reader, main) : undefined;
  const phrases =
    role === undefined
      ? (verbPhrases(order, tables) ?? (stated && verbPhrases(stated, tables)) ?? passiveOf(order, tables))
      : verbPhrases(order, tables);
  if (!phrases) {
    const called = calledBy(reader, main);
    if (called) return { ...base, status: 'read', actions: [{ ...called, when: conditions.when }] };
    // "With the guard clean press the button: it must not turn": an order stands in what is said first.
    if (clauses.heads.some((head) => ordersIn(reader, head))) return unread(base, 'an order stands in what is said first');
    if (wordAt(main, 0) === 'it' && ordersIn(reader, [...main, ...clauses.purpose])) return unread(base, 'it does not say that it is done');
    return readStatement(reader, main, items, base);
  }
  const trailing = conditionsOf(
    reader,
    clauses.trailing.filter((one) => one.kind === 'if' || one.kind === 'unless' || one.kind === 'when'),
    NO_HEADS,
    text,
  );
  if (!trailing) return unread(base, 'its condition could not be read');
  // "Read the gauge, and if it is over the limit open the cock": no comma parts the condition from what is ordered.
  if (clauses.trailing.some(({ kind, items: said }) => ['if', 'unless', 'when', 'once'].includes(kind) && ordersUnparted(said, tables)))
    return unread(base, 'an order stands in its condition');
  const together = role === undefined ? clauses.trailing.filter((one) => one.kind === 'while' && hidesOrder(reader, one)) : [];
  const hidden = [...clauses.leading, ...clauses.trailing].some(
    (one) => ['after', 'before', 'while'].includes(one.kind) && !together.includes(one) && hidesOrder(reader, one),
  );
  if (hidden) return unread(base, 'an order hides in a clause of time');
  const until = clauses.trailing.find((one) => one.kind === 'until');
  const shared = {
    when: [...conditions.when, ...trailing.when],
    ...(until ? { until: readCondition(until.items, wordsOf(reader, until.items), context, tables) } : {}),
  };
  reader.lastRow = shared.when;
  if (model.length > 0 && phrases.length > 1) return unread(base, 'it is not clear what is done on that model alone');
  const meanwhile = [
    ...together.map(({ items: said }) => doneMeanwhile(reader, said)),
    ...deeds.map((said) => doneMeanwhile(reader, said)),
  ];
  if (meanwhile.includes(undefined)) return unread(base, 'an order hides in a clause of time');
  const after = clauses.more.length > 0 ? verbPhrases(clauses.more, tables) : [];
  const going = after && [...meanwhile.flatMap((one) => one ?? []), ...after];
  if (!going) return unread(base, 'an order after its condition could not be read');
  // "Open it if it is full and remove the cap": for which of them the condition holds, the words do not say.
  if (going.length > 0 && trailing.when.length > 0) return unread(base, 'it is not clear for what its condition holds');
  // "Once everyone is clear, press the button": it waits for that, and whoever presses looks.
  const awaited = clauses.leading.some(
    ({ kind, items: said }) => (kind === 'when' || kind === 'once') && reader.tables.lexicon.sayings.nobody.test(wordsOf(reader, said)),
  );
  const cleared =
    awaited ||
    clauses.heads.some((head) => reader.tables.lexicon.sayings.withPeopleClear.test(wordsOf(reader, head))) ||
    (stated && reader.tables.lexicon.sayings.nobody.test(wordsOf(reader, main)));
  const done = readOrders(
    reader,
    [...phrases, ...going],
    {
      untilAt: phrases.length - 1,
      ...shared,
      role,
      result: wordsOf(reader, clauses.result),
      purpose: wordsOf(reader, clauses.purpose),
      heads: clauses.heads,
      tools: conditions.tools,
      outside: conditions.outside,
    },
    text,
    base,
  );
  if (done.status === 'read' && [...clauses.leading, ...clauses.trailing].some((one) => mayNotCome(one, done, tables)))
    return unread(base, 'it leaves open when, or whether, it is done');
  // "Open the valve; the gauge must show 0 bar."
  const read = done.status === 'read' ? shownProof(reader, clauses.result, wordsOf(reader, clauses.result)) : undefined;
  if (read && !done.actions.some(({ kind }) => kind === 'prove' || kind === 'measure'))
    return { ...done, actions: [...done.actions, read] };
  // "With everyone clear press the button": whoever presses sees to it.
  return cleared ? { ...done, actions: [bare('clear-people', base.at, base.at), ...done.actions] } : done;
}

/** Whether what stands in front names a limit, or all values on one side of an amount. */
function boundsIt(head: readonly Item[]): boolean {
  const words = head.flatMap((item) => (item.kind === 'word' ? [item.word] : []));
  const side = head.some(({ kind }) => kind === 'amount') && SIDES.has(words.at(-1) ?? '');
  return side || words.some((word) => LIMITS.has(word));
}
const SIDES: ReadonlySet<string> = new Set([
  'up',
  'upward',
  'upwards',
  'on',
  'above',
  'more',
  'over',
  'down',
  'downward',
  'downwards',
  'below',
  'less',
]);
const LIMITS: ReadonlySet<string> = new Set(['limit', 'limits', 'tolerance', 'tolerances']);

/** "The table is good: go to [section Finish]": said of the machine, then ordered. */
function afterStatement(reader: Reader, main: readonly Item[]): readonly Item[] | undefined {
  const colon = main.findIndex((item) => item.kind === 'mark' && item.word === ':');
  const said = main.slice(0, Math.max(0, colon));
  const plain = said.every((item) => item.kind === 'word' || (item.kind === 'name' && item.things[0]?.kind === 'machine'));
  const states = said.some((item) => item.kind === 'word' && reader.tables.sets.be.has(item.word));
  return colon > 0 && plain && (states || reader.tables.lexicon.sayings.nobody.test(wordsOf(reader, said)))
    ? main.slice(colon + 1)
    : undefined;
}

/** What is said for itself, without when and how long. */
function saidFirst(items: readonly Item[], tables: Tables): readonly Item[] {
  const { main, result, purpose } = clausesOf(items, tables);
  return [...main, ...result, ...(purpose.length > 0 ? items.slice(items.indexOf(purpose[0] as Item) - 1) : [])];
}
