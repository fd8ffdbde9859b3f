/**
 * What a sentence says beside what was read of it, and that would change it: for which model, at what other time, only half, only some, by whom else.
 * Each is a reason to leave the sentence unread; none makes a reading. A reason that only weakens what protects is asked only of what protects.
 */
import type { ActionKind, Sentence } from './action.ts';
import type { FoundCondition } from './clauses.ts';
import { type Item, wordAt } from './items.ts';
import { ordersAt } from './orders-behind.ts';
import type { Tables } from './tables.ts';
import { DEEDS } from './told-in-passing.ts';
import { TOUCHED, touchedAfter } from './touched.ts';

type Said = Pick<Sentence, 'actions' | 'mentions' | 'text'>;

/** What makes safe, or closes: it counts only where it is surely and wholly done. */
const PROTECTS: ReadonlySet<ActionKind> = new Set([
  'isolate',
  'lock',
  'relieve',
  'restrain',
  'try-out',
  'prove',
  'close',
  'tighten',
  'clear-people',
  'take-tools',
  'take-out',
  'out-of-service',
]);
const MOVES_POINT: ReadonlySet<ActionKind> = new Set(['isolate', 'restore', 'relieve', 'unrelieve', 'restrain', 'release']);

const protects = ({ actions }: Pick<Said, 'actions'>): boolean =>
  actions.some(({ kind, manner }) => PROTECTS.has(kind) || manner === 'in view');

/** Why the sentence, read as `said`, is not read after all. `passive`: it tells what is to be done and perhaps by whom. */
export function leftOver(items: readonly Item[], said: Said, passive: boolean, tables: Tables): string | undefined {
  if (said.actions.length === 0) return undefined;
  if (modelUnused(items, said)) return 'it is not clear what is done on that model alone';
  if (orDoes(items, tables)) return 'it leaves open which of the two is done';
  if (otherTime(said, tables)) return 'it leaves open when, or whether, it is done';
  if (onlyPartly(said, tables)) return 'it is done only in part';
  if (onlySome(items, said, tables)) return 'it does not say that all of them are meant';
  if (fewerThanAll(said)) return 'it does not say that all of them are meant';
  if (butNotThat(items, said, tables)) return 'it does not say what is left out';
  if (ofSuch(items, said, tables)) return 'it does not say for which machines or cases';
  if (backAgain(items, said, tables)) return 'it moves the point there and back';
  if (pointBeside(items, said, tables)) return 'it names a point and does not say what is done to it';
  if (passive && bySomeone(items, tables)) return 'it says that somebody else does it';
  if (butNot(items, said, tables)) return 'it does not say who or what stays';
  if (doneBeside(items, said, tables)) return 'something else is done in it';
  if (asSomeoneDoes(items, said, tables)) return 'something else is done in it';
  if (toldToDo(items, said, tables)) return 'it tells somebody to do something';
  if (goesInside(items, said, tables)) return 'it puts somebody where hands can be hurt';
  return undefined;
}

/** "Switch it off and, on the PL-2, shut the valve": a model that no condition holds. */
function modelUnused(items: readonly Item[], { actions }: Said): boolean {
  const chosen = new Set(
    actions.flatMap(({ when }) => when.flatMap((one) => (one.kind === 'variant' ? [...one.models, ...one.options] : []))),
  );
  const handled = new Set(actions.flatMap(({ things }) => things.map(({ thing }) => thing.name)));
  return items.some(
    (item) =>
      item.kind === 'name' &&
      item.things.every(({ kind }) => kind === 'model' || kind === 'option') &&
      !item.things.some(({ name }) => chosen.has(name) || handled.has(name)),
  );
}

/** "Pull the plug or press the stop key." */
const orDoes = (items: readonly Item[], tables: Tables): boolean =>
  items.some((_, index) => wordAt(items, index) === 'or' && ordersAt(items, index + 1, tables));

/** "at the end of the shift", "if need be": what protects counts only now and always. */
function otherTime(said: Said, tables: Tables): boolean {
  if (!protects(said)) return false;
  const text = ` ${said.text.toLowerCase().replace(/[^\p{L}\p{N}-]+/gu, ' ')} `;
  return tables.lexicon.beside.seldom.some((words) => text.includes(` ${words} `));
}

/** "half in", "shut it by half", "to 10 %": a point that does not get where it is safe, or a cover that is not on. */
function onlyPartly({ actions, text }: Said, tables: Tables): boolean {
  if (
    actions.some(
      ({ kind, amounts }) =>
        (kind === 'isolate' || kind === 'restrain') && amounts.some((one) => !/\b(?:s|min|h|seconds?|minutes?)$/.test(one.text)),
    )
  )
    return true;
  const held = actions.some(({ kind }) => kind === 'isolate' || kind === 'restrain' || kind === 'close');
  return held && text.split(/[^\p{L}-]+/u).some((word) => tables.lexicon.beside.partly.includes(word.toLowerCase()));
}

