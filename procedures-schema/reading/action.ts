/**
 * What a step sentence was read as. Plain data; the reader decides kind, thing and position from lexicon and registers,
 * `flow/` decides what that does to the state. Wrong is worse than unread.
 */
import type { Span } from '../finding.ts';
import type { Thing } from '../registers/model.ts';
import type { ActionKind } from './action-kinds.ts';

/** A thing acted on. `count` as written ("four"), `all` for "all", `except` for "all but the lower left". */
export interface ThingUse {
  readonly thing: Thing;
  readonly count?: number;
  readonly all?: boolean;
  readonly place?: string;
  readonly except?: string;
  /** Offsets into the prose text. */
  readonly at: number;
  readonly end: number;
}

export interface Action {
  readonly kind: ActionKind;
  readonly things: readonly ThingUse[];
  /** Position named or implied ("off", "open", "in", "run"). */
  readonly position?: string;
  /** Tools, instruments, consumables named with "with", "using". */
  readonly with: readonly ThingUse[];
  /** A hand must touch the thing. */
  readonly contact: boolean;
  /** Said to be done from outside ("from outside the fence"). */
  readonly outside: boolean;
  /** Quantities named with the action, as typed: torque, time, pressure, amount. */
  readonly amounts: readonly { readonly text: string; readonly at: number; readonly end: number }[];
  /** Tightening stage; a plain "tighten" is final. */
  readonly stage?: 'hand' | 'first' | 'final';
  /** "in a cross pattern", "in reverse order" */
  readonly manner?: string;
  readonly target?: Target;
  /** All must hold for the action to be done. */
  readonly when: readonly Condition[];
  readonly until?: Condition;
  /** Who does it, where not the reader: a declared role. */
  readonly role?: string;
  /** What is seen when it went well ("the platform must not move", "0 bar"): a confirmation, no state. */
  readonly result?: string;
  /** Offsets into the prose text. */
  readonly at: number;
  readonly end: number;
}

/** Where an action sends the reader. Typed numerals are kept as typed; `numbering/` resolves them. */
export type Target =
  | { readonly kind: 'step-id'; readonly id: string }
  | { readonly kind: 'steps-id'; readonly from: string; readonly to: string }
  | { readonly kind: 'typed-step'; readonly label: string; readonly section?: string }
  | { readonly kind: 'typed-steps'; readonly from: string; readonly to: string; readonly section?: string }
  | { readonly kind: 'section'; readonly title?: string; readonly id?: string; readonly document?: string }
  | { readonly kind: 'document'; readonly number: string };

export type Condition =
  | {
      readonly kind: 'variant';
      readonly models: readonly string[];
      readonly options: readonly string[];
      readonly serial?: { readonly from?: number; readonly to?: number };
      readonly negated: boolean;
      readonly text: string;
    }
  | { readonly kind: 'fact'; readonly key: string; readonly negated: boolean; readonly text: string }
  /** `subject` is the measurement or the sensed thing; undefined: the last one measured. */
  | {
      readonly kind: 'outcome';
      readonly subject?: string;
      readonly outcome: 'under' | 'within' | 'over' | 'pass' | 'fail' | 'not-within';
      readonly text: string;
    }
  /** Decided by the state of a thing: "if the valve is open", "unless already shut". */
  | { readonly kind: 'state'; readonly thing: Thing; readonly state: string; readonly negated: boolean; readonly text: string }
  /** The words could not be read as any of these. Taken as a fact keyed by its words, unsure. */
  | { readonly kind: 'unread'; readonly text: string };

export type SentenceStatus =
  | 'read' // every verb resolved
  | 'confirmation' // check, ensure, verify: establishes nothing
  | 'prohibition' // do not ...: changes nothing
  | 'remark' // names nothing known and uses no lexicon verb
  | 'unread'; // names a known thing or uses a lexicon verb and is not resolved

export interface Sentence {
  readonly status: SentenceStatus;
  readonly text: string;
  /** Offsets into the prose text. */
  readonly at: number;
  readonly end: number;
  readonly actions: readonly Action[];
  /** For unread: what stood in the way, for the writer. For known and missing names: see `unknown`. */
  readonly why?: string;
  readonly unknown: readonly { readonly text: string; readonly at: number; readonly end: number }[];
  /** Names that match two kinds of thing. */
  readonly ambiguous: readonly { readonly text: string; readonly things: readonly Thing[]; readonly at: number; readonly end: number }[];
  /** All registered things named anywhere in it, resolved or not: what an unread sentence exposes. */
  readonly mentions: readonly ThingUse[];
  /** What the writer said outright (F14). */
  readonly override?: { readonly reads: string; readonly because: string; readonly by: string; readonly span: Span };
  /** "Remove:" or "Clean the following:": a verb that waits for the bullets below to name its objects. */
  readonly hanging?: { readonly verb: string; readonly particle?: string };
}

/** The reading of one prose run (a step's lead, a branch's lead, a bullet). */
export interface Reading {
  readonly sentences: readonly Sentence[];
  /** Set when the prose was read as a branch's condition (context kind `condition`): all must hold. */
  readonly when?: readonly Condition[];
  /** What "it"/"them" would stand for after this prose, for the next one. */
  readonly carry?: Thing;
  /** What "both" would stand for: points that were moved together, last. */
  readonly carryAll?: readonly Thing[];
}

export type { ActionKind };
