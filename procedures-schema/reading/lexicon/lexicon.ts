/**
 * The form of a language: words only, no rules. A second language is a second file of this type. What a sense does to which kind
 * of thing stands in `classify/`, which knows no word of any language.
 */

/** What a verb means before its object is known. */
export type Sense =
  // switching
  | 'off'
  | 'on'
  | 'stop'
  | 'start'
  | 'run'
  | 'operate'
  | 'press'
  | 'let-go'
  | 'try'
  // positions
  | 'open'
  | 'shut'
  | 'in'
  | 'out'
  | 'set'
  | 'turn'
  | 'raise'
  | 'lower'
  | 'unplug'
  | 'plug-in'
  // energy
  | 'isolate'
  | 'lock'
  | 'tag'
  | 'lock-and-tag'
  | 'unlock'
  | 'untag'
  | 'bleed'
  | 'restrain'
  | 'release'
  | 'prove'
  | 'test'
  | 'energise'
  | 'restore'
  // hands
  | 'remove'
  | 'fit'
  | 'put'
  | 'replace'
  | 'renew'
  | 'loosen'
  | 'tighten'
  | 'adjust'
  | 'clean'
  | 'apply'
  | 'move'
  | 'handle'
  | 'clear'
  | 'weak'
  // senses and measuring
  | 'measure'
  | 'read'
  | 'look'
  | 'listen'
  | 'feel'
  | 'watch'
  | 'check'
  | 'confirm'
  | 'record'
  // people
  | 'tell'
  | 'send'
  | 'collect'
  | 'wear'
  | 'call'
  | 'have'
  // order
  | 'wait'
  | 'go'
  | 'continue'
  | 'repeat'
  | 'see'
  | 'do'
  | 'leave'
  | 'keep'
  | 'use'
  | 'finish'
  | 'stay'
  | 'make'
  | 'declare';

/** Third person, past, participle, gerund; three words where past and participle are the same. */
export interface Verb {
  readonly forms: string;
  /** By particle; '' is the bare verb. */
  readonly senses: Readonly<Record<string, Sense>>;
  /** Also a noun or adjective: a verb only where an object follows. */
  readonly noun?: true;
  /** An order only with what it is done to right behind it: "work the lever" is one, "work on the press" is none. */
  readonly object?: true;
  /** An order only where the sentence begins: ", say 5 mm" is none. */
  readonly first?: true;
}

/** A generic noun that stands for no registered thing. */
export type NounClass =
  | 'people'
  | 'tools'
  | 'lock'
  | 'tag'
  | 'area'
  | 'reading'
  | 'following'
  | 'work'
  | 'machine'
  | 'end'
  | 'test'
  | 'procedure'
  | 'order'
  | 'service'
  | 'voltage'
  | 'live-source';

export type ConditionWord = 'if' | 'unless' | 'until' | 'before' | 'after' | 'once' | 'when' | 'while' | 'purpose' | 'because';

/** Ways of saying that are known as a whole. */
export interface Sayings {
  /** "See that everyone stands clear": seeing to it is the deed itself. */
  readonly clears: RegExp;
  /** "With everyone clear", "with nobody near the table". */
  readonly withPeopleClear: RegExp;
  /** "Nobody near: press the button." */
  readonly nobody: RegExp;
  /** Names of tests that stand before a colon. */
  readonly testLabel: RegExp;
  /** "Nothing may turn": only motion; "must not rub" is looked for on a machine that runs. */
  readonly staysStill: RegExp;
  /** "It must show 0 bar." */
  readonly itMustShow: RegExp;
  /** "..., which must show green" */
  readonly whichMustShow: RegExp;
  /** "Tools away", "people clear": orders without a verb. */
  readonly toolsAway: RegExp;
  readonly peopleAway: RegExp;
}

