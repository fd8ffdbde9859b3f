/**
 * One verb phrase: the verb with its particle, its objects, what it is done with, to and from, its quantities, and what was left
 * over. Looks at form only; what it means is for classify/.
 */
import type { Thing } from '../registers/index.ts';
import type { ThingUse } from './action.ts';
import { type Item, wordAt } from './items.ts';
import type { NounClass, Sense } from './lexicon/lexicon.ts';
import type { Tables } from './tables.ts';

export interface Phrase {
  readonly base: string;
  readonly particle: string;
  readonly sense: Sense;
  readonly objects: readonly ThingUse[];
  readonly nouns: readonly NounClass[];
  /** "it", "them" as object. */
  readonly pronoun: boolean;
  /** "them", "both", "each". */
  readonly many: boolean;
  /** Things after a preposition, by preposition. */
  readonly places: readonly {
    readonly preposition: string;
    readonly uses: readonly ThingUse[];
    readonly nouns: readonly NounClass[];
    readonly pronoun: boolean;
    readonly text: string;
  }[];
  readonly amounts: readonly { readonly text: string; readonly unit: string; readonly at: number; readonly end: number }[];
  /** A position word at the end or after "to": "off", "neutral". */
  readonly position?: string;
  /** Object nouns that no register knows. */
  readonly unknown: readonly { readonly text: string; readonly at: number; readonly end: number }[];
  readonly ambiguous: readonly { readonly text: string; readonly things: readonly Thing[]; readonly at: number; readonly end: number }[];
  readonly renewed: boolean;
  readonly text: string;
  readonly at: number;
  readonly end: number;
}

const QUIET = new Set(['and', 'or', 'then', ',', '(', ')', '"', "'", '“', '”', '-', '–', '/', '*', 'of', 'so', 'that', 'also']);

