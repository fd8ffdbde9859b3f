/** Takes a sentence apart before any verb is understood: what stands in front, conditions, purpose, result, and the verb phrases of the main clause. Long because a clause is known only by its neighbours. */

import type { Item } from './items.ts';
import type { ConditionWord } from './lexicon/lexicon.ts';
import type { Tables, VerbForm } from './tables.ts';

export interface FoundCondition {
  readonly kind: ConditionWord;
  readonly items: readonly Item[];
}

export interface Clauses {
  readonly leading: readonly FoundCondition[];
  /** "On the DM-20,", "Using the torque wrench,": prepositional heads before the comma. */
  readonly heads: readonly (readonly Item[])[];
  readonly main: readonly Item[];
  readonly trailing: readonly FoundCondition[];
  /** Orders that go on after a trailing condition: "until it stands still, and watch the gauge". */
  readonly more: readonly Item[];
  /** After a colon or semicolon, when it is no order: what must be seen. */
  readonly result: readonly Item[];
  /** "to prove that ..." */
  readonly purpose: readonly Item[];
}

/** Asked for several times while one sentence is read. A language has one table, so the words alone say which. */
const cut = new WeakMap<readonly Item[], Clauses>();

export function clausesOf(items: readonly Item[], tables: Tables): Clauses {
  let clauses = cut.get(items);
  if (clauses === undefined) {
    clauses = cutUp(items, tables);
    cut.set(items, clauses);
  }
  return clauses;
}

function cutUp(items: readonly Item[], tables: Tables): Clauses {
  let rest = worn(withoutWorking(withoutOpeners(items, tables), tables));
  const leading: FoundCondition[] = [];
  const heads: (readonly Item[])[] = [];
  for (let again = true; again; ) {
    again = false;
    const condition = conditionAt(rest, 0, tables) ?? (wordOf(rest[0]) === 'should' ? { kind: 'if' as const, length: 1 } : undefined);
    const head = rest[0];
    if (condition && !['because', 'purpose'].includes(condition.kind)) {
      let comma = endOfHead(rest, condition.length, tables);
      if (comma < 0 && condition.kind === 'after' && isTimed(rest, tables)) comma = orderAfter(rest, condition.length + 1, tables) - 1;
      if (comma < 0) break;
      if (wordOf(rest[comma]) !== undefined || rest[comma]?.kind !== 'mark') {
        // "After ten minutes read the gauge": no comma between.
        leading.push({ kind: condition.kind, items: rest.slice(condition.length, comma + 1) });
        rest = rest.slice(comma + 1);
        again = true;
        continue;
      }
      leading.push({ kind: condition.kind, items: rest.slice(condition.length, comma) });
      rest = withoutOpeners(rest.slice(comma + 1), tables);
      again = rest.length > 0;
    } else if (head?.kind === 'amount' && rest[1]?.kind === 'mark' && rest[1].word === ':' && verbAt(rest, 2, true, tables)) {
      // "Under 3 mm: renew the lining": the amount holds the word before it.
      heads.push(rest.slice(0, 1));
      rest = rest.slice(2);
      again = true;
    } else if (
      head?.kind === 'word' &&
      tables.sets.prepositions.has(head.word) &&
      !tables.verbs.get(head.word)?.some((one) => one.form === 'base')
    ) {
      const comma = endOfHead(rest, 1, tables);
      // "With everyone clear press the button", "for the figures see [PD-7]": no comma between.
      const order = head.word === 'with' ? orderAfter(rest, 2, tables) : head.word === 'for' ? sendingOn(rest, tables) : -1;
      if (order > 0 && (comma < 0 || order < comma)) {
        heads.push(rest.slice(0, order));
        rest = rest.slice(order);
        again = true;
        continue;
      }
      if (comma < 0) break;
      heads.push(rest.slice(0, comma));
      rest = withoutOpeners(rest.slice(comma + 1), tables);
      again = rest.length > 0;
    }
  }
  rest = urgedOn(rest, tables);
  const colon = rest.findIndex((item, index) => index > 0 && item.kind === 'mark' && (item.word === ':' || item.word === ';'));
  let result: readonly Item[] = [];
  if (colon > 0) {
    const after = withoutOpeners(rest.slice(colon + 1), tables);
    if (after.length > 0 && !verbAt(after, 0, true, tables)) {
      result = after;
      rest = rest.slice(0, colon);
    }
  }
  const trailing: FoundCondition[] = [];
  let purpose: readonly Item[] = [];
  let more: readonly Item[] = [];
  /** Cuts a clause off the end: the order that goes on behind it is kept. Returns what the clause itself says. */
  const cut = (index: number, from: number): readonly Item[] => {
    const said = rest.slice(from);
    const on = goesOn(said, tables);
    rest = trimmed(rest.slice(0, index));
    if (on < 0) return said;
    more = more.length === 0 ? said.slice(on) : [...said.slice(on), ...more];
    return trimmed(said.slice(0, on));
  };
  for (let index = rest.length - 1; index > 0; index -= 1) {
    const condition = conditionAt(rest, index, tables);
    // "Turn it once with the key": how often, and with what.
    const often = condition?.kind === 'once' && tables.sets.prepositions.has(wordOf(rest[index + condition.length]) ?? '');
    if (condition && !often && opensClause(rest, index, condition.length, tables)) {
      const said = cut(index, index + condition.length);
      if (condition.kind === 'purpose') purpose = said;
      trailing.unshift({ kind: condition.kind, items: said });
      continue;
    }
    const item = rest[index];
    const next = rest[index + 1];
    if (
      item?.kind === 'word' &&
      item.word === 'to' &&
      next?.kind === 'word' &&
      purposeVerb(rest, index + 1, tables) &&
      !tables.positions.has(next.word) &&
      !tables.lexicon.stepWords.includes(next.word) &&
      !tables.sets.determiners.has(next.word)
    ) {
      // "to raise and lower the table": one purpose.
      const twofold = wordOf(rest[index + 2]) === 'and';
      if (twofold) {
        purpose = rest.slice(index + 1);
        rest = trimmed(rest.slice(0, index));
      } else purpose = cut(index, index + 1);
    } else if (item?.kind === 'word' && item.word === 'that' && index > 2 && describes(rest, index, tables)) cut(index, index + 1);
    else if (item?.kind === 'word' && (item.word === 'which' || item.word === 'whose')) cut(index, index + 1);
  }
  more = withoutOpeners(more, tables);
  return { leading, heads, main: rest, trailing, more, result, purpose };
}

