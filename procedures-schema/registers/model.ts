/**
 * What the registers say, decoded and typed: the library, its equipment, and the machine of one variant.
 * Raw text of quantities is kept as typed; `quantities/` reads it. Spans point into the register file named by `file`.
 * Long because the record of one machine is read as a whole.
 */
import type { Span } from '../finding.ts';
import type { Paper } from '../paper-size.ts';

/** Where a registered thing is written down. */
export interface Origin {
  readonly file: string;
  readonly span: Span;
}

// ---------------------------------------------------------------- library.yaml

export interface House {
  readonly publisher: string;
  readonly language: string;
  readonly numbering: NumberingStyle;
  /** First unit printed, then the second in brackets. */
  readonly units: { readonly first: 'metric' | 'inch'; readonly second: 'metric' | 'inch' | 'none' };
  readonly paper: Paper;
  /** Regular expression source that a document number must match whole; undefined: any. */
  readonly documentNumber?: string;
  /** Order of proof and earth differs: see semantics.md 6 and lockout.md 7. */
  readonly lockoutProfile: 'standard' | 'electrical';
  /** "Uncontrolled when printed" or the like, printed in the foot. */
  readonly printLine?: string;
  /** Each bound procedure ends with boxes to sign off, unless the printing says another. */
  readonly signOff: boolean;
  readonly assistance: readonly string[];
  readonly copyright?: string;
}

export interface NumberingStyle {
  readonly steps: 'numbers' | 'letters' | 'decimal';
  readonly substeps: 'numbers' | 'letters' | 'decimal';
  /** restart: each section counts from one; continue: the count runs on through the procedure. */
  readonly sections: 'restart' | 'continue';
}

// ---------------------------------------------------------------- equipment.yaml

export type EnergyKind =
  | 'electrical'
  | 'capacitor'
  | 'pneumatic'
  | 'hydraulic'
  | 'gravity'
  | 'spring'
  | 'steam'
  | 'gas'
  | 'mechanical'
  | 'thermal'
  | 'chemical';

/** Which variants have a thing; undefined: all of the family. */
export interface Fitted {
  readonly models?: readonly string[];
  readonly options?: readonly string[];
}

interface Named {
  readonly name: string;
  readonly aliases: readonly string[];
  readonly origin: Origin;
  readonly fitted?: Fitted;
}

/** A point and the position in which it is safe for one source. */
export interface PointUse {
  readonly point: string;
  readonly safe: string;
}

export interface Source extends Named {
  readonly kind: EnergyKind;
  readonly size: string;
  /** Points that cut it off. */
  readonly isolate: readonly PointUse[];
  /** Points that let the stored part out. */
  readonly relieve: readonly PointUse[];
  /** Points that hold the stored part (props, pins, blocks). */
  readonly restrain: readonly PointUse[];
  /** The stored part is gone after this time once isolated ("5 min"); a wait then relieves. */
  readonly settles?: string;
  /** Has a stored part at all: relieve, restrain or settles given, or said. */
  readonly stored: boolean;
  /** Controls whose movement would show that it is live. */
  readonly tryOut: readonly string[];
  /** Gauges fixed to the right volume. */
  readonly shownBy: readonly string[];
  /** A meter or tester kind proves it ("multimeter"). */
  readonly provedWith: readonly string[];
  readonly canComeBack: boolean;
  readonly restartsByItself: boolean;
  /** Isolated by unplugging: the plug must stay under the worker's control. */
  readonly cordAndPlug: boolean;
}

/** "No air on this machine": the kind is answered. */
export interface NoSource {
  readonly name: string;
  readonly kind: EnergyKind;
  readonly because: string;
  readonly origin: Origin;
}

export type PointRole = 'isolate' | 'relieve' | 'restrain';

/** An isolator, relief valve or restraint. Made from the sources that name it, plus what `points:` adds. */
export interface Point extends Named {
  readonly roles: readonly PointRole[];
  /** All positions known ("off", "on"); the safe ones per source stand in Source. */
  readonly positions: readonly string[];
  readonly lockable: boolean;
  readonly zone?: string;
  readonly behind?: string;
  /** A plug: unplugging it and keeping it counts as isolated and locked. */
  readonly plug: boolean;
}

export interface Control extends Named {
  readonly holdToRun: boolean;
  /** Stays where it is put: must be returned to off before energy comes back. */
  readonly maintained: boolean;
  readonly stops: readonly string[];
  readonly starts: readonly string[];
  readonly positions: readonly string[];
  /** The position that is off or neutral. */
  readonly off?: string;
  readonly zone?: string;
}

export interface Cover extends Named {
  /** The zone it closes. */
  readonly zone?: string;
  /** A cover behind which this cover lies. */
  readonly behind?: string;
  readonly interlocked: boolean;
  /** May be opened while live (no hands reach a hazard through it). */
  readonly openLive: boolean;
  /** Fasteners that belong to it and travel with it. */
  readonly fasteners: readonly string[];
  readonly returnTest?: string;
}