/** "two of the six bolts", "one of them", "the left pins", "the pins except the rear one". */
function onlySome(items: readonly Item[], said: Said, tables: Tables): boolean {
  if (!protects(said)) return false;
  const points = said.actions
    .filter(({ kind }) => kind === 'isolate' || kind === 'restrain' || kind === 'lock')
    .flatMap(({ things }) => things)
    .filter(({ thing }) => thing.kind === 'point');
  if (points.some(({ except, place }) => except !== undefined || place !== undefined)) return true;
  return items.some((_, index) => {
    const word = wordAt(items, index) ?? '';
    const few = tables.lexicon.numbers[word] !== undefined || /^\d{1,2}$/.test(word) || tables.lexicon.beside.some.includes(word);
    if (!few || wordAt(items, index + 1) !== 'of' || tables.lexicon.instrument.includes(wordAt(items, index - 1) ?? '')) return false;
    const after = items
      .slice(index + 2)
      .find(
        (item) =>
          item.kind !== 'word' ||
          !(tables.sets.determiners.has(item.word) || tables.lexicon.numbers[item.word] !== undefined || tables.sets.all.has(item.word)),
      );
    return (
      (after?.kind === 'name' && (after.plural || /s$/i.test(after.text)) && TOUCHED.has(after.things[0]?.kind ?? '')) ||
      wordAt(items, index + 2) === 'them'
    );
  });
}

/** "..., but not the outlet valve." */
const butNotThat = (items: readonly Item[], said: Said, tables: Tables): boolean => {
  if (!protects(said)) return false;
  const handled = new Set(said.actions.flatMap(({ things }) => things.map(({ thing }) => thing.name)));
  return items.some((_, index) => {
    const next = tables.sets.determiners.has(wordAt(items, index + 1) ?? '') ? items[index + 2] : items[index + 1];
    return wordAt(items, index) === 'not' && next?.kind === 'name' && next.things.some(({ name }) => handled.has(name));
  });
};

/** "On newer machines, ...", "in large cells", "without a watchman": cases that no condition holds. */
function ofSuch(items: readonly Item[], said: Said, tables: Tables): boolean {
  if (!protects(said) || said.actions.some(({ when }) => when.length > 0)) return false;
  const comma = items.findIndex((item) => item.kind === 'mark' && item.word === ',');
  const lead = wordAt(items, 0) ?? '';
  if (
    comma < 2 ||
    items
      .slice(0, comma)
      .some(
        (item) => item.kind !== 'word' && !(item.kind === 'name' && item.things.every(({ kind }) => kind === 'zone' || kind === 'machine')),
      )
  )
    return false;
  if (lead === 'without') return true;
  const last = items[comma - 1]?.text.toLowerCase() ?? '';
  const bound = items
    .slice(1, comma)
    .some((item) => item.kind === 'word' && (tables.sets.determiners.has(item.word) || tables.sets.all.has(item.word)));
  return ['on', 'in', 'with', 'for', 'at'].includes(lead) && !bound && /[^s]s$/.test(last) && tables.nouns.get(last) !== 'work';
}

/** "Fit one of four nuts", "tighten the upper one": said of fewer than the register has. */
const fewerThanAll = ({ actions }: Said): boolean =>
  actions.some(
    ({ kind, things, stage }) =>
      (kind === 'close' || (kind === 'tighten' && (stage === undefined || stage === 'final'))) &&
      things.some(
        ({ thing, except, place, count }) =>
          thing.kind === 'fastener' &&
          /s$/.test(thing.name) &&
          (place === undefined ? except !== undefined || count === 1 : !otherPlace(actions, thing.name, place)),
      ),
  );

/** "Tighten the upper nuts and then the lower nuts": the rest of them too, in the same breath. */
const otherPlace = (actions: Said['actions'], name: string, place: string): boolean =>
  actions.some(({ things }) => things.some((use) => use.thing.name === name && use.place !== undefined && use.place !== place));

/** "off and on again", "in and straight out again". */
function backAgain(items: readonly Item[], { actions }: Said, tables: Tables): boolean {
  if (!actions.some(({ kind }) => MOVES_POINT.has(kind))) return false;
  return items.some((_, index) => {
    const first = tables.positions.get(wordAt(items, index) ?? '');
    const opposite = first === undefined ? undefined : tables.opposite.get(first);
    if (opposite === undefined) return false;
    const joint = items.findIndex((item, at) => at > index && item.kind === 'word' && ['and', 'then', 'or'].includes(item.word));
    if (joint < 0) return false;
    let at = joint + 1;
    while (tables.lexicon.beside.returning.includes(wordAt(items, at) ?? '')) at += 1;
    const last = items[at + 1];
    const bare = last === undefined || last.kind === 'mark' || tables.lexicon.beside.returning.includes(wordAt(items, at + 1) ?? '');
    return bare && tables.positions.get(wordAt(items, at) ?? '') === opposite;
  });
}