/** Where "see" or "refer to" stands in front of a reference. */
const sendingOn = (items: readonly Item[], tables: Tables): number =>
  items.findIndex((item, index) => {
    const to = wordOf(items[index + 1]) === 'to' ? 2 : 1;
    const sends = wordOf(item) !== undefined && verbAt(items, index, true, tables)?.verb.senses[''] === 'see';
    const where = items[index + to];
    const there =
      where?.kind === 'reference' || (where?.kind === 'name' && where.things.some(({ kind }) => kind === 'document' || kind === 'section'));
    return index > 1 && sends && there;
  });

/**
 * "..., working from the middle outwards", "starting with the one farthest from you, ...": in which order, and nothing more. Only where it names nothing:
 * who works over the drum has a hand there.
 */
function withoutWorking(items: readonly Item[], tables: Tables): readonly Item[] {
  const from = items.findIndex(
    (item, index) =>
      tables.lexicon.clauseWords.working.includes(wordOf(item) ?? '') &&
      (index === 0 || (items[index - 1]?.kind === 'mark' && items[index - 1]?.text === ',')),
  );
  if (from < 0) return items;
  let to = from;
  while (to < items.length && !(items[to]?.kind === 'mark' && [',', ';', ':', '.'].includes(items[to]?.text ?? ''))) to += 1;
  const said = items.slice(from, to);
  if (said.some((item) => item.kind !== 'word')) return items;
  const after = items.slice(to);
  return from === 0 ? withoutOpeners(after, tables) : [...items.slice(0, from - 1), ...after];
}

/** "Wearing gloves, lift the blade": put on first. */
function worn(items: readonly Item[]): readonly Item[] {
  const [first, ...rest] = items;
  return first?.kind === 'word' && first.word === 'wearing' ? [{ ...first, word: 'wear' }, ...rest] : items;
}