export interface Zone extends Named {
  readonly endangeredBy: readonly string[];
  /** Covers of which at least one has to be open before a hand can reach in; empty: open zone. */
  readonly behind: readonly string[];
}

export interface Part extends Named {
  readonly zone?: string;
  readonly behind?: string;
  /** Loosening or removing it lets this source go. */
  readonly holds?: string;
  /** What must be done after it was disturbed: "leak test", "continuity test". */
  readonly returnTest?: string;
  /** Can be put in positions other than in place ("run position"). */
  readonly positions: readonly string[];
  readonly count?: number;
}

export interface Fastener extends Named {
  readonly count?: number;
  readonly torque?: string;
  readonly condition?: 'dry' | 'lubricated';
  readonly of?: string;
  readonly zone?: string;
  readonly behind?: string;
  readonly holds?: string;
  readonly returnTest?: string;
  /** "lower left" and the like: which of them can be named. */
  readonly places: readonly string[];
}

export interface Gauge extends Named {
  readonly shows: readonly string[];
  readonly zone?: string;
}

export interface Family {
  readonly name: string;
  readonly aliases: readonly string[];
  readonly origin: Origin;
  readonly sources: readonly Source[];
  readonly none: readonly NoSource[];
  readonly points: readonly Point[];
  readonly controls: readonly Control[];
  readonly covers: readonly Cover[];
  readonly zones: readonly Zone[];
  readonly parts: readonly Part[];
  readonly fasteners: readonly Fastener[];
  readonly gauges: readonly Gauge[];
}

export interface Model {
  readonly name: string;
  readonly aliases?: readonly string[];
  readonly family: string;
  readonly origin: Origin;
  /** Attributes as typed: {stroke: "820 mm"}. */
  readonly attributes: Readonly<Record<string, string>>;
  /** Options this model can have. */
  readonly options: readonly string[];
  /** Serial ranges, ordered, no gap, no overlap; empty: one range without bounds. */
  readonly serials: readonly SerialRange[];
}
export interface SerialRange {
  readonly from?: number;
  readonly to?: number;
  readonly attributes: Readonly<Record<string, string>>;
  readonly origin: Origin;
}

/** One machine a technician may stand before. `name` is what people read: "LT-1000", "LT-1000 with heater", "LT-500 up to 4199". */
export interface Variant {
  readonly name: string;
  readonly model: string;
  readonly options: readonly string[];
  readonly serial?: { readonly from?: number; readonly to?: number };
}

/** A family cut to what one variant has. */
export interface Machine extends Omit<Family, 'origin' | 'aliases'> {
  readonly variant: Variant;
  /** Of the library it stands in: it settles the decimal mark of its times. English where not said. */
  readonly language?: string;
}

// ---------------------------------------------------------------- other registers

export interface Tool extends Named {
  /** "torque wrench", "dial indicator", "feeler gauge", "multimeter", "hand tool", ... */
  readonly kind?: string;
  readonly size?: string;
  readonly range?: string;
  readonly resolution?: string;
  readonly calibration?: string;
  /** Reads by touching the machine (contact) or from afar. */
  readonly contact: boolean;
  /** Stays on the machine while in use and is owed out (wedge, jumper, cap, earth lead). */
  readonly temporary: boolean;
  /** Makes energy when used: jack, hoist, hand pump. */
  readonly makes?: EnergyKind;
  readonly protective: boolean;
}

export interface Consumable extends Named {
  readonly kind?: string;
  readonly amount?: string;
  readonly rating?: string;
  readonly safetyData?: string;
  readonly needs: readonly string[];
}

export interface Replacement extends Named {
  readonly number?: string;
  readonly models?: readonly string[];
  /** What it renews: a part name of the family. */
  readonly renews?: string;
  readonly oneUse: boolean;
}

export interface CitedDocument {
  readonly number: string;
  readonly title: string;
  readonly revision?: string;
  readonly ask: string;
  readonly aliases: readonly string[];
  readonly origin: Origin;
}

export interface StandingNotice {
  readonly name: string;
  readonly word: 'danger' | 'warning' | 'caution' | 'notice';
  readonly text: string;
  readonly origin: Origin;
}

export interface Symptom {
  readonly name: string;
  readonly family?: string;
  readonly aliases: readonly string[];
  readonly procedures: readonly {
    readonly number: string;
    readonly models?: readonly string[];
    readonly options?: readonly string[];
    readonly origin: Origin;
  }[];
  readonly origin: Origin;
}

