/** Prose to sentences with their actions: puts clauses, phrases, conditions and targets together, sentence by sentence. Long because one sentence is one idea; the special orders are next to be cut out. */
import type { Prose } from '../format/index.ts';
import type { Thing, ThingKind } from '../registers/index.ts';
import type { Action, ActionKind, Condition, Reading, Sentence, ThingUse } from './action.ts';
import { HANDS_AT_WORK } from './action-kinds.ts';
import { type Around, atMost, classify, NO_POINT, showsGone, showsLittle } from './classify.ts';
import { clausesOf, type FoundCondition, goesOn, verbAt, verbPhrases } from './clauses.ts';
import { readCondition } from './conditions.ts';
import type { ReadingContext } from './context.ts';
import { type Equipment, equipmentOf } from './equipment.ts';
import { type Item, isTime, itemsOf, wordAt } from './items.ts';
import { leftOver, mayNotCome } from './left-over.ts';
import { english } from './lexicon/en.ts';
import { eitherOf, orderBehind, ordersAt, ordersUnparted, partsAnew } from './orders-behind.ts';
import { mayBeSaidOf, OVERRIDE_VERBS } from './override-verbs.ts';
import { passiveOf } from './passive.ts';
import { type Phrase, phraseOf } from './phrase.ts';
import { sentencesOf } from './sentences.ts';
import { type Tables, tablesOf, type VerbForm } from './tables.ts';
import { targetIn } from './targets.ts';
import { doneBefore, toldInPassing } from './told-in-passing.ts';
import { unaccounted } from './word-for-word.ts';

const TABLES: Readonly<Record<ReadingContext['language'], Tables>> = { en: tablesOf(english) };

/** Part of every cache key: changes when the same words may read otherwise. */
export const readingVersion: string = 'en-12';

export function readProse(prose: Prose, context: ReadingContext): Reading {
  const tables = TABLES[context.language];
  if (context.kind === 'condition') {
    const items = itemsOf(prose, 0, prose.text.length, context);
    const when = prose.text.trim() === '' ? [] : [readCondition(items, prose.text.trim(), context, tables)];
    return {
      sentences: [],
      when,
      ...(context.carry ? { carry: context.carry } : {}),
      ...(context.carryAll ? { carryAll: context.carryAll } : {}),
    };
  }
  const reader = new SentenceReader(prose, context, tables);
  const sentences = triedOut(sentencesOf(prose, tables).map(({ at, end }) => reader.read(at, end)));
  const carry = reader.carried();
  const carryAll = reader.carriedAll();
  return { sentences, ...(carry ? { carry } : {}), ...(carryAll.length > 1 ? { carryAll } : {}) };
}

/**
 * "See that everyone stands clear", "make sure that nobody is near". Seeing to it that people are out of the way is the deed itself,
 * 29 CFR 1910.147(e)(2)(i); check, ensure, verify and confirm establish nothing (rule 20).
 */
const CLEARS = new RegExp(
  '^(?:see|make (?:sure|certain))(?: to it)?(?: that)? (?:' +
    '(?:everyone|everybody|all people|all persons|people|all staff|the operators?)(?: else)? (?:is|are|stands?|stays?|keeps?|has (?:moved|gone|stepped)|have (?:moved|gone|stepped))(?: well)? (?:clear|away|back|out of the way)\\b' +
    '|(?:nobody|no one|no-one|no person)(?: else)? (?:is|are|stands?|remains?|stays?) (?:near|at|in|on|under|within|close|inside|behind|around|by)\\b' +
    ')',
);

/** "Press the button. Nothing may turn.": what is said next makes of the pressing a try-out, as it does within one sentence. */
function triedOut(sentences: readonly Sentence[]): readonly Sentence[] {
  return sentences.map((sentence, index) => {
    const said = sentences[index + 1];
    const last = sentence.actions.at(-1);
    const selects = last?.kind === 'control' && last.position !== undefined;
    if ((last?.kind !== 'start' && !selects) || !said || said.actions.length > 0 || !STAYS.test(said.text)) return sentence;
    // A selector that is tried stays where it was put.
    if (selects) return { ...sentence, actions: [...sentence.actions, { ...last, kind: 'try-out', result: said.text }] };
    return { ...sentence, actions: [...sentence.actions.slice(0, -1), { ...last, kind: 'try-out', result: said.text }] };
  });
}
/** Only motion: "must not rub" is looked for on a machine that runs. */
const STAYS =
  /\b(?:must|may|should|shall) not (?:move|turn|start|run|light|rise|sink|lift|go|react|respond|operate)\b|\bnothing (?:must|may|should|shall|can) (?:move|turn|start|run|light|happen)\b|\bmust (?:stay|remain) (?:still|where it is|at rest|off)\b|^no (?:movement|start|motion)\b/i;

/** "With everyone clear", "with nobody near the table". */
const WITH_PEOPLE_CLEAR =
  /^with (?:(?:everyone|everybody|(?:all )?(?:the )?people|all persons|all staff)(?: well)? (?:clear|away|back|out of the way)|(?:nobody|no one|no-one) (?:near|at|in|on|under|by|close))\b/i;
/** "Nobody near: press the button." */
const NOBODY = /^(?:nobody|no one|no-one|people|everyone|everybody)(?: is| are)? (?:near|clear|away|back|at the \w+|close)\b/i;
/** Names of tests that stand before a colon. */
const LABEL =
  /^(?:(?:leak|function|functional|interlock|continuity|pressure|running|trial|final|tightness) test|(?:test|trial) run)(?: (?:of|with) [^:]*)?$/i;

/** "Tools away, people clear.": orders without a verb. */
function fragmentOf(text: string, at: number): readonly Action[] | undefined {
  const parts = text
    .toLowerCase()
    .replace(/[.!]\s*$/, '')
    .split(/\s*(?:,|;| and )\s*/);
  const kinds = parts.map((part): ActionKind | undefined => {
    if (/^(?:all )?(?:the |your )?tools (?:away|out|off)$/.test(part)) return 'take-tools';
    return /^(?:all )?(?:the )?(?:people|everyone|everybody) (?:away|clear|back)$/.test(part) ? 'clear-people' : undefined;
  });
  return kinds.every((kind) => kind !== undefined) ? kinds.map((kind) => bare(kind, at, at + text.length)) : undefined;
}

function bare(kind: ActionKind, at: number, end: number): Action {
  return { kind, things: [], with: [], contact: false, outside: false, amounts: [], when: [], at, end };
}

/** Characters. No order that people can follow is longer; what is, takes the reader longer than it is worth. */
const LONGEST = 2_000;

/** A phrase read for itself, whatever stands around it. */
const ALONE: Around = {
  it: [],
  them: [],
  hangs: false,
  point: undefined,
  only: undefined,
  result: undefined,
  proving: false,
  testRun: false,
  known: false,
  outside: false,
  stage: undefined,
  manner: undefined,
};

/** What may be said to come later without being lost: it makes nothing live and opens nothing. */
const LATER: ReadonlySet<string> = new Set(['shut', 'fit', 'lock', 'tag', 'isolate', 'tighten', 'handle', 'look', 'feel', 'measure']);

/** What may be named together by the end of its name. */
const SEVERAL: readonly ThingKind[] = ['point', 'control', 'cover', 'part', 'fastener', 'gauge'];

/** Trailing conditions have no heads, and a question before counts once. */
const NO_HEADS: readonly (readonly Item[])[] = [];

class SentenceReader {
  private readonly prose: Prose;
  private readonly context: ReadingContext;
  private readonly tables: Tables;
  private readonly equipment: Equipment;
  private it: Thing | undefined;
  /** Points that the last sentence moved, where it named nothing else: "both", "them". */
  private them: readonly Thing[] = [];
  private lastRow: readonly Condition[] = [];
  /** Where the orders begin that were read, whatever came of them. */
  private readonly begun = new Set<number>();
  /** "Is the gap over 0.6 mm? Then ...": the question is the next sentence's condition. */
  private asked: Condition | undefined;

