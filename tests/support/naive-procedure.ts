/**
 * A random procedure as the naive checker walks it: sections of steps, each with one line of actions and conditions. The leaves are the
 * actions and conditions of the reading, all that it shares with the proof. What they do is said in naive-effects.ts.
 */
import type { Action, Condition, ProcedureHead, Thing } from '../../procedures-schema/index.ts';

/** One instruction with a number of its own; `words` is the sentence. */
export interface NaiveAct {
  readonly uid: number;
  readonly action: Action;
  readonly words: string;
  /** Things named as the place of the action. */
  readonly nearby?: readonly Thing[];
  /** The words depend on a state or a fact, even where the condition stands before the action. */
  readonly asked?: boolean;
}

export interface NaiveBranch {
  readonly uid: number;
  readonly when?: Condition;
  /** More that must hold. */
  readonly and?: readonly Condition[];
  readonly act: NaiveAct;
}

export type NaiveLine =
  /** Sentences in a row. "If" sentences next to each other are a row: the first that holds is done. */
  | { readonly kind: 'sentences'; readonly acts: readonly NaiveAct[] }
  /** Bullets: the first that holds is taken. Without a condition: "otherwise". */
  | { readonly kind: 'bullets'; readonly branches: readonly NaiveBranch[] };

export interface NaiveStep {
  readonly id: string;
  readonly line: NaiveLine;
  /** The step it is a piece of, where steps are laid out sentence by sentence. */
  readonly of?: string;
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
  readonly startsWith: ProcedureHead['startsWith'];
  readonly endsWith: NonNullable<ProcedureHead['endsWith']>;
  readonly sections: readonly NaiveSection[];
  /** Declared a live task. */
  readonly live?: boolean;
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
