/**
 * A random procedure as the naive checker walks it: sections of steps, each with one line of actions and conditions. The leaves are the
 * actions and conditions of the reading, all that it shares with the proof. What they do is said in naive-effects.ts.
 */
import type { Action, Condition } from '../../procedures-schema/index.ts';

/** One instruction with a number of its own; `words` is the sentence. */
export interface NaiveAct {
  readonly uid: number;
  readonly action: Action;
  readonly words: string;
}

export type NaiveLine =
  /** Sentences in a row. "If" sentences next to each other are a row: the first that holds is done. */
  | { readonly kind: 'sentences'; readonly acts: readonly NaiveAct[] }
  /** Bullets: the first that holds is taken. Without a condition: "otherwise". */
  | { readonly kind: 'bullets'; readonly branches: readonly { readonly uid: number; readonly when?: Condition; readonly act: NaiveAct }[] };

export interface NaiveStep {
  readonly id: string;
  readonly line: NaiveLine;
  /** A notice to stand clear guards it. */
  readonly standClear: boolean;
}

export interface NaiveSection {
  readonly title: string;
  readonly aside: boolean;
  readonly steps: readonly NaiveStep[];
}

export interface NaiveProcedure {
  readonly number: string;
  readonly startsWith: 'closed' | 'opened and locked out';
  readonly endsWith: 'closed' | 'opened and locked out' | 'out of service';
  readonly sections: readonly NaiveSection[];
}

/** What one rule was broken by: rule, thing and cause, with the least number of steps that lead there. */
export interface NaiveFinding {
  readonly rule: string;
  readonly thing: string;
  /** Number of the action that last set the missing bit wrong; -1: so from the start. */
  readonly cause: number;
  /** Where no bit is to blame, the place itself tells findings apart. */
  readonly at: number;
  readonly length: number;
}
