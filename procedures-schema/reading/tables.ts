/** A lexicon made ready for look-up: verb forms, sets of words, phrases longest first. One per language. */
import type { ConditionWord, Lexicon, NounClass, Sense, Verb } from './lexicon/lexicon.ts';

export interface VerbForm {
  readonly base: string;
  readonly verb: Verb;
  readonly form: 'base' | 'third' | 'past' | 'gerund';
}

export interface Tables {
  readonly lexicon: Lexicon;
  /** By folded word; one word may be several forms ("put", "leaves"). */
  readonly verbs: ReadonlyMap<string, readonly VerbForm[]>;
  readonly adverbs: readonly (readonly string[])[];
  readonly asides: readonly (readonly string[])[];
  readonly urging: readonly (readonly string[])[];
  readonly caring: readonly (readonly string[])[];
  readonly sets: Readonly<
    Record<
      | 'openers'
      | 'determiners'
      | 'possessives'
      | 'adjectives'
      | 'places'
      | 'prepositions'
      | 'negators'
      | 'be'
      | 'statives'
      | 'subjects'
      | 'all'
      | 'units'
      | 'positionNouns'
      | 'limitNouns',
      ReadonlySet<string>
    >
  >;
  readonly nouns: ReadonlyMap<string, NounClass>;
  readonly conditions: readonly { readonly words: readonly string[]; readonly kind: ConditionWord }[];
  /** Class of a position word: "closed" is "shut". */
  readonly positions: ReadonlyMap<string, string>;
  readonly opposite: ReadonlyMap<string, string>;
  readonly threadStates: readonly (readonly string[])[];
  readonly abbreviations: ReadonlySet<string>;
  /** Phrases that say how and leave an action what it is. */
  readonly fixed: readonly (readonly string[])[];
}

export function tablesOf(lexicon: Lexicon): Tables {
  const verbs = new Map<string, VerbForm[]>();
  const add = (word: string, entry: VerbForm): void => {
    verbs.set(word, [...(verbs.get(word) ?? []), entry]);
  };
  for (const [base, verb] of Object.entries(lexicon.verbs)) {
    add(base, { base, verb, form: 'base' });
    const forms = verb.forms.split(' ');
    for (const [index, word] of forms.entries()) {
      if (word === base) {
        if (index > 0 && index < forms.length - 1) add(word, { base, verb, form: 'past' });
      } else add(word, { base, verb, form: index === 0 ? 'third' : index === forms.length - 1 ? 'gerund' : 'past' });
    }
  }
  const positions = new Map<string, string>();
  for (const group of lexicon.positions) for (const word of group) positions.set(word, group[0] as string);
  const opposite = new Map<string, string>();
  for (const [a, b] of lexicon.opposites) {
    opposite.set(a, b);
    opposite.set(b, a);
  }
  const byLength = (a: readonly string[], b: readonly string[]): number => b.length - a.length;
  const set = (words: readonly string[]): ReadonlySet<string> => new Set(words);
  return {
    lexicon,
    verbs,
    adverbs: lexicon.adverbs.map((phrase) => phrase.split(' ')).sort(byLength),
    asides: lexicon.asides.map((phrase) => phrase.split(' ')).sort(byLength),
    urging: lexicon.urging.map((phrase) => phrase.split(' ')).sort(byLength),
    caring: lexicon.caring.map((phrase) => phrase.split(' ')).sort(byLength),
    sets: {
      openers: set(lexicon.openers),
      determiners: set(lexicon.determiners),
      possessives: set(lexicon.possessives),
      adjectives: set(lexicon.adjectives),
      places: set(lexicon.places),
      prepositions: set(lexicon.prepositions),
      negators: set(lexicon.negators),
      be: set(lexicon.be),
      statives: set(lexicon.statives),
      subjects: set(lexicon.subjects),
      all: set(lexicon.all),
      units: set(lexicon.units),
      positionNouns: set(lexicon.positionNouns),
      limitNouns: set(lexicon.limitNouns),
    },
    nouns: new Map(Object.entries(lexicon.nouns)),
    conditions: Object.entries(lexicon.conditions)
      .map(([words, kind]) => ({ words: words.split(' '), kind }))
      .sort((a, b) => b.words.length - a.words.length),
    positions,
    opposite,
    threadStates: lexicon.threadStates.map((phrase) => phrase.split(' ')),
    abbreviations: set(lexicon.abbreviations),
    fixed: [...lexicon.manners, ...Object.keys(lexicon.stages), 'a little', 'a bit'].map((phrase) => phrase.split(' ')),
  };
}

export type { Sense };
