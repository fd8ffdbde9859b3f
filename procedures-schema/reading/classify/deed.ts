/** What is ordered: one verb phrase with what stands around it, and the few ways in which actions are made of it. What each sense does is said beside it. */

import type { Thing } from '../../registers/index.ts';
import type { Action, ActionKind, ThingUse } from '../action.ts';
import { HANDS_AT_WORK } from '../action-kinds.ts';
import type { Equipment } from '../equipment.ts';
import type { Phrase } from '../phrase.ts';
import type { Tables } from '../tables.ts';

/** One verb phrase as it is made into actions. */
export interface Deed {
  readonly phrase: Phrase;
  readonly around: Around;
  readonly equipment: Equipment;
  readonly tables: Tables;
  readonly objects: readonly ThingUse[];
  readonly tools: readonly ThingUse[];
  /** Makes actions of another phrase as of this one. */
  readonly again: (deed: Deed) => Classified;
}

export function deedOf(phrase: Phrase, around: Around, equipment: Equipment, tables: Tables, again: Deed['again']): Deed {
  const objects =
    phrase.objects.length === 0 && phrase.pronoun
      ? (phrase.many ? around.it : around.it.slice(-1)).map((use) => ({ ...use, at: phrase.at, end: phrase.end }))
      : phrase.objects;
  const tools = phrase.places.filter((place) => tables.lexicon.instrument.includes(place.preposition)).flatMap((place) => [...place.uses]);
  return { phrase, around, equipment, tables, objects, tools, again };
}

/** The same deed said in other words. */
export function anew(deed: Deed, phrase: Phrase): Deed {
  return deedOf(phrase, deed.around, deed.equipment, deed.tables, deed.again);
}

/** What stands around the phrase in its sentence. */
export interface Around {
  /** The sentence ends in a colon: what it is about stands below. */
  readonly hangs: boolean;
  /** What "it" stands for, by sentence order. */
  readonly it: readonly ThingUse[];
  /** Points that the sentence before moved, if it named nothing else: what "both" stands for. */
  readonly them: readonly ThingUse[];
  /** The point named last in this sentence: what a lock goes on when none is said. */
  readonly point: ThingUse | undefined;
  /** The only point the sentence names: what a lock is taken off when none is said. */
  readonly only: ThingUse | undefined;
  readonly result: string | undefined;
  /** "to prove that", "to check that": trying, not starting. */
  readonly proving: boolean;
  readonly testRun: boolean;
  /** A source that is known to be live is spoken of. */
  readonly known: boolean;
  readonly outside: boolean;
  readonly stage: Action['stage'];
  readonly manner: string | undefined;
}

export type Classified = { readonly actions: readonly Action[] } | { readonly why: string };

const HANDS: readonly ActionKind[] = [...HANDS_AT_WORK, 'put-in', 'take-out'];

export function actionOf(deed: Deed, kind: ActionKind, things: readonly ThingUse[], more: Partial<Action> = {}): Action {
  const { phrase, around } = deed;
  const inHand = deed.tools.filter((use) => ['tool', 'consumable', 'replacement', 'gauge'].includes(use.thing.kind));
  return {
    kind,
    things,
    with: inHand,
    contact: HANDS.includes(kind),
    outside: around.outside,
    amounts: phrase.amounts.map(({ text, at, end }) => ({ text, at, end })),
    when: [],
    at: phrase.at,
    end: phrase.end,
    ...(around.result === undefined ? {} : { result: around.result }),
    ...(around.manner === undefined ? {} : { manner: around.manner }),
    ...(kind === 'tighten' && around.stage ? { stage: around.stage } : {}),
    ...more,
  };
}

export function done(deed: Deed, kind: ActionKind, things: readonly ThingUse[], more: Partial<Action> = {}): Classified {
  if (things.length === 0) return cannot(deed);
  return { actions: [actionOf(deed, kind, things, more)] };
}

export function cannot(deed: Deed, why?: string): Classified {
  const unknown = deed.phrase.unknown[0];
  return { why: why ?? (unknown ? `"${unknown.text}" is no registered name` : `"${deed.phrase.text}" could not be read`) };
}

export function usesAt(deed: Deed, ...prepositions: readonly string[]): readonly ThingUse[] {
  return deed.phrase.places.filter((place) => prepositions.includes(place.preposition)).flatMap((place) => [...place.uses]);
}

/** All objects must be of kinds the sense acts on; unknown words beside them make it unread. */
export function byKind(deed: Deed, make: Partial<Record<Thing['kind'], () => Classified>>): Classified {
  const [first] = deed.objects;
  if (!first || (deed.phrase.unknown.length > 0 && !ownScrews(deed))) return cannot(deed);
  const own = make[first.thing.kind];
  if (!own || deed.objects.some((use) => use.thing.kind !== first.thing.kind && make[use.thing.kind] === undefined)) return cannot(deed);
  if (deed.objects.every((use) => use.thing.kind === first.thing.kind)) return own();
  // Objects of several kinds under one verb: each kind for itself.
  const actions: Action[] = [];
  for (const kind of new Set(deed.objects.map((use) => use.thing.kind))) {
    const part = deed.again(anew(deed, { ...deed.phrase, objects: deed.objects.filter((use) => use.thing.kind === kind) }));
    if ('why' in part) return part;
    actions.push(...part.actions);
  }
  return { actions };
}

/** "Refit the cover and its screws": screws that go with what is named are no strangers. */
function ownScrews(deed: Deed): boolean {
  const { unknown, text } = deed.phrase;
  const covers = deed.objects.length > 0 && deed.objects.every(({ thing }) => thing.kind === 'cover' || thing.kind === 'part');
  return covers && unknown.every((one) => /^(?:\w+ )?(?:screws?|bolts?|nuts?)$/i.test(one.text)) && /\b(?:its|their) \w*/i.test(text);
}