  constructor(prose: Prose, context: ReadingContext, tables: Tables) {
    this.prose = prose;
    this.context = context;
    this.tables = tables;
    this.equipment = equipmentOf(context.families, context.registers, tables);
    this.it = context.carry;
    this.them = context.carryAll ?? [];
  }

  carried(): Thing | undefined {
    return this.it;
  }

  /** Points that were moved last, where nothing else was named since: what "both" may stand for in the next step. */
  carriedAll(): readonly Thing[] {
    return this.them;
  }

  read(at: number, end: number): Sentence {
    const { tables } = this;
    const text = this.prose.text.slice(at, end);
    if (end - at > LONGEST) {
      const few = itemsOf(this.prose, at, at + LONGEST, this.context).flatMap((item) =>
        item.kind === 'name' && item.things[0] ? [{ thing: item.things[0], at: item.at, end: item.end }] : [],
      );
      return {
        text: text.slice(0, 200),
        at,
        end,
        actions: [],
        unknown: [],
        ambiguous: [],
        mentions: few,
        status: 'unread',
        why: `a sentence of ${end - at} characters is too long to be read`,
      };
    }
    const items = this.inFull(this.verbsFirst(itemsOf(this.prose, at, end, this.context)), at);
    const named = items.flatMap((item) => (item.kind === 'name' ? [item] : []));
    const mentions: ThingUse[] = named.flatMap((item) => (item.things[0] ? [{ thing: item.things[0], at: item.at, end: item.end }] : []));
    const base = {
      text,
      at,
      end,
      actions: [] as readonly Action[],
      unknown: [] as Sentence['unknown'],
      ambiguous: [] as Sentence['ambiguous'],
      mentions,
    };
    const override = this.context.override;
    if (override && at === 0) return { ...base, ...this.overridden(override, mentions), override };
    const be = items[0]?.kind === 'word' && (tables.sets.be.has(items[0].word) || ['does', 'do', 'has', 'have'].includes(items[0].word));
    if (be && text.endsWith('?')) {
      this.asked = readCondition(items.slice(1, -1), this.words(items.slice(1, -1)), this.context, tables);
      const question: Sentence = { ...base, status: 'remark' };
      this.remember(question, mentions);
      return question;
    }
    const hung = this.context.kind === 'bullet' && at === 0 ? this.context.lead?.sentences.at(-1)?.hanging : undefined;
    const fragment = fragmentOf(text, at);
    if (fragment) return { ...base, status: 'read', actions: fragment };
    const sentence = this.besides(items, this.whole(hung ? this.hangOn(hung, items) : this.withoutLabel(items), text, base), base);
    this.asked = undefined;
    this.remember(sentence, mentions);
    return sentence;
  }

  /** "Leak test: look at the joint", "test run with the grille off: press the switch": what stands before the colon names what follows. */
  private withoutLabel(items: readonly Item[]): readonly Item[] {
    const colon = items.findIndex((item) => item.kind === 'mark' && item.word === ':');
    if (colon < 1 || !LABEL.test(this.words(items.slice(0, colon)))) return items;
    const after = items.slice(colon + 1);
    return verbAt(after, 0, true, this.tables) ? after : items;
  }

  /** "The table is good: go to [section Finish]": said of the machine, then ordered. */
  private afterStatement(main: readonly Item[]): readonly Item[] | undefined {
    const colon = main.findIndex((item) => item.kind === 'mark' && item.word === ':');
    const said = main.slice(0, Math.max(0, colon));
    const plain = said.every((item) => item.kind === 'word' || (item.kind === 'name' && item.things[0]?.kind === 'machine'));
    const states = said.some((item) => item.kind === 'word' && this.tables.sets.be.has(item.word));
    return colon > 0 && plain && (states || NOBODY.test(this.words(said))) ? main.slice(colon + 1) : undefined;
  }

  /** "it" goes on standing for the last thing handled, unless another candidate was named and it is a point (rule 20). */
  private remember(sentence: Sentence, mentions: readonly ThingUse[]): void {
    const last = sentence.actions.at(-1)?.things.at(-1)?.thing ?? (mentions.length === 1 ? mentions[0]?.thing : undefined);
    const candidates = new Set(
      mentions.filter((use) => !['tool', 'consumable', 'model', 'option', 'role'].includes(use.thing.kind)).map((use) => use.thing.name),
    );
    const moved = sentence.actions.flatMap(({ things }) => things).flatMap(({ thing }) => (thing.kind === 'point' ? [thing] : []));
    const all = [...new Map(moved.map((thing) => [thing.name, thing])).values()];
    if (candidates.size > 0) this.them = all.length === candidates.size ? all : [];
    if (last === undefined) {
      if (candidates.size > 0) this.it = undefined;
    } else this.it = last.kind === 'point' && candidates.size > 1 ? undefined : last;
  }

  /** A sentence is read only where nothing stands beside what was read that would change it. */
  private besides(items: readonly Item[], sentence: Sentence, base: Omit<Sentence, 'status'>): Sentence {
    const { tables } = this;
    const { leading, heads, main } = clausesOf(items, tables);
    const early =
      sentence.status === 'read' &&
      [...leading.filter(({ kind }) => kind !== 'if').map((one) => one.items), ...heads].some((said) => doneBefore(said, tables));
    if (early) return this.unread(base, 'something else is done in it');
    const why =
      sentence.status === 'read'
        ? leftOver(items, sentence, verbPhrases(main, tables) === undefined, tables)
        : sentence.status === 'remark' || sentence.status === 'confirmation'
          ? toldInPassing(saidFirst(items, tables), sentence, tables)
          : undefined;
    const stray = why === undefined && sentence.status === 'read' ? unaccounted(items, sentence, tables) : undefined;
    if (stray !== undefined)
      return this.unread(base, `an order to lock, isolate or hold is read word for word, and "${stray}" is not understood in it`);
    return why === undefined ? sentence : this.unread(base, why);
  }

  /** Nothing that is ordered is passed over: what stands behind something that is only said, forbidden or shown is read for itself, or the sentence is unread. */
  private whole(items: readonly Item[], text: string, base: Omit<Sentence, 'status'>): Sentence {
    this.begun.clear();
    const sentence = this.understand(items, text, base);
    if (sentence.status === 'unread') return sentence;
    const on = orderBehind(items, this.begun, this.tables);
    if (on < 0 || (sentence.status === 'prohibition' && !partsAnew(items, on))) return sentence;
    const before = items.slice(0, on);
    // For whom or when the second holds, is not said.
    const bound = clausesOf(items, this.tables).leading.some(({ kind }) => ['if', 'unless', 'when'].includes(kind));
    if (bound || sentence.status === 'prohibition') return this.unread(base, 'an order stands behind what is said first');
    const first = this.understand(before, this.words(before), base);
    this.remember(
      first,
      base.mentions.filter((use) => use.at < (items[on] as Item).at),
    );
    const behind = items.slice(on);
    const second = this.whole(behind, this.words(behind), base);
    if (first.status === 'unread') return first;
    const passing = first.status === 'remark' || first.status === 'confirmation' ? toldInPassing(before, first, this.tables) : undefined;
    if (passing !== undefined) return this.unread(base, passing);
    return second.status === 'read'
      ? { ...second, actions: [...first.actions, ...second.actions] }
      : this.unread(base, second.why ?? 'an order stands behind what is said first');
  }