/** "once", "at once", "as before": said alone they open no clause, and what stands behind them is no part of one. */
function opensClause(items: readonly Item[], index: number, length: number, tables: Tables): boolean {
  const next = items[index + length];
  if (next === undefined || next.kind === 'mark' || wordOf(items[index - 1]) === 'at') return false;
  return !tables.lexicon.clauseWords.alone.includes(wordOf(next) ?? '');
}

/** Without what urges: "you must remove it", "do not forget to remove it" order it. What is only seen or felt is said, not ordered. */
function urgedOn(main: readonly Item[], tables: Tables): readonly Item[] {
  const urging = tables.urging.find((words) => words.every((word, offset) => wordOf(main[offset]) === word));
  const rest = main.slice(urging?.length ?? 0);
  const sense = tables.verbs.get(wordOf(rest[0]) ?? '')?.find(({ form }) => form === 'base')?.verb.senses[''];
  const senses = ['see', 'look', 'feel', 'listen', 'watch', 'have', 'read'].includes(sense ?? '');
  return urging === undefined || (sense === undefined && wordOf(rest[0]) !== 'not') || senses ? main : rest;
}

const isTimed = (items: readonly Item[], tables: Tables): boolean =>
  items.slice(0, 4).some((item) => item.kind === 'amount' || tables.lexicon.clauseWords.times.includes(wordOf(item) ?? ''));

/** Where an order begins that no comma parts from what stands in front: a verb, and what it is done to right behind it. */
function orderAfter(items: readonly Item[], from: number, tables: Tables): number {
  for (let index = from; index < items.length - 1; index += 1) {
    const next = items[index + 1] as Item;
    const object =
      next.kind === 'name' || (next.kind === 'word' && (tables.sets.determiners.has(next.word) || tables.sets.all.has(next.word)));
    const before = items[index - 1];
    const bound =
      before?.kind === 'word' &&
      (tables.sets.determiners.has(before.word) || tables.sets.adjectives.has(before.word) || ['to', 'for', 'by'].includes(before.word));
    if (object && !bound && verbAt(items, index, false, tables)) return index;
  }
  return -1;
}

/** The verb that starts at `index`, if the words after it let it be one. */
export function verbAt(items: readonly Item[], index: number, opening: boolean, tables: Tables): VerbForm | undefined {
  const item = items[index];
  if (item?.kind !== 'word') return undefined;
  const form = tables.verbs.get(item.word)?.find((one) => one.form === 'base');
  if (!form || (form.verb.first && !opening)) return undefined;
  const next = items[index + 1];
  if (form.verb.object && !opensObject(next, tables)) return undefined;
  if (next?.kind === 'word' && (tables.sets.be.has(next.word) || ['must', 'has', 'shall', 'should'].includes(next.word))) return undefined;
  if (opening && !form.verb.noun) return form;
  if (!next) return opening || !form.verb.noun || ['wait', 'listen'].includes(form.verb.senses[''] ?? '') ? form : undefined;
  if (next.kind !== 'word') return next.kind === 'mark' ? (opening || !form.verb.noun || next.word === ',' ? form : undefined) : form;
  const follows =
    tables.sets.determiners.has(next.word) ||
    tables.sets.possessives.has(next.word) ||
    tables.sets.all.has(next.word) ||
    tables.sets.prepositions.has(next.word) ||
    tables.sets.adjectives.has(next.word) ||
    tables.lexicon.numbers[next.word] !== undefined ||
    tables.nouns.has(next.word) ||
    ['it', 'them', 'and', 'that', 'sure', 'certain', 'everyone', 'everybody', 'again', 'whether', 'until', 'to'].includes(next.word) ||
    Object.hasOwn(form.verb.senses, next.word) ||
    /ly$/.test(next.word);
  if (form.verb.noun && !opening && next.word === 'and') return doubled(items, index, tables) ? form : undefined;
  // "your lock and tag on the valve": a noun, not an order.
  if (
    !opening &&
    ['lock', 'tag'].includes(form.verb.senses[''] ?? '') &&
    tables.sets.prepositions.has(next.word) &&
    !Object.hasOwn(form.verb.senses, next.word)
  )
    return undefined;
  return follows || !form.verb.noun || opening ? form : undefined;
}

const opensObject = (item: Item | undefined, tables: Tables): boolean =>
  item?.kind === 'name' ||
  (item?.kind === 'word' &&
    (tables.sets.determiners.has(item.word) || tables.sets.all.has(item.word) || ['it', 'them'].includes(item.word)));

