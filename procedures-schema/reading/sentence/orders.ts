/** The orders of a sentence, phrase by phrase: what each takes from those beside it, and what came of it. */
import type { ThingKind } from '../../registers/index.ts';
import type { Action, ActionKind, Condition, Sentence, ThingUse } from '../action.ts';
import { HANDS_AT_WORK } from '../action-kinds.ts';
import { type Around, type Classified, classify, NO_POINT } from '../classify/index.ts';
import type { Item } from '../items.ts';
import { eitherOf } from '../orders-behind.ts';
import { type Phrase, phraseOf } from '../phrase.ts';
import type { Tables, VerbForm } from '../tables.ts';
import { ownState } from './conditions-of.ts';
import { bare, type Reader, unread, wordsOf } from './reader.ts';
import { ALONE, specialOrder } from './special.ts';

/** What may be named together by the end of its name. */
const SEVERAL: readonly ThingKind[] = ['point', 'control', 'cover', 'part', 'fastener', 'gauge'];

const HANDS_ON: readonly ActionKind[] = [...HANDS_AT_WORK, 'measure', 'prove', 'put-in', 'take-out'];

export const handsOn = (kind: ActionKind): boolean => HANDS_ON.includes(kind);

export function readOrders(
  reader: Reader,
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
  const { tables } = reader;
  const read = phrases.map(({ form, items }) =>
    phraseOf(
      items,
      form.base,
      form.verb.senses,
      wordsOf(reader, items),
      tables,
      (name) => reader.context.names.lookup(name),
      (name) => reader.context.names.ending(name, SEVERAL),
    ),
  );
  const actions: Action[] = [];
  const unknown: Sentence['unknown'][number][] = [];
  const ambiguous: Sentence['ambiguous'][number][] = [];
  let why: string | undefined;
  let it: readonly ThingUse[] = reader.it ? [{ thing: reader.it, at: base.at, end: base.at }] : [];
  const points = base.mentions.filter((use) => use.thing.kind === 'point');
  const only = new Set(points.map((use) => use.thing.name)).size === 1 ? points[0] : undefined;
  if (phrases.some(({ items }) => eitherOf(items, tables))) return unread(base, 'it leaves open which of the two is meant');
  if (/\bevery (?:second|other|third)\b|\bbut leave\b|\bexcept for\b/i.test(text))
    return unread(base, 'which of them is meant is not clear');
  let point: ThingUse | undefined;
  const lower = ` ${text.toLowerCase()} `;
  for (const { at } of read) reader.begun.add(at);
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
      borrowed && next && takesObject(own) && !powers(own, next)
        ? { ...own, objects: next.objects, nouns: next.nouns, pronoun: next.pronoun, many: next.many }
        : own;
    const measured = measuredAgain(reader, phrase, shared.when);
    const items = phrases[index]?.items ?? [];
    const last = index === read.length - 1;
    const special = measured
      ? classify({ ...phrase, pronoun: false, objects: [measured], places: [] }, ALONE, reader.equipment, tables)
      : specialOrder(reader, phrase, items, text);
    const around: Around = {
      it,
      hangs: /:\W*$/.test(text),
      them: reader.them.map((thing) => ({ thing, at: phrase.at, end: phrase.end })),
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
    const made = wipedOff(special ?? classify(phrase, around, reader.equipment, tables), phrase, base);
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
function measuredAgain(reader: Reader, phrase: Phrase, when: readonly Condition[]): ThingUse | undefined {
  const bare = phrase.objects.length === 0 && phrase.nouns.length === 0 && phrase.unknown.length === 0 && phrase.places.length === 0;
  if (!bare || !['measure', 'read'].includes(phrase.sense) || !/\b(?:again|once more)\b/i.test(phrase.text)) return undefined;
  const asked = when.flatMap((one) => (one.kind === 'outcome' && one.subject !== undefined ? [one.subject] : []));
  const only = reader.context.measurements.length === 1 ? reader.context.measurements[0]?.name : undefined;
  const name = asked.at(-1) ?? (reader.it?.kind === 'measurement' ? reader.it.name : only);
  const thing = name === undefined ? undefined : reader.context.names.lookup(name).find((one) => one.kind === 'measurement');
  return thing && { thing, at: phrase.at, end: phrase.end };
}

/** "Wipe off the grease that comes out of the screw": the hand is at the one thing that is named. */
function wipedOff(
  made: Classified,
  { sense, unknown, objects, text, at, end }: Phrase,
  { mentions }: Pick<Sentence, 'mentions'>,
): Classified {
  // What is wiped off need not be registered; what it is wiped off must be.
  const dirt = unknown.length === 0 || /\b(?:out of|off|from)\b/.test(text);
  if (!('why' in made) || sense !== 'clean' || !dirt) return made;
  const there = mentions.filter((use) => use.at >= at && use.end <= end && ['part', 'cover', 'fastener'].includes(use.thing.kind));
  // What is itself the object was refused for a reason.
  const refused = objects.some(({ thing }) => there.some((use) => use.thing.name === thing.name));
  if (refused && unknown.length === 0 && !objects.some(({ thing }) => thing.kind === 'consumable')) return made;
  return there.length === 1 ? { actions: [{ ...bare('clean', at, end), things: there, contact: true }] } : made;
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

function stageOf(text: string, tables: Tables): Action['stage'] {
  const lower = text.toLowerCase();
  return Object.entries(tables.lexicon.stages)
    .sort((a, b) => b[0].length - a[0].length)
    .find(([words]) => lower.includes(words))?.[1];
}

/** "Switch on and tighten the screws", "plug in and turn the hook": what is powered is not what the next hand is on. */
const powers = ({ sense }: Phrase, next: Phrase): boolean =>
  ['on', 'off', 'plug-in', 'unplug', 'restore', 'energise'].includes(sense) &&
  next.objects.some(({ thing }) => ['part', 'fastener', 'cover', 'replacement', 'zone'].includes(thing.kind));

function takesObject(phrase: Phrase): boolean {
  return !['wait', 'stop', 'continue', 'finish', 'stay', 'leave', 'go', 'look', 'listen'].includes(phrase.sense);
}

/** "... and confirm that nothing moves": the phrase before it was a try-out. */
function confirmsNothing(next: Phrase | undefined): boolean {
  return (
    next !== undefined &&
    (next.sense === 'check' || next.sense === 'confirm') &&
    /\bthat\b.*\b(?:not|no|nothing|still|dead|never)\b/i.test(next.text)
  );
}