  private understand(items: readonly Item[], text: string, base: Omit<Sentence, 'status'>): Sentence {
    const { tables, context } = this;
    const clauses = clausesOf(items, tables);
    const { rest: main, deeds, model } = this.broughtOut(clauses.main);
    const first = main[0];
    const word = first?.kind === 'word' ? first.word : '';
    const second = main[1]?.kind === 'word' ? main[1].word : '';
    if (main.length === 0)
      return {
        ...base,
        status: base.mentions.length > 0 ? 'unread' : 'remark',
        ...(base.mentions.length > 0 ? { why: 'no order could be found in it' } : {}),
      };
    if (
      tables.sets.negators.has(word) ||
      (word === 'do' && second === 'not') ||
      (word === 'take' && second === 'care' && wordAt(main, 2) !== 'of') ||
      word === 'no'
    )
      return { ...base, status: 'prohibition' };
    if (word === 'take' && second === 'care' && wordAt(main, 2) === 'of' && base.mentions.length > 0)
      return this.unread(base, 'it does not say what is done');
    if (tables.caring.some((parts) => parts.every((part, offset) => wordAt(main, offset) === part)))
      return goesOn(main, tables) >= 0 || this.ordersIn(main)
        ? this.unread(base, 'an order stands in a warning')
        : { ...base, status: 'remark' };
    const conditions = this.conditionsOf(clauses.leading, [...clauses.heads, ...model], text);
    if (conditions === undefined) return this.unread(base, 'its condition could not be read');
    if (this.confirms(main) && !CLEARS.test(this.words(main).toLowerCase())) {
      const proof = this.provingCheck(main, clauses.result, text, base);
      if (proof) return { ...base, status: 'read', actions: [{ ...proof, when: conditions.when }] };
      return { ...base, status: 'confirmation' };
    }
    const role = this.roleOf(main);
    const order = role === undefined ? main : this.afterRole(main);
    // "Ask the helper to stand clear, put the fuse in": whose the second deed is, the words do not say.
    if (role !== undefined && this.asks(main) && (verbPhrases(order, tables) ?? []).length > 1)
      return this.unread(base, 'it does not say who does the second of them');
    const stated = role === undefined && !verbPhrases(order, tables) ? this.afterStatement(main) : undefined;
    const phrases =
      role === undefined
        ? (verbPhrases(order, tables) ?? (stated && verbPhrases(stated, tables)) ?? passiveOf(order, tables))
        : verbPhrases(order, tables);
    if (!phrases) {
      const called = this.calledBy(main);
      if (called) return { ...base, status: 'read', actions: [{ ...called, when: conditions.when }] };
      // "With the guard clean press the button: it must not turn": an order stands in what is said first.
      if (clauses.heads.some((head) => this.ordersIn(head))) return this.unread(base, 'an order stands in what is said first');
      if (wordAt(main, 0) === 'it' && this.ordersIn([...main, ...clauses.purpose]))
        return this.unread(base, 'it does not say that it is done');
      return this.statement(main, items, base);
    }
    const trailing = this.conditionsOf(
      clauses.trailing.filter((one) => one.kind === 'if' || one.kind === 'unless' || one.kind === 'when'),
      NO_HEADS,
      text,
    );
    if (!trailing) return this.unread(base, 'its condition could not be read');
    // "Read the gauge, and if it is over the limit open the cock": no comma parts the condition from what is ordered.
    if (clauses.trailing.some(({ kind, items: said }) => ['if', 'unless', 'when', 'once'].includes(kind) && ordersUnparted(said, tables)))
      return this.unread(base, 'an order stands in its condition');
    const together = role === undefined ? clauses.trailing.filter((one) => one.kind === 'while' && this.hidesOrder(one)) : [];
    const hidden = [...clauses.leading, ...clauses.trailing].some(
      (one) => ['after', 'before', 'while'].includes(one.kind) && !together.includes(one) && this.hidesOrder(one),
    );
    if (hidden) return this.unread(base, 'an order hides in a clause of time');
    const until = clauses.trailing.find((one) => one.kind === 'until');
    const shared = {
      when: [...conditions.when, ...trailing.when],
      ...(until ? { until: readCondition(until.items, this.words(until.items), context, tables) } : {}),
    };
    this.lastRow = shared.when;
    if (model.length > 0 && phrases.length > 1) return this.unread(base, 'it is not clear what is done on that model alone');
    const meanwhile = [...together.map(({ items: said }) => this.meanwhile(said)), ...deeds.map((said) => this.meanwhile(said))];
    if (meanwhile.includes(undefined)) return this.unread(base, 'an order hides in a clause of time');
    const after = clauses.more.length > 0 ? verbPhrases(clauses.more, tables) : [];
    const going = after && [...meanwhile.flatMap((one) => one ?? []), ...after];
    if (!going) return this.unread(base, 'an order after its condition could not be read');
    // "Open it if it is full and remove the cap": for which of them the condition holds, the words do not say.
    if (going.length > 0 && trailing.when.length > 0) return this.unread(base, 'it is not clear for what its condition holds');
    // "Once everyone is clear, press the button": it waits for that, and whoever presses looks.
    const awaited = clauses.leading.some(({ kind, items: said }) => (kind === 'when' || kind === 'once') && NOBODY.test(this.words(said)));
    const cleared =
      awaited || clauses.heads.some((head) => WITH_PEOPLE_CLEAR.test(this.words(head))) || (stated && NOBODY.test(this.words(main)));
    const done = this.orders(
      [...phrases, ...going],
      {
        untilAt: phrases.length - 1,
        ...shared,
        role,
        result: this.words(clauses.result),
        purpose: this.words(clauses.purpose),
        heads: clauses.heads,
        tools: conditions.tools,
        outside: conditions.outside,
      },
      text,
      base,
    );
    if (done.status === 'read' && [...clauses.leading, ...clauses.trailing].some((one) => mayNotCome(one, done, tables)))
      return this.unread(base, 'it leaves open when, or whether, it is done');
    // "Open the valve; the gauge must show 0 bar."
    const read = done.status === 'read' ? this.shown(clauses.result, this.words(clauses.result)) : undefined;
    if (read && !done.actions.some(({ kind }) => kind === 'prove' || kind === 'measure'))
      return { ...done, actions: [...done.actions, read] };
    // "With everyone clear press the button": whoever presses sees to it.
    return cleared ? { ...done, actions: [bare('clear-people', base.at, base.at), ...done.actions] } : done;
  }

