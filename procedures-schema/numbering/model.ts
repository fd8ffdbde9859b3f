/**
 * Labels and where references lead. Labels are computed over all variants, so they are the same in every edition.
 */
import type { Span } from '../finding.ts';
import type { Section, Step } from '../format/index.ts';

/** A step with its place in the sequence. Substeps are entries of their own, after their parent. */
export interface LabelledStep {
  readonly step: Step;
  readonly section: Section;
  /** "4", "C", "4b", "3.2": as printed beside the step. */
  readonly label: string;
  /** With its section where a bare label is ambiguous in the file: "Check 4". */
  readonly fullLabel: string;
  /** Ordinals from the outermost list in: [4, 2]. */
  readonly path: readonly number[];
  readonly parent?: LabelledStep;
  /** Index in document order, over all sections. */
  readonly order: number;
  /** Inside a branch bullet of the parent. */
  readonly branch?: number;
  /** Ordinal when each branch bullet starts from one again: writers number that way, and it is accepted as typed. */
  readonly restart?: number;
}

export interface Labels {
  readonly steps: readonly LabelledStep[];
  readonly byStep: ReadonlyMap<Step, LabelledStep>;
  readonly byId: ReadonlyMap<string, LabelledStep>;
}

/** Where a reference or a typed numeral leads. */
export type Resolved =
  | { readonly kind: 'step'; readonly step: LabelledStep }
  | { readonly kind: 'range'; readonly from: LabelledStep; readonly to: LabelledStep }
  | { readonly kind: 'section'; readonly section: Section; readonly document?: string }
  | { readonly kind: 'document'; readonly number: string }
  | { readonly kind: 'dead'; readonly why: string; readonly nearest?: string }
  | { readonly kind: 'ambiguous'; readonly candidates: readonly LabelledStep[] };

/** A typed label or reference in prose, found and compared with what it means. */
export interface TypedReference {
  readonly span: Span;
  readonly text: string;
  readonly resolved: Resolved;
}