/** "with a short opening of the inlet valve", "by way of the valve", "with the pin out". */
function pointBeside(items: readonly Item[], { actions }: Said, tables: Tables): boolean {
  const handled = new Set(
    actions.flatMap(({ things, with: tools, when, until }) => [
      ...[...things, ...tools].map(({ thing }) => thing.name),
      ...[...when, ...(until ? [until] : [])].flatMap((one) => (one.kind === 'state' ? [one.thing.name] : [])),
    ]),
  );
  const until = actions.map(({ until: one }) => one?.text ?? '').join(' ');
  return items.some((item, index) => {
    // "Nothing may move, with the gate open."
    const cover = item.kind === 'name' && protects({ actions }) && tables.positions.has(wordAt(items, index + 1) ?? '');
    if (item.kind !== 'name' || !item.things.every(({ kind }) => kind === 'point' || (cover && kind === 'cover'))) return false;
    if (item.things.some(({ name }) => handled.has(name)) || until.includes(item.text)) return false;
    let at = index - 1;
    while (at >= 0 && !tables.sets.prepositions.has(wordAt(items, at) ?? '') && items[at]?.kind !== 'mark') at -= 1;
    const lead = wordAt(items, at) ?? '';
    return ['with', 'without', ...tables.lexicon.instrument].includes(lead) || (lead === 'of' && deedBefore(items, at, tables));
  });
}

/** "opening of". */
const deedBefore = (items: readonly Item[], index: number, tables: Tables): boolean =>
  tables.verbs.get(wordAt(items, index - 1) ?? '')?.some(({ form }) => form === 'gerund') ?? false;

/** "must be shut by the operator"; not "by hand", "by half a turn", "with the wrench". */
function bySomeone(items: readonly Item[], tables: Tables): boolean {
  return items.some((_, index) => {
    if (wordAt(items, index) !== 'by') return false;
    const bound = tables.sets.determiners.has(wordAt(items, index + 1) ?? '');
    const next = items[bound ? index + 2 : index + 1];
    if (next?.kind === 'name') return next.things.some(({ kind }) => kind === 'role');
    if (next?.kind !== 'word' || tables.lexicon.numbers[next.word] !== undefined) return false;
    return bound
      ? !tables.lexicon.beside.handy.includes(next.word)
      : tables.nouns.get(next.word) === 'people' || tables.lexicon.beside.someone.includes(next.word);
  });
}

/** "Send everyone away except the helper", "take all tools but the wrench out". */
function butNot(items: readonly Item[], { actions }: Said, tables: Tables): boolean {
  return (
    actions.some(({ kind }) => kind === 'clear-people' || kind === 'take-tools') &&
    items.some(
      (item, index) =>
        item.kind === 'word' &&
        (tables.lexicon.except.includes(item.word) ||
          (tables.lexicon.beside.but.includes(item.word) && tables.lexicon.beside.butThan.includes(wordAt(items, index + 1) ?? ''))) &&
        // "but" between two orders spares nobody.
        (item.word !== 'but' || items[index - 1]?.kind !== 'mark'),
    )
  );
}

/** ", wiping the scraper", "reaching under the guard", "until you have wiped the scraper": a deed in a clause of its own. */
function doneBeside(items: readonly Item[], { actions }: Said, tables: Tables): boolean {
  const handled = new Set(
    actions
      .filter(({ kind }) => kind !== 'wait')
      .flatMap(({ things, with: tools }) => [...things, ...tools].map(({ thing }) => thing.name)),
  );
  const stranger = (from: number): boolean => {
    for (const item of items.slice(from, from + 5)) {
      if (item.kind === 'mark') return false;
      if (item.kind === 'name') return item.things.every(({ kind, name }) => TOUCHED.has(kind) && !handled.has(name));
    }
    return false;
  };
  return items.some((item, index) => {
    if (item.kind !== 'word') return false;
    if (tables.lexicon.beside.bodily.includes(item.word)) return true;
    const forms = tables.verbs.get(item.word) ?? [];
    const before = items[index - 1];
    // "..., by rocking it": a verb nobody listed.
    const how = wordAt(items, index - 1) === 'by' && /^[a-z]{2,}ing$/.test(item.word) && forms.length === 0;
    if (how && (['it', 'them'].includes(wordAt(items, index + 1) ?? '') || touchedAfter(items, index + 1))) return true;
    // "..., with which hand you also steady the scraper".
    const which = items.slice(0, index).some((one) => one.kind === 'word' && (one.word === 'which' || one.word === 'whose'));
    if (which && forms.some(({ form }) => form === 'base') && stranger(index + 1)) return true;
    const parted = before?.kind === 'mark' || ['and', 'while', 'as', 'besides'].includes(wordAt(items, index - 1) ?? '');
    if (parted && forms.some(({ form }) => form === 'gerund')) return stranger(index + 1);
    const have = ['have', 'has'].includes(wordAt(items, index - 1) ?? '');
    const done = have && forms.some(({ form, verb }) => form === 'past' && DEEDS.has(verb.senses[''] ?? ''));
    const person = wordAt(items, index - 2) === 'you' || tables.nouns.get(wordAt(items, index - 2) ?? '') === 'people';
    return done && person && stranger(index + 1);
  });
}