  private orders(
    phrases: readonly { readonly form: VerbForm; readonly items: readonly Item[] }[],
    shared: {
      when: readonly Condition[];
      untilAt: number;
      until?: Condition;
      role: string | undefined;
      result: string;
      purpose: string;
      heads: readonly (readonly Item[])[];
      tools: readonly ThingUse[];
      outside: boolean;
    },
    text: string,
    base: Omit<Sentence, 'status'>,
  ): Sentence {
    const { tables } = this;
    const read = phrases.map(({ form, items }) =>
      phraseOf(
        items,
        form.base,
        form.verb.senses,
        this.words(items),
        tables,
        (name) => this.context.names.lookup(name),
        (name) => this.context.names.ending(name, SEVERAL),
      ),
    );
    const actions: Action[] = [];
    const unknown: Sentence['unknown'][number][] = [];
    const ambiguous: Sentence['ambiguous'][number][] = [];
    let why: string | undefined;
    let it: readonly ThingUse[] = this.it ? [{ thing: this.it, at: base.at, end: base.at }] : [];
    const points = base.mentions.filter((use) => use.thing.kind === 'point');
    const only = new Set(points.map((use) => use.thing.name)).size === 1 ? points[0] : undefined;
    if (phrases.some(({ items }) => eitherOf(items, tables))) return this.unread(base, 'it leaves open which of the two is meant');
    if (/\bevery (?:second|other|third)\b|\bbut leave\b|\bexcept for\b/i.test(text))
      return this.unread(base, 'which of them is meant is not clear');
    let point: ThingUse | undefined;
    const lower = ` ${text.toLowerCase()} `;
    for (const { at } of read) this.begun.add(at);
    for (const [index, own] of read.entries()) {
      // "Loosen and remove the bolts": the first verb takes its objects from the next.
      const borrowed =
        own.objects.length === 0 &&
        own.nouns.length === 0 &&
        !own.pronoun &&
        own.places.length === 0 &&
        own.amounts.length === 0 &&
        own.unknown.length === 0;
      const next = read[index + 1];
      const phrase: Phrase =
        borrowed && next && takesObject(own)
          ? { ...own, objects: next.objects, nouns: next.nouns, pronoun: next.pronoun, many: next.many }
          : own;
      const measured = this.measuredAgain(phrase, shared.when);
      const items = phrases[index]?.items ?? [];
      const last = index === read.length - 1;
      const special = measured
        ? classify({ ...phrase, pronoun: false, objects: [measured], places: [] }, ALONE, this.equipment, tables)
        : this.special(phrase, items, text);
      const around: Around = {
        it,
        hangs: /:\W*$/.test(text),
        them: this.them.map((thing) => ({ thing, at: phrase.at, end: phrase.end })),
        point,
        result: last && shared.result !== '' ? shared.result : undefined,
        only,
        proving:
          (last && /^(?:prove|check|verify|confirm|show|test that|make sure|see|try)\b/i.test(shared.purpose)) || confirmsNothing(next),
        testRun: tables.lexicon.testRun.some((phraseWords) => lower.includes(` ${phraseWords}`)),
        known: /\bknown\b/.test(lower) && /\b(?:live|source)\b/.test(lower),
        outside: shared.outside || tables.lexicon.outside.some((words) => lower.includes(words)),
        stage: stageOf(phrase.text, tables),
        manner: tables.lexicon.manners.find((manner) => phrase.text.toLowerCase().includes(manner)),
      };
      const made = this.cleaned(special ?? classify(phrase, around, this.equipment, tables), phrase, base);
      if ('why' in made) {
        why ??= made.why;
        unknown.push(...phrase.unknown);
        ambiguous.push(...phrase.ambiguous);
        continue;
      }
      for (const action of staged(made.actions, phrase)) {
        actions.push({
          ...action,
          when: [...shared.when, ...action.when].map((condition) => ownState(condition, action, tables)),
          with: [...action.with, ...(handsOn(action.kind) ? shared.tools : [])],
          ...(index === shared.untilAt && shared.until && action.until === undefined ? { until: shared.until } : {}),
          ...(shared.role === undefined ? {} : { role: shared.role }),
        });
      }
      const acted = made.actions.at(-1)?.things ?? [];
      if (phrase.objects.length > 0 || acted.length > 0) it = acted.length > 0 ? acted : phrase.objects;
      const pointsHere = [...phrase.objects, ...phrase.places.flatMap((place) => [...place.uses])].filter(
        (use) => use.thing.kind === 'point',
      );
      if (pointsHere.length > 0) point = pointsHere.at(-1);
    }
    const ending = read.at(-1);
    const waits =
      ending !== undefined &&
      ending.objects.length === 0 &&
      ending.amounts.length === 0 &&
      !ending.pronoun &&
      /(?::|\bthese|\bfollowing)\W*$/.test(text);
    if (ending && waits)
      return {
        ...base,
        status: 'read',
        actions,
        hanging: { verb: ending.base, ...(ending.particle === '' ? {} : { particle: ending.particle }) },
      };
    // "Put your lock and tag on each point:" and the points below.
    if (why === NO_POINT && /\b(?:each|these|every)\b|:\W*$/.test(text)) {
      const off = ['remove', 'unlock'].includes(ending?.sense ?? '');
      const kinds = (['lock', 'tag'] as const).filter((kind) => new RegExp(`\\b(?:pad)?${kind}`, 'i').test(text));
      return { ...base, status: 'read', actions, hanging: { verb: kinds.map((kind) => (off ? `un${kind}` : kind)).join(' and ') } };
    }
    if (why !== undefined) return { ...base, status: 'unread', actions, unknown, ambiguous, why };
    // A verb with "leave", "continue" alone asserts nothing and is read all the same.
    return { ...base, status: 'read', actions };
  }

  /** "Turn the screw and measure again", "read it again": what the condition was about, or the one thing that is measured here. */
  private measuredAgain(phrase: Phrase, when: readonly Condition[]): ThingUse | undefined {
    const bare = phrase.objects.length === 0 && phrase.nouns.length === 0 && phrase.unknown.length === 0 && phrase.places.length === 0;
    if (!bare || !['measure', 'read'].includes(phrase.sense) || !/\b(?:again|once more)\b/i.test(phrase.text)) return undefined;
    const asked = when.flatMap((one) => (one.kind === 'outcome' && one.subject !== undefined ? [one.subject] : []));
    const only = this.context.measurements.length === 1 ? this.context.measurements[0]?.name : undefined;
    const name = asked.at(-1) ?? (this.it?.kind === 'measurement' ? this.it.name : only);
    const thing = name === undefined ? undefined : this.context.names.lookup(name).find((one) => one.kind === 'measurement');
    return thing && { thing, at: phrase.at, end: phrase.end };
  }

  /** "Wipe off the grease that comes out of the screw": the hand is at the one thing that is named. */
  private cleaned(
    made: ReturnType<typeof classify>,
    { sense, unknown, objects, text, at, end }: Phrase,
    { mentions }: Pick<Sentence, 'mentions'>,
  ): ReturnType<typeof classify> {
    // What is wiped off need not be registered; what it is wiped off must be.
    const dirt = unknown.length === 0 || /\b(?:out of|off|from)\b/.test(text);
    if (!('why' in made) || sense !== 'clean' || !dirt) return made;
    const there = mentions.filter((use) => use.at >= at && use.end <= end && ['part', 'cover', 'fastener'].includes(use.thing.kind));
    // What is itself the object was refused for a reason.
    const refused = objects.some(({ thing }) => there.some((use) => use.thing.name === thing.name));
    if (refused && unknown.length === 0 && !objects.some(({ thing }) => thing.kind === 'consumable')) return made;
    return there.length === 1 ? { actions: [{ ...bare('clean', at, end), things: there, contact: true }] } : made;
  }