export interface Lexicon {
  readonly language: string;
  readonly verbs: Readonly<Record<string, Verb>>;
  /** Words that may stand before an imperative and change nothing. */
  readonly openers: readonly string[];
  readonly adverbs: readonly string[];
  /** How often, how far, which way: several words that change nothing of what is done. */
  readonly asides: readonly string[];
  /** Openings that urge to do what follows. */
  readonly urging: readonly string[];
  /** Openings of a warning: what follows is heeded, not done. */
  readonly caring: readonly string[];
  readonly determiners: readonly string[];
  readonly possessives: readonly string[];
  readonly pronouns: { readonly one: readonly string[]; readonly many: readonly string[] };
  readonly subjects: readonly string[];
  readonly numbers: Readonly<Record<string, number>>;
  readonly all: readonly string[];
  readonly except: readonly string[];
  /** Adjectives that leave a name what it is. */
  readonly adjectives: readonly string[];
  /** Words for where one of several stands: "lower left". */
  readonly places: readonly string[];
  readonly prepositions: readonly string[];
  readonly instrument: readonly string[];
  readonly negators: readonly string[];
  readonly modals: { readonly must: readonly string[]; readonly may: readonly string[] };
  readonly be: readonly string[];
  /** Verbs of statements about the machine: they describe, they do not instruct. */
  readonly statives: readonly string[];
  readonly conditions: Readonly<Record<string, ConditionWord>>;
  readonly nouns: Readonly<Record<string, NounClass>>;
  /** Position words that mean the same; the first is the class. */
  readonly positions: readonly (readonly string[])[];
  /** Which position classes are each other's opposite. */
  readonly opposites: readonly (readonly [string, string])[];
  /** Where a thing is put down that is off the machine: "on the bench" is no refitting. */
  readonly restingPlaces: readonly string[];
  /** What is said of a part that will not go back. */
  readonly discarded: readonly string[];
  /** Nouns that only say "position", "setting". */
  readonly positionNouns: readonly string[];
  readonly outcomes: { readonly [K in 'over' | 'under' | 'within' | 'not-within' | 'pass' | 'fail']: readonly string[] };
  readonly limitNouns: readonly string[];
  /** Words that tell what is seen when something is found wrong or right by the senses. */
  readonly defects: { readonly seen: readonly string[]; readonly felt: readonly string[]; readonly sound: readonly string[] };
  readonly manners: readonly string[];
  /** The state of threads that a torque is for: "dry", "lubricated"; after a comma it is no order. */
  readonly threadStates: readonly string[];
  readonly stages: Readonly<Record<string, 'hand' | 'first' | 'final'>>;
  readonly outside: readonly string[];
  readonly units: readonly string[];
  readonly abbreviations: readonly string[];
  readonly stepWords: readonly string[];
  readonly sectionWords: readonly string[];
  readonly callWords: readonly string[];
  readonly rangeWords: readonly string[];
  readonly reverse: readonly string[];
  readonly testRun: readonly string[];
  readonly standClear: readonly string[];
  readonly zero: readonly string[];
  readonly models: readonly string[];
  readonly serial: readonly string[];
  readonly without: readonly string[];
  readonly others: readonly string[];
  readonly otherwise: readonly string[];
  /** Words beside an order that take something from it; what protects is then not read. */
  readonly beside: {
    /** Done at another time, or perhaps not at all. */
    readonly seldom: readonly string[];
    readonly partly: readonly string[];
    /** Words of an order to lock or to isolate that change nothing of it. */
    readonly harmless: readonly string[];
    /** "one of", "some of". */
    readonly some: readonly string[];
    readonly someone: readonly string[];
    /** "everyone apart from": beside the words of `except`. */
    readonly but: readonly string[];
    /** A body in the way, whatever it does there. */
    readonly bodily: readonly string[];
    /** What comes on or goes off, named or not. */
    readonly power: readonly string[];
    /** "off and straight back on". */
    readonly returning: readonly string[];
    /** "by hand", "by half a turn": nobody else does it. */
    readonly handy: readonly string[];
    /** "other than", "apart from". */
    readonly butThan: readonly string[];
    readonly noBody: readonly string[];
    /** Where somebody is who is in the way of what moves. */
    readonly within: readonly string[];
    /** How a body gets somewhere. */
    readonly goes: readonly string[];
    /** In "after ...": it comes by itself. */
    readonly dated: readonly string[];
    /** In "once ...": it is waited for. */
    readonly ready: readonly string[];
    /** "Two people are needed to lift it": what for. */
    readonly serves: readonly string[];
    readonly hands: readonly string[];
    /** "is done likewise". */
    readonly alike: readonly string[];
    /** In a clause of time: it may never come. */
    readonly mightNot: readonly string[];
  };
  /** Words that part clauses, or keep them from being parted. */
  readonly clauseWords: {
    /** "..., working from the middle outwards": in which order, and nothing more. */
    readonly working: readonly string[];
    /** Behind these a word of condition stands alone: "at once and". */
    readonly alone: readonly string[];
    /** Words for how long. */
    readonly times: readonly string[];
    /** Behind these a verb is no order. */
    readonly leadNoOrder: readonly string[];
    /** Words that do not count where two sayings are compared. */
    readonly small: readonly string[];
  };
  readonly sayings: Sayings;
  /** Words that show what a sentence is about, read or not. */
  readonly subjectWords: Readonly<Record<'lock' | 'tell' | 'people' | 'tools' | 'test' | 'wait' | 'meter', readonly string[]>>;
}
