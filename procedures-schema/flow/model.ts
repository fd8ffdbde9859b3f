/**
 * The border of the proof: what goes in (a procedure's labelled steps with their readings, the machines) and what comes out
 * (violations with a cause and the shortest walk). `flow/` words nothing; `checks/` does.
 */
import type { Span, WalkAnswer } from '../finding.ts';
import type { Branch, Prose, Section, StepChild } from '../format/tree.ts';
import type { LabelledStep, Labels, Resolved } from '../numbering/model.ts';
import type { Action, Reading, Target } from '../reading/action.ts';
import type { Measurement, ProcedureHead } from '../registers/model.ts';

/** One procedure, read: all that the proof needs of it. */
export interface ReadProcedure {
  readonly file: string;
  readonly head: ProcedureHead;
  readonly sections: readonly Section[];
  readonly labels: Labels;
  readonly steps: readonly ReadStep[];
  readonly measurements: readonly Measurement[];
  /** Resolves an action's target from the step it stands in. */
  readonly resolve: (target: Target, from: LabelledStep) => Resolved;
}

/** A step with the reading of its lead and, in order, of what hangs below it. */
export interface ReadStep {
  readonly at: LabelledStep;
  readonly lead: Reading;
  /** Notices that guard it: they change no state but count for rule R (stand clear). */
  readonly notices: readonly { readonly word: string; readonly text: string; readonly standClear: boolean; readonly span: Span }[];
  readonly children: readonly ReadChild[];
}
export type ReadChild =
  | { readonly kind: 'substeps'; readonly steps: readonly ReadStep[] }
  | {
      readonly kind: 'branches';
      readonly branches: readonly {
        readonly branch: Branch;
        readonly condition: Reading;
        readonly lead: Reading;
        readonly children: readonly ReadChild[];
      }[];
    }
  | {
      readonly kind: 'objects';
      readonly items: readonly Reading[] /** Where each item's words stand; absent in hand-made inputs. */;
      readonly proses?: readonly Prose[];
    }
  | { readonly kind: 'prose'; readonly child: StepChild; readonly reading: Reading };

/** Rules of semantics.md; each is worded by one check of the same subject. */
export type Rule =
  | 'H-isolated'
  | 'H-locked'
  | 'H-relieved'
  | 'H-proved' // rule H, the first that is missing
  | 'proof-early' // L5: proved before everything else of Safe held
  | 'proof-used' // L6: proof of a source that can come back is used up
  | 'earth-untested' // electrical profile: earthed before it was tested dead
  | 'proof-empty' // a try-out that could show nothing
  | 'point-locked' // a point is moved with a lock on it: locked before isolating, restored before unlocking
  | 'R-people'
  | 'R-tools'
  | 'R-temporary'
  | 'R-controls'
  | 'R-told'
  | 'R-covers' // rule R
  | 'E-cover'
  | 'E-part'
  | 'E-fastener'
  | 'E-temporary'
  | 'E-lock'
  | 'E-point'
  | 'E-return-test'
  | 'E-told' // rule E
  | 'close-unopened' // 13
  | 'outcome-open' // 16: an outcome with no branch and no general sentence after it
  | 'outcome-unread' // an outcome used before it was measured
  | 'repeat-unmeasured' // 17
  | 'reverse-unsaid' // 17: no inverse
  | 'no-way-out' // 18
  | 'falls-into-aside' // F9
  | 'never-reached' // a step no walk on any variant reaches
  | 'recursion' // 14
  | 'requires' // 14: end of P does not imply this start
  | 'starts-with' // caller does not establish the callee's start
  | 'ends-with' // the end reached is not the one said
  | 'live-task' // 11: shape of a declared live task
  | 'unread' // 19: an unread sentence exposes
  | 'bound'; // past the bound: not proved

export interface Violation {
  readonly rule: Rule;
  /** The source, cover, part, fastener, control, measurement or step concerned. */
  readonly thing: string;
  readonly zone?: string;
  readonly at: FlowPlace;
  /** The step that last set the missing bit wrong; undefined: so from the start. */
  readonly cause?: FlowPlace;
  readonly walk: readonly WalkPoint[];
  readonly variants: readonly string[];
  /** Further places with the same cause. */
  readonly later: number;
  readonly severity: 'error' | 'warning';
  /** Points still wrong, in register order, for the message and the fix. */
  readonly missing: readonly string[];
  /** All of them carry a lock, of somebody else. */
  readonly others?: true;
  /** Of an unread sentence: what may follow only from its not being read, and is told with it and not by itself. */
  readonly hangs?: readonly Violation[];
}
export interface FlowPlace {
  readonly file: string;
  readonly step?: LabelledStep;
  readonly action?: Action;
  readonly span: Span;
}
export interface WalkPoint {
  readonly place: FlowPlace;
  readonly answers?: readonly WalkAnswer[];
}

export type Verdict = 'proved' | 'refuted' | 'not proved';
/** cut: isolated, locked, let out or held, but not proved; nobody may take it as dead yet (29 CFR 1910.147(d)(6)). */
export type Band = 'live' | 'cut' | 'safe' | 'open';

export interface FlowResult {
  readonly verdicts: readonly { readonly variant: string; readonly verdict: Verdict; readonly because?: string }[];
  readonly violations: readonly Violation[];
  readonly explored: { readonly states: number; readonly transitions: number };
  readonly unreached: readonly LabelledStep[];
  /** The worst state in which each step is begun, over all walks on all variants; a step no walk reaches is absent. */
  readonly bands: ReadonlyMap<LabelledStep, Band>;
  /** The worst state from the beginning of a step to its end: a step that gives the machine its power back is live. */
  readonly during: ReadonlyMap<LabelledStep, Band>;
}