  /** Orders about order: where to go, what to repeat, whom to call, when to stop. */
  private special(phrase: Phrase, items: readonly Item[], text: string): { actions: readonly Action[] } | { why: string } | undefined {
    const { tables, context } = this;
    const words = this.words(items);
    const first = items[0] as Item;
    const found = targetIn(items, words, first.at, context);
    const lower = words.toLowerCase();
    const make = (kind: ActionKind, more: Partial<Action> = {}): { actions: readonly Action[] } => ({
      actions: [
        {
          kind,
          things: [],
          with: [],
          contact: false,
          outside: false,
          amounts: phrase.amounts.map(({ text: amount, at, end }) => ({ text: amount, at, end })),
          when: [],
          at: phrase.at,
          end: phrase.end,
          ...more,
        },
      ],
    });
    const target = found ? { target: found.target } : {};
    const reverse = tables.lexicon.reverse.some((one) => lower.includes(one));
    // "renew the seal as in [Renew the seal]": the words name the work, the call does it.
    const called =
      found &&
      tables.lexicon.callWords.some((one) => ` ${lower} `.includes(` ${one} `)) &&
      !['see', 'go', 'repeat', 'continue'].includes(phrase.sense);
    if (called && found && phrase.sense !== 'do') {
      const own = classify({ ...phrase, unknown: [] }, ALONE, this.equipment, tables);
      return { actions: ['actions' in own ? own.actions : [], make('call', target).actions].flat() };
    }
    if (reverse) return make('reverse', { ...target, things: phrase.objects, manner: 'reverse order' });
    if (CLEARS.test(lower)) return make('clear-people');
    switch (phrase.sense) {
      case 'start':
        // "Start again from step 2."
        return found && phrase.objects.length === 0 && phrase.nouns.length === 0 ? make('go-to', target) : undefined;
      case 'go':
        if (/^go (?:by|no further)\b/.test(lower)) return { actions: [] };
        if (phrase.base === 'return' && phrase.nouns.includes('tools')) return make('take-tools');
        if (phrase.base === 'return' && phrase.objects.length > 0)
          return classify({ ...phrase, sense: 'set' }, ALONE, this.equipment, tables);
        return found ? make('go-to', target) : { why: `"${words}" does not say where to` };
      case 'continue':
        // "Continue wiping the scraper."
        if (!found && phrase.unknown.length + phrase.objects.length > 0) return { why: `"${words}" does not say where to` };
        if (!found) return { actions: [] };
        return found.target.kind === 'document' ? make('continue-with', target) : make('go-to', target);
      case 'repeat':
        return found
          ? make('repeat', { ...target, ...(/\bfrom\b/.test(lower) ? { manner: 'from' } : {}) })
          : { why: `"${words}" does not say which steps` };
      case 'see': {
        if (found) return make('refer', target);
        // "See with the thermometer that the plate is below 40 °C": read by it.
        const held = items.flatMap((item) =>
          item.kind === 'name' && item.things[0]?.kind === 'tool' && this.equipment.tool(item.things[0].name)?.contact
            ? [{ thing: item.things[0], at: item.at, end: item.end }]
            : [],
        );
        const shows = /\bthat\b.*(?:\b(?:below|under|less than|no|zero)\b|\b0(?![.\d]))/.test(lower);
        return held.length > 0 && shows ? make('prove', { with: held, contact: true, result: words }) : undefined;
      }
      case 'do': {
        if (found) return make('call', target);
        if (phrase.nouns.includes('test') || /\btest\b/.test(lower))
          return make(
            tables.lexicon.testRun.some((one) => lower.includes(one)) || /\bwith the \w+(?: \w+)? (?:off|open)\b/.test(lower)
              ? 'test-run'
              : 'sense',
            { things: phrase.objects },
          );
        // "Do the same on the other side": nothing that was not done just now, in this very step. On another thing it would be something else.
        const places = items.every((item) => item.kind !== 'name' || item.things.every(({ kind }) => kind === 'zone'));
        if (/^do (?:this|that|it|the same)\b.*\b(?:sides?|ends?|others?|each|both|all|again)\b/.test(lower) && first.at > 0 && places)
          return { actions: [] };
        return { why: `"${words}" does not say what to do` };
      }
      case 'have':
        if (phrase.nouns.includes('people') && /\b(?:out|away|clear|back)\b/.test(lower)) return make('clear-people');
        // "Ask the owner"; what is asked to be done has to be read.
        return phrase.base === 'ask' && phrase.objects.length === 0 && !/\bask\b.*\bto\b/i.test(text) ? { actions: [] } : undefined;
      case 'call':
        // "Call everyone to the machine."
        if (
          phrase.nouns.includes('people') &&
          phrase.places.some(({ preposition }) => ['to', 'into', 'onto', 'over'].includes(preposition))
        )
          return { why: `"${words}" brings people to the machine` };
        return make('stop-and-call');
      case 'stop':
        if (phrase.nouns.includes('work')) return make('stop-and-call');
        if (phrase.objects.length === 0 && phrase.nouns.length === 0 && /\bstop(?: here)? and (?:tell|inform|report)\b/i.test(text))
          return make('stop-and-call');
        // "Stop and call the works office."
        return phrase.objects.length === 0 &&
          phrase.nouns.length === 0 &&
          /\bstop(?: work)?(?: here)? and (?:call|ask|phone|contact)\b/i.test(text)
          ? { actions: [] }
          : undefined;
      case 'finish':
        return make('end');
      case 'declare':
        return /\bout of (?:service|use)\b/.test(lower) ? make('out-of-service') : undefined;
      case 'make':
        if (/^make (?:sure|certain)\b/.test(lower)) return { actions: [] };
        if (tables.lexicon.testRun.some((one) => lower.includes(one))) return make('test-run');
        return undefined;
      case 'remove':
        return /\bout of (?:service|use)\b/.test(lower) ? make('out-of-service') : undefined;
      case 'wait':
        if (phrase.base !== 'allow' && phrase.base !== 'let') return undefined;
        if (/\bknow\b/.test(lower)) return make('tell');
        // "Let the air out through the valve."
        if (/\bout\b/.test(lower) && phrase.objects.some(({ thing }) => thing.kind === 'source'))
          return classify({ ...phrase, sense: 'bleed' }, ALONE, this.equipment, tables);
        if (/\b(?:settle|rise|sink)\w*\b/.test(lower)) return make('wait');
        return /\b(?:cool|settle|drain|dry|rest|warm|stand|slow|discharge|coast|sink|idle|run|(?:run|spin|wind) (?:down|out|dry|empty)|come to)\w*\b/.test(
          lower,
        ) && phrase.amounts.length + (/\buntil\b/i.test(text) ? 1 : 0) > 0
          ? make('wait', { things: [], ...(atMost(lower) ? { amounts: [] } : {}) })
          : // "Let the wheel run down": nothing says for how long, so it shows nothing and is a wait all the same.
            /\b(?:run|spin|wind|coast) down\b|\bcome to rest\b/.test(lower)
            ? make('wait')
            : /\brun (?:out|dry|empty)\b/.test(lower)
              ? { actions: [] }
              : { why: `"${words}" could not be read` };
      case 'confirm':
      case 'check':
        return phrase.sense === 'confirm' || /\b(?:that|whether|if)\b/.test(lower) ? { actions: [] } : undefined;
      case 'leave':
      case 'use':
        return undefined;
      default:
        return undefined;
    }
  }

  // ---------------------------------------------------------------- parts

  private conditionsOf(
    found: readonly FoundCondition[],
    heads: readonly (readonly Item[])[],
    text: string,
  ): { when: readonly Condition[]; tools: readonly ThingUse[]; outside: boolean } | undefined {
    const when: Condition[] = this.asked && heads !== NO_HEADS ? [this.asked] : [];
    const tools: ThingUse[] = [];
    let outside = false;
    for (const { kind, items } of found) {
      const said = this.words(items);
      // "Does it leak? If so, renew it": the question stands among them already.
      if (kind === 'if' && this.asked && /^so$/i.test(said)) continue;
      if (kind === 'if' || kind === 'unless') when.push(readCondition(items, said, this.context, this.tables, kind === 'unless'));
      else if (kind === 'when') {
        // "Where an option is fitted" chooses; "when the drum stands still" waits for what comes anyway.
        const condition = readCondition(items, said, this.context, this.tables);
        if (condition.kind === 'variant' || condition.kind === 'outcome') when.push(condition);
      }
    }
    for (const head of heads) {
      const named = head.flatMap((item) =>
        item.kind === 'name' ? item.things.slice(0, 1).map((thing) => ({ thing, at: item.at, end: item.end })) : [],
      );
      if (head[0]?.kind === 'amount') {
        const said = this.words(head);
        const judged = /^(?:under|over|above|below|more than|less than|from|up to)\b/i.test(said) && !isTime(head[0].unit);
        when.push(judged ? (this.atLimit(said) ?? readCondition(head, said, this.context, this.tables)) : { kind: 'unread', text: said });
      } else if (named.some((use) => use.thing.kind === 'model' || use.thing.kind === 'option'))
        when.push(readCondition(head, this.words(head), this.context, this.tables));
      else if (/serial/i.test(this.words(head))) when.push(readCondition(head, this.words(head), this.context, this.tables));
      else {
        const lead = head[0]?.kind === 'word' ? head[0].word : '';
        if (this.tables.lexicon.instrument.includes(lead))
          tools.push(...named.filter((use) => use.thing.kind === 'tool' || use.thing.kind === 'consumable'));
        if (this.tables.lexicon.outside.some((words) => this.words(head).toLowerCase().startsWith(words))) outside = true;
        const limited =
          head.some((item) => item.kind === 'word' && this.tables.sets.limitNouns.has(item.word)) ||
          named.some((use) => use.thing.kind === 'measurement');
        if (limited && ['within', 'over', 'under', 'above', 'below', 'outside'].includes(lead))
          when.push(readCondition(head, this.words(head), this.context, this.tables));
      }
    }
    if (heads !== NO_HEADS && /^\s*otherwise\b/i.test(text) && this.lastRow.length > 0)
      when.push({
        kind: 'fact',
        key: `otherwise: ${this.lastRow.map((one) => one.text).join(' and ')}`,
        negated: false,
        text: 'otherwise',
      });
    return when.some((one) => one.kind === 'unread') ? undefined : { when, tools, outside };
  }