/** "..., lock and tag it": two orders that share an object, where the first could be a noun. */
function doubled(items: readonly Item[], index: number, tables: Tables): boolean {
  const second = wordOf(items[index + 2]);
  const object = items[index + 3];
  const locks = (word: string | undefined): boolean =>
    word !== undefined &&
    (tables.verbs.get(word)?.some((one) => one.form === 'base' && ['lock', 'tag'].includes(one.verb.senses[''] ?? '')) ?? false);
  const verb = locks(wordOf(items[index])) && locks(second);
  return (
    verb &&
    (object?.kind === 'name' ||
      (object?.kind === 'word' && (tables.sets.determiners.has(object.word) || ['it', 'them', 'both'].includes(object.word))))
  );
}

/** Cuts a main clause at "and", "then" and commas where a verb follows. */
export function verbPhrases(
  main: readonly Item[],
  tables: Tables,
): readonly { readonly form: VerbForm; readonly items: readonly Item[] }[] | undefined {
  const from = skipAdverbs(main, 0, tables);
  const first = verbAt(main, from, true, tables);
  if (!first) return undefined;
  const out: { form: VerbForm; items: Item[] }[] = [{ form: first, items: [] }];
  for (let index = from; index < main.length; index += 1) {
    const item = main[index] as Item;
    if (index > from && separates(item)) {
      let at = index;
      while (
        at < main.length &&
        (separates(main[at] as Item) || (main[at]?.kind === 'word' && tables.sets.openers.has((main[at] as { word: string }).word)))
      )
        at += 1;
      const state = threadState(main, at, (out[out.length - 1] as (typeof out)[number]).form, tables);
      if (state > 0) {
        index = at + state - 1;
        continue;
      }
      at = skipAdverbs(main, at, tables);
      const form = at < main.length ? verbAt(main, at, false, tables) : undefined;
      if (form) {
        out.push({ form, items: [] });
        index = at - 1;
        continue;
      }
      // "Tighten the nut to 10 N·m and the bolt to 16 N·m": the same is done to another, with a figure of its own.
      const opened = out[out.length - 1] as (typeof out)[number];
      const verb = main[from];
      if (verb?.kind === 'word' && main[index - 1]?.kind === 'amount' && anotherWithAmount(main, at, tables)) {
        out.push({ form: opened.form, items: [{ ...verb, at: item.at, end: item.end }] });
        index = at - 1;
        continue;
      }
    }
    (out[out.length - 1] as (typeof out)[number]).items.push(item);
  }
  return out.map((phrase) => ({ form: phrase.form, items: trimmed(phrase.items) }));
}

/**
 * "to 25 N·m, dry, with the torque wrench": how many words say the state of the threads, between the value and the tool. Only when they
 * stand alone: "dry the threads" and "dry with a cloth" are orders.
 */
function threadState(items: readonly Item[], at: number, form: VerbForm, tables: Tables): number {
  if (!Object.values(form.verb.senses).includes('tighten')) return 0;
  const state = tables.threadStates.find((words) => words.every((word, offset) => wordOf(items[at + offset]) === word));
  if (state === undefined) return 0;
  const after = items[at + state.length];
  return after === undefined || after.kind === 'mark' ? state.length : 0;
}

/** A name, perhaps with "the" or a count before it, then "to" and an amount. */
function anotherWithAmount(items: readonly Item[], from: number, tables: Tables): boolean {
  const name = items.findIndex((item, index) => index >= from && item.kind === 'name');
  const before = items.slice(from, Math.max(from, name));
  const plain = before.every(
    (item) => item.kind === 'word' && (tables.sets.determiners.has(item.word) || tables.lexicon.numbers[item.word] !== undefined),
  );
  return name >= 0 && plain && wordOf(items[name + 1]) === 'to' && items[name + 2]?.kind === 'amount';
}

/** Where a new order starts after a comma or "and" inside a condition. */
export function goesOn(items: readonly Item[], tables: Tables): number {
  for (let index = 0; index < items.length - 1; index += 1) {
    const item = items[index] as Item;
    if (!(item.kind === 'mark' && item.word === ',') && !(item.kind === 'word' && item.word === 'and')) continue;
    let at = index + 1;
    while (wordOf(items[at]) === 'and' || wordOf(items[at]) === 'then') at += 1;
    if (verbAt(items, at, false, tables) && items[at + 1]?.kind !== 'mark') return index;
  }
  return -1;
}