/** Reads `items`, the first of which is the verb. */
export function phraseOf(
  items: readonly Item[],
  base: string,
  senses: Readonly<Record<string, Sense>>,
  text: string,
  tables: Tables,
  lookup: (name: string) => readonly Thing[] = () => [],
  ending: (name: string) => readonly Thing[] = () => [],
): Phrase {
  const first = items[0] as Item;
  const last = items[items.length - 1] as Item;
  let particle = '';
  let index = 1;
  const isParticle = (word: string): boolean => word !== '' && Object.hasOwn(senses, word);
  const next = items[1];
  if (next?.kind === 'word' && isParticle(next.word)) {
    particle = next.word;
    index = 2;
  }
  const objects: ThingUse[] = [];
  const nouns: NounClass[] = [];
  const places: { preposition: string; uses: ThingUse[]; nouns: NounClass[]; pronoun: boolean; text: string }[] = [];
  const amounts: Phrase['amounts'][number][] = [];
  const unknown: Phrase['unknown'][number][] = [];
  const ambiguous: Phrase['ambiguous'][number][] = [];
  let pronoun = false;
  let renewed = false;
  let position: string | undefined;
  let place: (typeof places)[number] | undefined;
  let count: number | undefined;
  let all = false;
  let except: string[] | undefined;
  let where: string[] = [];
  let loose: { text: string; at: number; end: number }[] = [];
  /** "the suction and discharge valves": what stood before "and" and wants the noun after it. */
  let short: { text: string; at: number; end: number }[] = [];
  let many = false;
  const reset = (): void => {
    count = undefined;
    all = false;
    except = undefined;
    where = [];
  };
  /** "Both bleed valves", "all four clamps": as many as the register has whose names end so, or none. */
  const together = (): boolean => {
    const from = loose[0];
    const to = loose[loose.length - 1];
    if (!from || !to || !(all || (count !== undefined && count >= 2))) return false;
    const things = ending(loose.map((one) => one.text).join(' '));
    if (things.length < 2 || (!all && things.length !== count) || (all && count !== undefined && things.length !== count)) return false;
    for (const thing of things) (place ? place.uses : objects).push({ thing, at: from.at, end: to.end });
    loose = [];
    reset();
    return true;
  };
  const flush = (): void => {
    if (together()) return;
    // Words that led to no name: an object nobody registered, unless they stand after a preposition.
    if (loose.length > 0 && !place) {
      const from = loose[0] as (typeof loose)[number];
      const to = loose[loose.length - 1] as (typeof loose)[number];
      unknown.push({ text: loose.map((one) => one.text).join(' '), at: from.at, end: to.end });
    }
    loose = [];
  };
  for (; index < items.length; index += 1) {
    const item = items[index] as Item;
    if (item.kind === 'amount') {
      amounts.push(item);
      flush();
      continue;
    }
    if (item.kind === 'name') {
      for (const one of short) {
        const whole = narrowed(lookup(`${one.text} ${item.text.split(/\s+/).at(-1)}`));
        if (whole.length === 1) (place ? place.uses : objects).push({ thing: whole[0] as Thing, at: one.at, end: one.end });
        else unknown.push(one);
      }
      short = [];
      const things = narrowed(item.things);
      if (things.length > 1) ambiguous.push({ text: item.text, things, at: item.at, end: item.end });
      else {
        const use: ThingUse = {
          thing: things[0] as Thing,
          at: item.at,
          end: item.end,
          ...(count === undefined ? {} : { count }),
          ...(all ? { all } : {}),
          ...(except ? { except: [...except, ...where].join(' ') } : where.length > 0 ? { place: where.join(' ') } : {}),
        };
        (place ? place.uses : objects).push(use);
      }
      loose = [];
      reset();
      continue;
    }
    if (item.kind === 'reference') {
      flush();
      continue;
    }
    const { word } = item;
    if (item.kind === 'mark') {
      // "(3)": a callout of the figure.
      const callout = word === '(' && /^\d{1,2}$/.test(wordAt(items, index + 1) ?? '') && items[index + 2]?.kind === 'mark';
      if (callout) {
        index += 2;
        continue;
      }
      if (word === ',' || word === '(') flush();
      continue;
    }
    // "Turn the wheel on its spindle": that is where, and starts nothing.
    const upon = word === 'on' && senses.on === 'on' && startsObject(items[index + 1], tables);
    if (!upon && isParticle(word) && particle === '' && (objects.length > 0 || nouns.length > 0 || pronoun || loose.length > 0) && !place) {
      particle = word;
      flush();
      // "Take the lock off the isolator": the same word is also where from.
      if (!startsObject(items[index + 1], tables) && wordAt(items, index + 1) !== 'of') continue;
      place = { preposition: word, uses: [], nouns: [], pronoun: false, text: text.slice(item.at - first.at, last.end - first.at) };
      places.push(place);
      reset();
      continue;
    }
    const aside = tables.asides.find((parts) => parts.every((part, offset) => wordAt(items, index + offset) === part));
    if (aside) {
      index += aside.length - 1;
      flush();
      continue;
    }
    // "All the bolts except the outer ones."
    const spared = objects.length > 0 && !place && tables.lexicon.except.includes(word) ? sparedIn(items, index + 1, tables) : undefined;
    if (spared) {
      const last = objects[objects.length - 1] as ThingUse;
      const { all: _, place: __, ...rest } = last;
      objects[objects.length - 1] = { ...rest, except: spared.places.join(' ') };
      index = spared.last;
      continue;
    }
    const after = items[index + 1];
    const ends =
      after === undefined ||
      after.kind === 'mark' ||
      (after.kind === 'word' && (tables.sets.prepositions.has(after.word) || after.word === 'and'));
    if (
      (['it', 'them', 'ones'].includes(word) ||
        (word === 'one' && unitAfter(items, index, tables) === undefined && items[index + 1]?.kind !== 'name') ||
        (['both', 'each', 'all'].includes(word) &&
          ends &&
          !startsObject(items[index + 1], tables) &&
          !tables.lexicon.except.includes(wordAt(items, index + 1) ?? ''))) &&
      loose.length === 0
    ) {
      // "The upper one": which, the words before do not say.
      if ((word === 'one' || word === 'ones') && where.length > 0 && !place)
        unknown.push({ text: `${where.join(' ')} ${word}`, at: item.at, end: item.end });
      if (place) place.pronoun = true;
      else pronoun = true;
      many ||= word !== 'it' && word !== 'one';
      continue;
    }
    const number = tables.lexicon.numbers[word] ?? (/^\d{1,3}$/.test(word) ? Number(word) : undefined);
    const counted = number === undefined ? undefined : unitAfter(items, index, tables);
    if (counted !== undefined) {
      const last = items[counted] as Item;
      amounts.push({
        text: text.slice(item.at - first.at, last.end - first.at),
        unit: last.kind === 'word' ? last.word : '',
        at: item.at,
        end: last.end,
      });
      flush();
      index = counted;
      continue;
    }
    if (number !== undefined && (items[index + 1]?.kind !== 'mark' || word.length > 1)) {
      count = number;
      continue;
    }
    // Of four, "both" cannot be all.
    if (word === 'both') {
      count = 2;
      continue;
    }
    if (tables.sets.all.has(word)) {
      all = true;
      continue;
    }
    if (tables.lexicon.except.includes(word) && all) {
      except = [];
      all = false;
      continue;
    }
    if (word === 'new' || word === 'fresh') renewed = true;
    const noun = tables.nouns.get(word);
    if (noun !== undefined && !(loose.length > 0 && !place)) {
      (place ? place.nouns : nouns).push(noun);
      reset();
      continue;
    }
    if (tables.positions.has(word) && isLastWord(items, index, tables) && (objects.length > 0 || pronoun || place !== undefined)) {
      position ??= word;
      loose = [];
      continue;
    }
    if (tables.sets.prepositions.has(word)) {
      const whole = partOf(items, index, senses[''], tables);
      if (word === 'of' && whole) {
        loose = [];
        continue;
      }
      flush();
      if (word === 'of') continue;
      place = { preposition: word, uses: [], nouns: [], pronoun: false, text: text.slice(item.at - first.at, last.end - first.at) };
      places.push(place);
      reset();
      continue;
    }
    if (word === 'and' && (loose.length > 0 || where.length > 0) && items[index + 1]?.kind === 'name') {
      const last = items[index - 1];
      if (last?.kind === 'word') short = [{ text: last.text, at: last.at, end: last.end }];
      loose = [];
      where = [];
      continue;
    }
    if (tables.sets.determiners.has(word) && loose.length > 0) flush();
    if (tables.sets.determiners.has(word) || tables.sets.possessives.has(word) || tables.sets.openers.has(word) || QUIET.has(word))
      continue;
    if (word === 'last' && wordAt(items, index + 1) === 'of') {
      index += 1;
      continue;
    }
    if (tables.sets.places.has(word) || /^(?:left|right|upper|lower|front|rear|drive|operator)-(?:hand|side|end|most)$/.test(word)) {
      where.push(word);
      continue;
    }
    if (tables.sets.adjectives.has(word)) continue;
    const adverb = tables.adverbs.find((phrase) => phrase.every((part, offset) => wordAt(items, index + offset) === part));
    if (adverb) {
      index += adverb.length - 1;
      continue;
    }
    if (tables.sets.positionNouns.has(word) || (/ly$/.test(word) && !tables.verbs.has(word))) continue;
    const fixed = tables.fixed.find((parts) => parts.every((part, offset) => wordAt(items, index + offset) === part));
    if (fixed) {
      index += fixed.length - 1;
      continue;
    }
    loose.push({ text: item.text, at: item.at, end: item.end });
  }
  flush();
  return {
    base,
    particle,
    sense: senses[particle] ?? senses[''] ?? 'weak',
    objects,
    nouns,
    pronoun,
    many,
    places,
    amounts,
    unknown,
    ambiguous,
    renewed,
    text: text.slice(0, last.end - first.at),
    at: first.at,
    end: last.end,
    ...(position === undefined ? {} : { position }),
  };
}