  /** "Under 3 mm", where 3 mm is the lower limit of what was measured just now: the outcome. Any other figure is a question of its own. */
  private atLimit(said: string): Condition | undefined {
    const about = this.it?.kind === 'measurement' ? this.context.measurements.find(({ name }) => name === this.it?.name) : undefined;
    const [, side = '', figure = ''] = /^(under|below|less than|over|above|more than)\s+(.+)$/i.exec(said) ?? [];
    const plain = (text: string | undefined): string => (text ?? '').replace(/\s+/g, '').toLowerCase();
    if (about === undefined || about.perModel.length > 0 || figure === '') return undefined;
    const under = /^(?:under|below|less)/i.test(side);
    if (plain(under ? about.lower : about.upper) !== plain(figure)) return undefined;
    return { kind: 'outcome', outcome: under ? 'under' : 'over', subject: about.name, text: said };
  }

  private confirms(main: readonly Item[]): boolean {
    const word = (index: number): string => (main[index]?.kind === 'word' ? (main[index] as { word: string }).word : '');
    if (word(0) === 'make' && (word(1) === 'sure' || word(1) === 'certain')) return true;
    const form = this.tables.verbs.get(word(0))?.find((one) => one.form === 'base');
    const sense = form?.verb.senses[''];
    if (sense === 'confirm') return true;
    return (
      (sense === 'check' || sense === 'prove') &&
      main.some((item, index) => index > 0 && item.kind === 'word' && ['that', 'whether', 'if'].includes(item.word))
    );
  }

  /** "Check with the multimeter that no voltage ...": a proof said as a check. */
  private provingCheck(main: readonly Item[], _result: readonly Item[], text: string, base: Omit<Sentence, 'status'>): Action | undefined {
    const that = main.findIndex((item) => item.kind === 'word' && item.word === 'that');
    const head = that < 0 ? main : main.slice(0, that);
    const tools = head.flatMap((item) =>
      item.kind === 'name' && item.things[0]?.kind === 'tool' ? [{ thing: item.things[0], at: item.at, end: item.end }] : [],
    );
    const meter = tools.filter((use) => /meter|tester|detector/.test(this.equipment.tool(use.thing.name)?.kind ?? ''));
    const gauges = main
      .slice(Math.max(0, that))
      .flatMap((item) =>
        item.kind === 'name' && item.things[0]?.kind === 'gauge' ? [{ thing: item.things[0], at: item.at, end: item.end }] : [],
      );
    if (gauges.length > 0 && /(?:^|\s)0(?:\s|$)|\bzero\b/i.test(text))
      return {
        kind: 'prove',
        things: gauges,
        with: [],
        contact: false,
        outside: false,
        amounts: [],
        when: [],
        result: text,
        at: base.at,
        end: base.end,
      };
    if (meter.length === 0 || !/\b(?:no|zero|dead|0)\b/i.test(text)) return undefined;
    const things = main
      .slice(Math.max(0, that))
      .flatMap((item) =>
        item.kind === 'name' && item.things[0] && item.things[0].kind !== 'tool'
          ? [{ thing: item.things[0], at: item.at, end: item.end }]
          : [],
      );
    return {
      kind: 'prove',
      things: things.filter((use) => use.thing.kind === 'source'),
      with: meter,
      contact: true,
      outside: false,
      amounts: [],
      when: [],
      result: text,
      at: base.at,
      end: base.end,
    };
  }

  /** "Main isolator off.", "Side door open, ...": a step of a few words is an order all the same. Only as the first words of a step. */
  private inFull(items: readonly Item[], at: number): readonly Item[] {
    const name = items[0];
    const position = wordAt(items, 1) ?? '';
    const next = items[2];
    const ends = next === undefined || (next.kind === 'mark' && [',', '.', ';'].includes(next.word));
    if (this.context.kind !== 'lead' || at !== 0 || name?.kind !== 'name' || !ends || !this.tables.positions.has(position)) return items;
    const kind = name.things.length === 1 ? name.things[0]?.kind : undefined;
    const word = (text: string): Item => ({ kind: 'word', word: text, text, at: name.at, end: name.at });
    if (kind === 'point') return [word('turn'), ...items];
    if (kind === 'cover' && position === 'open') return [word('open'), name, ...items.slice(2)];
    const worn = name.things.every((thing) => thing.kind === 'tool' && this.equipment.tool(thing.name)?.protective);
    return worn && position === 'on' ? [word('put'), word('on'), name, ...items.slice(2)] : items;
  }

  /** "Lock the fan out": a name that is also a verb is one where an order starts and an object follows. */
  private verbsFirst(items: readonly Item[]): readonly Item[] {
    return items.map((item, index) => {
      if (item.kind !== 'name' || /\s/.test(item.text)) return item;
      const before = items[index - 1];
      const opens = index === 0 || before?.kind === 'mark' || (before?.kind === 'word' && ['and', 'then'].includes(before.word));
      const next = items[index + 1];
      const { determiners, possessives, all } = this.tables.sets;
      const starts = (one: Item | undefined): boolean =>
        one?.kind === 'name' ||
        (one?.kind === 'word' &&
          (determiners.has(one.word) || possessives.has(one.word) || all.has(one.word) || ['it', 'them', 'both'].includes(one.word)));
      // "Lock and tag it": the second verb stands between the first and the object.
      const second =
        next?.kind === 'word' && next.word === 'and' && !/\s/.test(items[index + 2]?.text ?? ' ') ? items[index + 3] : undefined;
      const off =
        next?.kind === 'word' &&
        this.tables.verbs.get(item.text.toLowerCase())?.some(({ verb }) => Object.hasOwn(verb.senses, next.word)) === true;
      const object = starts(next) || starts(second) || (off && starts(items[index + 2]));
      const word = item.text.toLowerCase();
      const bracket = this.prose.marks.some((mark) => mark.kind === 'reference' && mark.at <= item.at && item.end <= mark.end);
      const verb = this.tables.verbs.get(word)?.some((form) => form.base === word) ?? false;
      return opens && object && !bracket && verb ? { kind: 'word', word, text: item.text, at: item.at, end: item.end } : item;
    });
  }

  /** A verb with what it is done to right behind it. */
  private ordersIn(head: readonly Item[]): boolean {
    return head.some((_, index) => {
      const bound = this.tables.sets.determiners.has(wordAt(head, index - 1) ?? '');
      return index > 1 && !bound && ordersAt(head, index, this.tables);
    });
  }