/** "Grease the chain, as the helper inches it on", "lay the cable; the helper lowers the carriage": another hand is at work meanwhile. */
function asSomeoneDoes(items: readonly Item[], { actions }: Said, tables: Tables): boolean {
  if (actions.some(({ role }) => role !== undefined)) return false;
  return items.some((item, index) => {
    const meanwhile = wordAt(items, index) === 'as' || (item.kind === 'mark' && [';', ':', ','].includes(item.word));
    if (index === 0 || !meanwhile) return false;
    const at = tables.sets.determiners.has(wordAt(items, index + 1) ?? '') ? index + 2 : index + 1;
    const who = items[at];
    const person =
      who?.kind === 'name'
        ? who.things.some(({ kind }) => kind === 'role')
        : who?.kind === 'word' && (tables.nouns.get(who.word) === 'people' || tables.lexicon.beside.someone.includes(who.word));
    const word = wordAt(items, at + 1) ?? '';
    const says = tables.sets.statives.has(word) || tables.sets.be.has(word);
    return (
      person &&
      !says &&
      (tables.verbs.get(word)?.some(({ form }) => form === 'third' || (form === 'base' && wordAt(items, index) === 'as')) ?? false)
    );
  });
}

/** "Tell the baker to wipe the scraper." */
const toldToDo = (items: readonly Item[], { actions }: Said, tables: Tables): boolean =>
  actions.some(({ kind }) => kind === 'tell') &&
  items.some(
    (_, index) => wordAt(items, index) === 'to' && index > 1 && ordersAt(items, index + 1, tables) && touchedAfter(items, index + 1),
  );

/** "Stand in the cell and look", "from inside the cell": a body there, though no hand is laid on anything. */
function goesInside(items: readonly Item[], { actions }: Said, tables: Tables): boolean {
  const reached = new Set(actions.filter(({ contact }) => contact).flatMap(({ things }) => things.map(({ thing }) => thing.name)));
  return items.some((item, index) => {
    if (item.kind !== 'name' || !item.things.some(({ kind, name }) => kind === 'zone' && !reached.has(name))) return false;
    const before = items.slice(Math.max(0, index - 4), index).flatMap((one) => (one.kind === 'word' ? [one.word] : []));
    const inside = before.some((word) => ['in', 'into', 'inside', 'within', 'under', 'on', 'onto'].includes(word));
    const from = before.some((word, at) => word === 'from' && ['inside', 'within', 'in', 'under'].includes(before[at + 1] ?? ''));
    return (inside && before.some((word) => tables.lexicon.beside.goes.includes(word))) || from;
  });
}

/** "when the leader asks for it", "whenever you leave": what may never come, or comes too late. */
export function mayNotCome({ kind, items }: FoundCondition, said: Said, tables: Tables): boolean {
  if (!['when', 'once', 'before', 'after'].includes(kind) || !protects(said)) return false;
  const words = items.flatMap((item) => (item.kind === 'word' ? [item.word] : []));
  if (words.some((word) => tables.lexicon.beside.mightNot.includes(word))) return true;
  const bare = items.every((item) => item.kind === 'word' || item.kind === 'mark');
  // "after the test run", not "after 5 min", "after that".
  if (kind === 'after')
    return (
      bare &&
      !words.some(
        (word) =>
          tables.lexicon.beside.dated.includes(word) ||
          tables.lexicon.numbers[word] !== undefined ||
          tables.verbs.get(word)?.some(({ form }) => form === 'gerund'),
      )
    );
  if (kind === 'before') return false;
  // "once you have found your lock", "when the boss says so"; not "when it stands still", "once everyone is clear".
  if (words.some((word) => tables.lexicon.beside.ready.includes(word) || word === 'nobody')) return false;
  const person = words.some((word) => ['you', 'he', 'she', 'somebody', 'someone'].includes(word) || tables.nouns.get(word) === 'people');
  const stands = words.some((word) => tables.sets.be.has(word) || tables.sets.statives.has(word));
  return person || (bare && !stands);
}