/** A part and its fasteners may share words; a model beside a machine is no ambiguity. */
function narrowed(things: readonly Thing[]): readonly Thing[] {
  const own = things.filter((thing) => thing.kind !== 'section' && thing.kind !== 'machine');
  return own.length > 0 ? own : things;
}

/** Verbs for which a hand on some part of a thing is a hand on the thing. */
const ON_PARTS: readonly (Sense | undefined)[] = [
  'clean',
  'apply',
  'put',
  'look',
  'feel',
  'handle',
  'measure',
  'turn',
  'adjust',
  'weak',
  'press',
];

/** "the faces of the flange", "a film of grease": the name after "of" stands for the words before it. Always where it is a tool's. */
function partOf(items: readonly Item[], index: number, sense: Sense | undefined, tables: Tables): boolean {
  let at = index + 1;
  while (at < items.length && tables.sets.determiners.has(wordAt(items, at) ?? '')) at += 1;
  const item = items[at];
  if (item?.kind !== 'name') return false;
  return ON_PARTS.includes(sense) || item.things.every((thing) => thing.kind === 'tool' || thing.kind === 'consumable');
}

/** "the outer ones", "the lower left one": which are left as they are, and the last of these words. Undefined where they do not say it. */
function sparedIn(items: readonly Item[], from: number, tables: Tables): { places: readonly string[]; last: number } | undefined {
  const places: string[] = [];
  for (let at = from; at < items.length; at += 1) {
    const word = wordAt(items, at);
    if (word === 'one' || word === 'ones') return places.length > 0 ? { places, last: at } : undefined;
    if (word === undefined || !(tables.sets.places.has(word) || (places.length === 0 && tables.sets.determiners.has(word))))
      return undefined;
    if (tables.sets.places.has(word)) places.push(word);
  }
  return undefined;
}

/** "two minutes", "half a turn", "a quarter turn": the index of the unit. */
function unitAfter(items: readonly Item[], index: number, tables: Tables): number | undefined {
  for (const at of [index + 1, index + 2]) {
    const word = wordAt(items, at);
    if (word === undefined) return undefined;
    if (tables.sets.units.has(word) && word !== 'in' && word.length > 1) return at;
    if (word !== 'a' && word !== 'full' && word !== 'more' && word !== 'quarter') return undefined;
  }
  return undefined;
}

function startsObject(item: Item | undefined, tables: Tables): boolean {
  if (!item) return false;
  if (item.kind === 'name' || item.kind === 'reference') return true;
  return item.kind === 'word' && (tables.sets.determiners.has(item.word) || tables.sets.possessives.has(item.word));
}

/** Nothing but punctuation, prepositions' tails or amounts after it. */
function isLastWord(items: readonly Item[], index: number, tables: Tables): boolean {
  const next = items[index + 1];
  if (!next) return true;
  if (next.kind === 'mark' || next.kind === 'amount') return true;
  return (
    next.kind === 'word' &&
    (tables.sets.prepositions.has(next.word) || tables.sets.positionNouns.has(next.word) || next.word === 'again' || next.word === 'and')
  );
}