  /**
   * "after releasing both clips", "while you insert the pin": something is done there, and nobody reads it as a step. "Before closing the door", "before you
   * touch the blade" say when: what is closed or touched there is done nowhere until a step does it.
   */
  private hidesOrder({ kind, items }: FoundCondition): boolean {
    const deed = this.deedIn(items);
    if (deed < 0) return false;
    const said = this.tables.verbs.get(wordAt(items, deed) ?? '') ?? [];
    if (kind === 'before' && said.some(({ verb }) => LATER.has(verb.senses[''] ?? ''))) return false;
    return items
      .slice(deed)
      .some(
        (item) =>
          item.kind === 'name' &&
          item.things.some((thing) => ['part', 'cover', 'fastener', 'point', 'control', 'zone'].includes(thing.kind)),
      );
  }

  /** Where a clause tells of a deed: "releasing", "you release"; -1 where it tells of none. */
  private deedIn(items: readonly Item[]): number {
    return items.findIndex((item, index) => {
      if (item.kind !== 'word') return false;
      const forms = this.tables.verbs.get(item.word) ?? [];
      if (forms.some((form) => form.form === 'gerund' && !['go', 'wait', 'continue'].includes(form.base))) return true;
      const before = items[index - 1];
      const person =
        (before?.kind === 'name' && before.things.some(({ kind }) => kind === 'role')) ||
        this.tables.nouns.get(wordAt(items, index - 1) ?? '') === 'people' ||
        this.tables.lexicon.beside.someone.includes(wordAt(items, index - 1) ?? '');
      if (person && forms.some((form) => form.form === 'third' || form.form === 'base')) return true;
      return wordAt(items, index - 1) === 'you' && forms.some((form) => form.form === 'base');
    });
  }

  /** What stands at the end of an order for itself: "by opening the valve" is a deed, "on the PK-40" says on which machine. */
  private broughtOut(main: readonly Item[]): {
    rest: readonly Item[];
    deeds: readonly (readonly Item[])[];
    model: readonly (readonly Item[])[];
  } {
    const by = main.findIndex(
      (item, index) =>
        index > 0 &&
        wordAt(main, index) === 'by' &&
        item.kind === 'word' &&
        this.tables.verbs.get(wordAt(main, index + 1) ?? '')?.some(({ form }) => form === 'gerund') === true,
    );
    if (by > 0) return { rest: main.slice(0, by), deeds: [main.slice(by + 1)], model: [] };
    const on = main.findIndex(
      (_, index) =>
        index > 0 &&
        ['on', 'for'].includes(wordAt(main, index) ?? '') &&
        main.slice(index + 1).every((item) => this.saysModel(item)) &&
        main.slice(index + 1).some((item) => item.kind === 'name'),
    );
    return on > 0 ? { rest: main.slice(0, on), deeds: [], model: [main.slice(on)] } : { rest: main, deeds: [], model: [] };
  }

  private saysModel(item: Item): boolean {
    if (item.kind === 'name') return item.things[0]?.kind === 'model';
    return (
      (item.kind === 'mark' && [',', '.', '!'].includes(item.word)) ||
      (item.kind === 'word' && (['and', 'or', 'only'].includes(item.word) || this.tables.sets.determiners.has(item.word)))
    );
  }

  /** "Hold the roller while you loosen the bolt": both are done, and whoever follows it does both. */
  private meanwhile(items: readonly Item[]): ReturnType<typeof verbPhrases> {
    const deed = this.deedIn(items);
    const [first, ...rest] = items.slice(deed);
    if (first?.kind !== 'word') return undefined;
    const form = this.tables.verbs.get(first.word)?.find((one) => one.form === 'gerund' || one.form === 'base');
    return form && verbPhrases([{ ...first, word: form.base }, ...rest], this.tables);
  }

  /** A verb nobody listed, but a section that says what is done. */
  private calledBy(main: readonly Item[]): Action | undefined {
    const words = this.words(main);
    const first = main[0];
    if (!first || !this.tables.lexicon.callWords.some((one) => ` ${words.toLowerCase()} `.includes(` ${one} `))) return undefined;
    const found = targetIn(main, words, first.at, this.context);
    const last = main[main.length - 1] as Item;
    return (
      found && {
        kind: 'call',
        things: [],
        with: [],
        contact: false,
        outside: false,
        amounts: [],
        when: [],
        target: found.target,
        at: first.at,
        end: last.end,
      }
    );
  }

  /** A bullet with the verb of its lead in front: "Remove:" and then "the guard". */
  private hangOn(hung: NonNullable<Sentence['hanging']>, items: readonly Item[]): readonly Item[] {
    const first = items[0];
    if (!first || (first.kind === 'word' && this.tables.verbs.get(first.word)?.some((form) => form.form === 'base' && !form.verb.noun)))
      return items;
    const { at } = first;
    const word = (text: string): Item => ({ kind: 'word', word: text, text, at, end: at });
    return [...hung.verb.split(' ').map(word), ...(hung.particle === undefined ? [] : [word(hung.particle)]), ...items];
  }

  private roleOf(main: readonly Item[]): string | undefined {
    const item = main[this.beforeRole(main)];
    return item?.kind === 'name' && item.things[0]?.kind === 'role' ? item.things[0].name : undefined;
  }

  /** "The second person lifts", "have the second person lift", "ask the second person to lift": how many words stand before the role. */
  private beforeRole(main: readonly Item[]): number {
    const asked = this.tables.verbs.get(wordAt(main, 0) ?? '')?.some((one) => one.form === 'base' && one.verb.senses[''] === 'have')
      ? 1
      : 0;
    return this.tables.sets.determiners.has(wordAt(main, asked) ?? '') ? asked + 1 : asked;
  }

  private asks(main: readonly Item[]): boolean {
    return this.tables.verbs.get(wordAt(main, 0) ?? '')?.some((one) => one.form === 'base' && one.verb.senses[''] === 'have') ?? false;
  }

  /** After "the second person", verbs stand in the third person: read as orders to that person. */
  private afterRole(main: readonly Item[]): readonly Item[] {
    const rest = main.slice(this.beforeRole(main) + 1);
    return (wordAt(rest, 0) === 'to' ? rest.slice(1) : rest).map((item) => {
      if (item.kind !== 'word') return item;
      const form = this.tables.verbs.get(item.word)?.find((one) => one.form === 'third');
      return form && !this.tables.verbs.get(item.word)?.some((one) => one.form === 'base') ? { ...item, word: form.base } : item;
    });
  }

  /** "The gauge must show 0 bar": whoever follows it reads the gauge, or the instrument that is held there. */
  private shown(said: readonly Item[], text: string): Action | undefined {
    const [first, last] = [said[0], said[said.length - 1]];
    const uses = said.flatMap((item) =>
      item.kind === 'name' && item.things[0] ? [{ thing: item.things[0], at: item.at, end: item.end }] : [],
    );
    const words = this.words(said);
    const gauges = uses.filter(({ thing }) => thing.kind === 'gauge');
    const tools = uses.filter(({ thing }) => thing.kind === 'tool' && this.equipment.tool(thing.name)?.contact);
    if (!first || !last || uses.length === 0) return undefined;
    const shows = /\bmust (?!not)(?:\w+ )?(?:show|read|indicate|stand at|fall to|drop to)\b/i.test(words);
    // "The wheels must stand still in the window."
    const still = /\bmust (?:stand|be|stay) (?:still|at rest)\b.*\b(?:in|at|on|behind)\b/i.test(words);
    const proof = { ...bare('prove', first.at, last.end), result: text };
    if (gauges.length === uses.length) return (shows && showsGone(words)) || still ? { ...proof, things: gauges } : undefined;
    const little = showsLittle(words) || /\b0(?![.\d])/.test(words);
    return tools.length === uses.length && shows && little ? { ...proof, with: tools, contact: true } : undefined;
  }

