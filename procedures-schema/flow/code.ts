/**
 * A procedure as a flat list of instructions: what is done, what is decided, where the walk goes on. The graph of the proof.
 * An instruction's number is its node; `next` is the node after it. Says nothing about energy.
 */
import type { Span } from '../finding.ts';
import type { LabelledStep } from '../numbering/index.ts';
import type { Action, Condition } from '../reading/index.ts';
import type { Thing } from '../registers/index.ts';
import type { FlowPlace } from './model.ts';

export type Instruction =
  /** A step begins: what walks are told by and counted in. */
  | { readonly op: 'step'; readonly place: FlowPlace; readonly at: LabelledStep; readonly next: number }
  | { readonly op: 'act'; readonly place: FlowPlace; readonly action: Action; readonly facts: ActFacts; readonly next: number }
  /** `yes` where the condition holds, else `no`. */
  | {
      readonly op: 'branch';
      readonly place: FlowPlace;
      readonly condition: Condition;
      readonly note: string;
      /** Asked only where the answer can be known: an outcome nobody has read yet does not hold, and that is no fault here. */
      readonly ifKnown?: true;
      readonly yes: number;
      readonly no: number;
    }
  /** The last of a row of branches failed: an outcome without a way on. `subject` is the outcome's; '' where the branches go by model. */
  | { readonly op: 'open'; readonly place: FlowPlace; readonly subject: string; readonly next: number }
  | { readonly op: 'jump'; readonly place: FlowPlace; readonly next: number }
  /** A procedure of its own is entered or left: its start must be established. */
  | { readonly op: 'enter'; readonly place: FlowPlace; readonly number: string; readonly startsWith: string; readonly next: number }
  | {
      readonly op: 'violation';
      readonly place: FlowPlace;
      readonly rule: 'falls-into-aside' | 'recursion' | 'reverse-unsaid' | 'repeat-unmeasured';
      readonly thing: string;
      readonly missing: readonly string[];
      readonly next: number;
    }
  /** One procedure of a visit is done: the technician stops here, or goes on to the next, whose start must be there. */
  | {
      readonly op: 'between';
      readonly place: FlowPlace;
      /** The procedure that comes next; undefined: none. */
      readonly number: string | undefined;
      readonly startsWith: string;
      readonly next: number;
    }
  | { readonly op: 'end'; readonly place: FlowPlace; readonly end: EndKind; readonly endsWith: string };

export type EndKind = 'normal' | 'stop and call' | 'out of service' | 'hand-over';

/** What an action's surroundings say that its own words do not. */
export interface ActFacts {
  /** The words of the sentence, for return tests and standing checks: of a reading or a test run; empty for what is not judged by its words. */
  readonly words: string;
  /** Title of the section. */
  readonly heading: string;
  /** A notice to stand clear guards this step, or the test run that follows. */
  readonly standClear: boolean;
  /** Parts, fasteners and zones named with the action as its place: "put the pick-up on the fan motor" reaches the fan motor. */
  readonly nearby: readonly Thing[];
  /** A test run with covers off is announced from here on in this section. */
  readonly testAhead: boolean;
}

export interface Program {
  readonly code: readonly Instruction[];
  readonly entry: number;
  /** Steps in order, to say which no walk reaches. */
  readonly steps: readonly LabelledStep[];
  /** Several procedures in turn: each start is asked for, the closed one too. */
  readonly visit: boolean;
  /** Not all that is called could be copied in: nothing is proved by it. */
  readonly cut: boolean;
}

export function placeOf(file: string, step: LabelledStep | undefined, span: Span, action?: Action): FlowPlace {
  return { file, span, ...(step ? { step } : {}), ...(action ? { action } : {}) };
}