/** "to prove that", "to read the gauge"; not "to earth", "to check valve". */
function purposeVerb(items: readonly Item[], index: number, tables: Tables): boolean {
  const word = wordOf(items[index]) ?? '';
  const next = items[index + 1];
  if (word === 'show' && wordOf(next) === 'that') return true;
  const form = tables.verbs.get(word)?.find((one) => one.form === 'base');
  if (!form) return false;
  return (
    !form.verb.noun ||
    next?.kind === 'name' ||
    (next?.kind === 'word' && (['that', 'whether', 'if', 'it', 'them'].includes(next.word) || tables.sets.determiners.has(next.word)))
  );
}

/** "the shoe that is under the limit": a clause that only says which one. */
function describes(items: readonly Item[], index: number, tables: Tables): boolean {
  const next = wordOf(items[index + 1]);
  const first = wordOf(items[0]);
  const sense = first === undefined ? undefined : tables.verbs.get(first)?.find((form) => form.form === 'base')?.verb.senses[''];
  return next !== undefined && tables.sets.be.has(next) && !['check', 'prove', 'confirm', 'tell', 'make', 'test'].includes(sense ?? '');
}

function separates(item: Item): boolean {
  return (
    (item.kind === 'mark' && (item.word === ',' || item.word === ';' || item.word === ':' || item.word === '–')) ||
    (item.kind === 'word' && (item.word === 'and' || item.word === 'then'))
  );
}

function skipAdverbs(items: readonly Item[], from: number, tables: Tables): number {
  let index = from;
  for (;;) {
    const item = items[index];
    if (
      item?.kind === 'word' &&
      ((/^[a-z]+ly$/.test(item.word) && !tables.verbs.has(item.word)) || (tables.sets.openers.has(item.word) && item.word !== 'and'))
    )
      index += 1;
    else return index;
  }
}

function withoutOpeners(items: readonly Item[], tables: Tables): readonly Item[] {
  let index = 0;
  while (index < items.length) {
    const item = items[index] as Item;
    if (item.kind === 'mark' && [',', '-', '–', ':', '(', '"'].includes(item.word)) index += 1;
    else if (item.kind === 'word' && (tables.sets.openers.has(item.word) || (index === 0 && item.word === 'otherwise'))) index += 1;
    else break;
  }
  return items.slice(index);
}

function conditionAt(items: readonly Item[], index: number, tables: Tables): { kind: ConditionWord; length: number } | undefined {
  for (const { words, kind } of tables.conditions)
    if (words.every((word, offset) => wordOf(items[index + offset]) === word)) return { kind, length: words.length };
  return undefined;
}

const wordOf = (item: Item | undefined): string | undefined => (item?.kind === 'word' ? item.word : undefined);

/** The comma that ends what stands in front: the first after which an order starts, or the only one. */
function endOfHead(items: readonly Item[], from: number, tables: Tables): number {
  const commas = items.flatMap((item, index) =>
    index >= from && item.kind === 'mark' && (item.word === ',' || item.word === ':') ? [index] : [],
  );
  for (const comma of commas) {
    const after = withoutOpeners(items.slice(comma + 1), tables);
    const word = wordOf(after[0]);
    if (
      verbAt(after, skipAdverbs(after, 0, tables), true, tables) ||
      (word !== undefined && (tables.sets.negators.has(word) || tables.sets.prepositions.has(word) || word === 'do')) ||
      after[0]?.kind === 'name' ||
      (word !== undefined && tables.sets.determiners.has(word)) ||
      conditionAt(after, 0, tables)
    )
      return comma;
  }
  return -1;
}

function trimmed(items: readonly Item[]): readonly Item[] {
  let end = items.length;
  while (end > 0) {
    const item = items[end - 1] as Item;
    if (
      (item.kind === 'mark' && item.word !== ')') ||
      (item.kind === 'word' && (item.word === 'and' || item.word === 'then' || item.word === 'or'))
    )
      end -= 1;
    else break;
  }
  return items.slice(0, end);
}