  /** A sentence that tells and does not order. */
  private statement(main: readonly Item[], items: readonly Item[], base: Omit<Sentence, 'status'>): Sentence {
    const words = main.flatMap((item) => (item.kind === 'word' ? [item.word] : []));
    const must = words.some((word) => ['must', 'shall', 'should'].includes(word));
    const held =
      base.mentions.some((use) => use.thing.kind === 'point') &&
      words.some((word) => this.tables.positions.has(word)) &&
      !words.includes('not');
    if (held && (must || /\bha(?:s|ve) to\b/.test(base.text)))
      return this.unread(base, 'it says how a point must stand, not who puts it there');
    const allowed = words.some((word, index) => {
      const past = word === 'be' && this.tables.verbs.get(words[index + 1] ?? '')?.some(({ form }) => form === 'past');
      return past && words.slice(Math.max(0, index - 2), index).some((one) => ['can', 'may', 'could'].includes(one));
    });
    if (allowed && base.mentions.some(({ thing }) => ['part', 'cover', 'fastener', 'point', 'control'].includes(thing.kind)))
      return this.unread(base, 'it allows what is done and does not order it');
    const proof = this.shown(main, base.text);
    if (proof) return { ...base, status: 'read', actions: [proof] };
    if (must) return { ...base, status: 'confirmation' };
    const first = main[0];
    const tells =
      first?.kind === 'name' ||
      (first?.kind === 'word' &&
        (this.tables.sets.determiners.has(first.word) ||
          this.tables.sets.possessives.has(first.word) ||
          this.tables.sets.subjects.has(first.word) ||
          this.tables.sets.all.has(first.word) ||
          this.tables.sets.adjectives.has(first.word) ||
          this.tables.sets.places.has(first.word) ||
          // "Two people are needed."
          (this.tables.lexicon.numbers[first.word] !== undefined && words.some((word) => this.tables.sets.be.has(word)))));
    // An order by a verb nobody listed: "Roll the gate by hand", "lap it as in [section ...]".
    const second = main[1]?.kind === 'word' ? main[1].word : main[1]?.kind;
    const ordered =
      second !== undefined &&
      (this.tables.sets.determiners.has(second) ||
        this.tables.sets.possessives.has(second) ||
        this.tables.sets.all.has(second) ||
        ['it', 'them', 'name', 'reference', 'amount'].includes(second));
    const orders =
      ordered ||
      items.some(
        (item, index) =>
          index > 0 && item.kind === 'word' && this.tables.verbs.get(item.word)?.some((form) => form.form === 'base' && !form.verb.noun),
      );
    if (!tells && (base.mentions.length > 0 || orders)) return this.unread(base, 'its verb is not known');
    const verb = words.some(
      (word) => this.tables.sets.statives.has(word) || this.tables.verbs.get(word)?.some((form) => form.form === 'third'),
    );
    if (verb) return { ...base, status: 'remark' };
    if (
      base.mentions.length === 0 &&
      !words.some((word) => this.tables.verbs.get(word)?.some((form) => form.form === 'base' && !form.verb.noun))
    )
      return { ...base, status: 'remark' };
    return this.unread(base, 'no order could be found in it');
  }

  private unread(base: Omit<Sentence, 'status'>, why: string): Sentence {
    return { ...base, status: 'unread', why };
  }

  private overridden(
    override: NonNullable<ReadingContext['override']>,
    mentions: readonly ThingUse[],
  ): Pick<Sentence, 'status' | 'actions'> & { why?: string } {
    const [verb = ''] = override.reads.toLowerCase().split(' ');
    const kind = Object.hasOwn(OVERRIDE_VERBS, verb) ? OVERRIDE_VERBS[verb]?.kind : undefined;
    const rest = override.reads.slice(verb.length).trim();
    const things =
      rest === ''
        ? []
        : this.context.names
            .lookup(rest)
            .filter((thing) => mayBeSaidOf(verb, thing.kind))
            .slice(0, 1)
            .map((thing) => ({ thing, at: 0, end: 0 }));
    // A lock, a try-out or clear people can never be asserted this way (F14).
    if (!kind || (rest !== '' && things.length === 0))
      return { status: 'unread', actions: [], why: `"${override.reads}" is no reading that can be said outright` };
    const used = things.length > 0 ? things : mentions.slice(0, 1);
    // A tool cannot be isolated: read so, the step would count as an instruction that does nothing.
    if (verb !== 'nothing' && !used.every(({ thing }) => mayBeSaidOf(verb, thing.kind)))
      return { status: 'unread', actions: [], why: `"${override.reads}" cannot be said of ${used.map(({ thing }) => thing.name).join()}` };
    return {
      status: 'read',
      actions:
        verb === 'nothing'
          ? []
          : [
              {
                kind,
                things: used,
                with: [],
                contact: handsOn(kind),
                outside: false,
                amounts: [],
                when: [],
                at: 0,
                end: this.prose.text.length,
              },
            ],
    };
  }

  private words(items: readonly Item[]): string {
    const first = items[0];
    const last = items[items.length - 1];
    return first && last ? this.prose.text.slice(first.at, last.end) : '';
  }
}

/** "... and confirm that nothing moves": the phrase before it was a try-out. */
function confirmsNothing(next: Phrase | undefined): boolean {
  return (
    next !== undefined &&
    (next.sense === 'check' || next.sense === 'confirm') &&
    /\bthat\b.*\b(?:not|no|nothing|still|dead|never)\b/i.test(next.text)
  );
}

/** What is said for itself, without when and how long. */
function saidFirst(items: readonly Item[], tables: Tables): readonly Item[] {
  const { main, result, purpose } = clausesOf(items, tables);
  return [...main, ...result, ...(purpose.length > 0 ? items.slice(items.indexOf(purpose[0] as Item) - 1) : [])];
}

function takesObject(phrase: Phrase): boolean {
  return !['wait', 'stop', 'continue', 'finish', 'stay', 'leave', 'go', 'look', 'listen'].includes(phrase.sense);
}

const HANDS_ON: readonly ActionKind[] = [...HANDS_AT_WORK, 'measure', 'prove', 'put-in', 'take-out'];
const handsOn = (kind: ActionKind): boolean => HANDS_ON.includes(kind);

function stageOf(text: string, tables: Tables): Action['stage'] {
  const lower = text.toLowerCase();
  return Object.entries(tables.lexicon.stages)
    .sort((a, b) => b[0].length - a[0].length)
    .find(([words]) => lower.includes(words))?.[1];
}

/** "First to 30 N·m and then to 60 N·m": one tightening a stage. */
function staged(actions: readonly Action[], phrase: Phrase): readonly Action[] {
  return actions.flatMap((action) => {
    if (action.kind !== 'tighten' || action.amounts.length < 2 || !/\b(?:then|finally|stages?)\b|,\s*to\b/i.test(phrase.text))
      return [action];
    return action.amounts.map((amount, index) => ({
      ...action,
      amounts: [amount],
      stage: index === action.amounts.length - 1 ? ('final' as const) : ('first' as const),
    }));
  });
}

/** "Shut the gate if it is open": in a sentence that names one thing, "it" is that thing, and its state decides. */
function ownState(condition: Condition, action: Action, tables: Tables): Condition {
  const [use] = action.things;
  if (condition.kind !== 'fact' || action.things.length !== 1 || use === undefined) return condition;
  if (!['point', 'cover', 'part', 'control', 'fastener'].includes(use.thing.kind)) return condition;
  const said = /^(?:it|they) (?:is|are|stands?) (?:still |already )?([a-z]+)$/.exec(condition.key)?.[1];
  const state = said === undefined ? undefined : tables.positions.get(said);
  return state === undefined ? condition : { kind: 'state', thing: use.thing, state, negated: condition.negated, text: condition.text };
}