export interface Registers {
  readonly house: House;
  readonly families: readonly Family[];
  readonly models: readonly Model[];
  readonly options: readonly { readonly name: string; readonly aliases: readonly string[]; readonly origin: Origin }[];
  readonly tools: readonly Tool[];
  readonly consumables: readonly Consumable[];
  readonly replacements: readonly Replacement[];
  readonly documents: readonly CitedDocument[];
  readonly notices: readonly StandingNotice[];
  readonly symptoms: readonly Symptom[];
}

// ---------------------------------------------------------------- front matter

/** One line of a tools, parts, consumables list. `span` covers the name as typed. */
export interface ListedName {
  readonly name: string;
  readonly span: Span;
  readonly quantity?: string;
  readonly models?: readonly string[];
  readonly note?: string;
}

export interface Measurement {
  readonly name: string;
  readonly span: Span;
  readonly quantity: string;
  readonly at?: string;
  readonly with?: string;
  /** "table drift-limits" gives `table`; else lower, upper, nominal, tolerance as typed. */
  readonly table?: string;
  readonly lower?: string;
  readonly upper?: string;
  readonly nominal?: string;
  readonly tolerance?: string;
  readonly perModel: readonly {
    readonly model: string;
    readonly lower?: string;
    readonly upper?: string;
    readonly nominal?: string;
    readonly tolerance?: string;
    readonly span: Span;
  }[];
  /** pass/fail instead of a number: what is sensed, what passes */
  readonly sensed?: { readonly pass: string; readonly fail: string };
}

/** Front matter of a procedure, decoded. Fields that are missing or wrong are undefined or empty and reported apart. */
export interface ProcedureHead {
  readonly id: string;
  readonly title: string;
  readonly revision?: string;
  readonly date?: string;
  readonly span: Span;
  readonly idSpan: Span;
  readonly titleSpan: Span;
  readonly models: readonly ListedName[];
  readonly options: readonly ListedName[];
  /** Models or options without which the procedure is not used at all; undefined: all of `models`. */
  readonly onlyOn?: readonly string[];
  readonly symptoms: readonly ListedName[];
  readonly startsWith: 'live' | 'closed' | 'opened and locked out';
  readonly endsWith?: 'closed' | 'opened and locked out' | 'out of service';
  readonly time?: string;
  readonly people?: string;
  /** "authorized person", ... whoever the procedure is written for */
  readonly audience?: string;
  readonly tools: readonly ListedName[];
  readonly consumables: readonly ListedName[];
  readonly parts: readonly ListedName[];
  readonly protection: readonly ListedName[];
  readonly measurements: readonly Measurement[];
  readonly requires: readonly ListedName[];
  /** Declared live task: why it cannot be done dead. */
  readonly liveTask?: { readonly because: string; readonly span: Span };
  /** People who are named roles ("second person"), for locks per role. */
  readonly roles: readonly ListedName[];
}

// ---------------------------------------------------------------- names

export type ThingKind =
  | 'source'
  | 'point'
  | 'control'
  | 'cover'
  | 'zone'
  | 'part'
  | 'fastener'
  | 'gauge'
  | 'tool'
  | 'consumable'
  | 'replacement'
  | 'document'
  | 'procedure'
  | 'measurement'
  | 'section'
  | 'option'
  | 'model'
  | 'role'
  | 'machine';

/** A registered thing as a name leads to it. `family` is set for equipment. */
export interface Thing {
  readonly kind: ThingKind;
  /** The registered name, whatever alias or plural was typed. */
  readonly name: string;
  readonly family?: string;
}

/**
 * The names one procedure may use: its families' equipment, its front matter, the library's registers.
 * Immutable; `version` changes when any name in it does, so readings can be cached by it.
 */
export interface Names {
  readonly version: string;
  /**
   * Longest registered names starting at word `at` of folded words (see `foldWords`): article-free, plural folded.
   * Several things when the name is ambiguous. Empty when none.
   */
  match(
    words: readonly string[],
    at: number,
  ): { readonly length: number; readonly things: readonly Thing[]; readonly plural: boolean } | undefined;
  /** Whole-string look-up as for bracket references: case and spaces folded. */
  lookup(name: string): readonly Thing[];
  /** Nearest registered names for a message; never isolation points (F3). */
  nearest(name: string, kinds?: readonly ThingKind[]): readonly string[];
  /** Things of these kinds whose name ends in these words: "fan shaft" for "shaft". In order of the alphabet. */
  ending(name: string, kinds: readonly ThingKind[]): readonly Thing[];
}

/** Front matter of a bound guide, decoded. */
export interface GuideHead {
  readonly id: string;
  readonly title: string;
  readonly subtitle?: string;
  readonly revision?: string;
  readonly date?: string;
  readonly language?: string;
  readonly paper?: Paper;
  readonly binding?: 'left' | 'top' | 'none';
  readonly duplex: boolean;
  readonly models: readonly string[];
  readonly span: Span;
  readonly idSpan: Span;
  readonly titleSpan: Span;
}
