/** The form of a checklist file, as procedures-schema/schemas/checklist.schema.json has it. Plain data. */
import type { SignalWord } from '../../procedures-schema/index.ts';

export interface Checklist {
  readonly format: 'handsclear-checklist/1';
  readonly document: {
    readonly number: string;
    readonly title: string;
    readonly revision: string;
    readonly date: string;
    readonly publisher: string;
    readonly language: string;
  };
  /** SHA-256 of everything else, as canonical JSON. */
  readonly contentHash: string;
  readonly model?: string;
  readonly machines: readonly string[];
  readonly draft: boolean;
  readonly draftLine?: 'DRAFT: NOT FOR FIELD USE';
  readonly cautions: readonly string[];
  readonly startsWith?: string;
  readonly endsWith?: string;
  readonly time?: string;
  readonly people?: string;
  readonly audience?: string;
  readonly requires?: readonly string[];
  readonly liveTask?: string;
  readonly tools: readonly ChecklistThing[];
  readonly consumables: readonly ChecklistThing[];
  readonly parts: readonly ChecklistThing[];
  readonly protection: readonly ChecklistThing[];
  readonly sections: readonly ChecklistSection[];
}

export interface ChecklistThing {
  readonly name: string;
  readonly quantity?: string;
  readonly detail?: string;
  readonly models?: readonly string[];
  readonly note?: string;
}

export interface ChecklistSection {
  readonly title: string;
  readonly id: string;
  readonly aside: boolean;
  readonly items: readonly (ChecklistNotice | ChecklistStep | ChecklistBlock)[];
}

export interface ChecklistNotice {
  readonly kind: 'notice';
  readonly word: SignalWord;
  readonly panel: string;
  readonly text: string;
}

export type ChecklistBlock =
  | { readonly kind: 'text'; readonly text: string }
  | {
      readonly kind: 'table';
      readonly id?: string;
      readonly caption?: string;
      readonly head: readonly string[];
      readonly rows: readonly (readonly string[])[];
    }
  | { readonly kind: 'figure'; readonly path: string; readonly alt: string; readonly caption?: string };

export interface ChecklistStep {
  readonly kind: 'step';
  readonly label: string;
  readonly fullLabel: string;
  readonly id?: string;
  readonly text: string;
  readonly onlyOn?: readonly string[];
  readonly condition?: string;
  readonly notices: readonly ChecklistNotice[];
  readonly entry: ChecklistEntry;
  /** Address that opens the film where the step is shown. */
  readonly film?: string;
  readonly details?: readonly ChecklistBlock[];
  readonly substeps?: readonly ChecklistStep[];
  readonly branches?: readonly ChecklistBranch[];
}

export type ChecklistEntry =
  | { readonly kind: 'tick' }
  | {
      readonly kind: 'reading';
      readonly measurement: string;
      readonly quantity: string;
      readonly at?: string;
      readonly with?: string;
      readonly unit: string;
      readonly limits: readonly ChecklistLimit[];
    }
  | { readonly kind: 'verdict'; readonly measurement: string; readonly at?: string; readonly pass: string; readonly fail: string };

export interface ChecklistLimit {
  /** Left out: all models. */
  readonly model?: string;
  /** Only these serial numbers of the model. */
  readonly serial?: { readonly from?: number; readonly to?: number };
  readonly lower?: string;
  readonly upper?: string;
  readonly text: string;
}

export interface ChecklistBranch {
  readonly condition: string;
  readonly otherwise: boolean;
  readonly outcome?: 'under' | 'within' | 'over' | 'pass' | 'fail';
  readonly text: string;
  readonly notices: readonly ChecklistNotice[];
  readonly target?: string;
  readonly substeps?: readonly ChecklistStep[];
}
