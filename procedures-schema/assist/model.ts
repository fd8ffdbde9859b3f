/**
 * What the help for a writer gives to a page: plain data that can be copied between threads. Offsets are UTF-16 units of a file's text
 * after its byte-order mark, lines count from 1. Holds no rule; each function fills these in its own file.
 */
import type { Severity, Span, TextEdit } from '../finding.ts';
import type { ShownBand } from '../flow/index.ts';
import type { ThingKind } from '../registers/model.ts';

// ---------------------------------------------------------------- edits

/** A text of the library as it is now. */
export interface LibraryText {
  readonly path: string;
  readonly text: string;
}

/** Edits of one file, bound to the text they were made for by its key (`textKey`). */
export interface FileEdits {
  readonly file: string;
  readonly base: string;
  readonly edits: readonly TextEdit[];
}

/** One changed stretch of lines, as a preview shows it. `line` is the first line of `before`. */
export interface ChangedLines {
  readonly line: number;
  readonly before: readonly string[];
  readonly after: readonly string[];
}

export interface FilePreview extends FileEdits {
  readonly lines: readonly ChangedLines[];
}

/** A change of several files with what it does, or why it cannot be done. */
export type Proposal =
  | { readonly ok: true; readonly title: string; readonly files: readonly FilePreview[] }
  | { readonly ok: false; readonly reason: string };

// ---------------------------------------------------------------- margin

export interface Margin {
  readonly file: string;
  readonly variants: readonly {
    readonly name: string;
    readonly verdict: 'proved' | 'refuted' | 'not proved';
    readonly because?: string;
  }[];
  /** The variant whose band is shown; absent: the worst of all. */
  readonly variant?: string;
  readonly lines: readonly MarginLine[];
  /** Names that no register knows, in order of the text. */
  readonly settle: readonly NameToSettle[];
}

/** What stands beside one step. A step, a substep and a step in a branch each have their own. */
export interface MarginLine {
  /** Line of the step's label, and the last line of the step with all that belongs to it. */
  readonly line: number;
  readonly endLine: number;
  readonly span: Span;
  /** As computed: "4", "4b". */
  readonly label: string;
  /** With its section where the label alone is ambiguous: "Check 4". */
  readonly fullLabel: string;
  /** As typed, marker included: "4.", "Step C:". */
  readonly typed: string;
  readonly section: string;
  readonly id?: string;
  /** 0 for a step of a section, 1 for its substeps. */
  readonly depth: number;
  readonly readings: readonly SentenceReading[];
  /** What is measured here, and its limits: a line for each model and range of serial numbers where they differ. */
  readonly measured: readonly { readonly name: string; readonly limits: readonly string[] }[];
  /** Required state when the step begins, and when the one after it in the text begins; `after` is absent at a section's end. */
  readonly before: ShownBand;
  readonly after?: ShownBand;
  /** What is shown: the worst from the step's beginning to its end, its substeps included. */
  readonly beside: ShownBand;
  /** The words call it a run for a test. */
  readonly testRun: boolean;
  readonly hands: readonly HandsIn[];
  readonly settle: readonly NameToSettle[];
}

export interface HandsIn {
  /** '' for a thing without a zone: it lies in the whole machine. */
  readonly zone: string;
  /** What is touched there. */
  readonly things: readonly string[];
  /** Sources that endanger a hand there. */
  readonly sources: readonly string[];
}

export type ReadingStatus = 'read' | 'partly' | 'unread' | 'remark';

/** How one sentence was read. */
export interface SentenceReading {
  readonly span: Span;
  readonly line: number;
  readonly text: string;
  readonly kind: 'lead' | 'condition' | 'branch' | 'bullet' | 'paragraph';
  readonly status: ReadingStatus;
  /** One entry an action: "isolates mains supply: main isolator off". */
  readonly words: readonly string[];
  /** Unread or partly read: what stood in the way. */
  readonly why?: string;
  /** It earns safety: the proof rests on it. Such a reading is accepted by a person once. */
  readonly earns: boolean;
  /** The same sentence read the same way has the same key, in every file: a page keeps the keys that were accepted. */
  readonly key: string;
  readonly accepted: boolean;
  /** Said outright by the writer (F14). */
  readonly override?: { readonly reads: string; readonly because: string; readonly by: string };
}

// ---------------------------------------------------------------- names to settle

export interface NameToSettle {
  readonly name: string;
  readonly span: Span;
  readonly line: number;
  readonly inBrackets: boolean;
  /** Registered names that are near; never isolation points. */
  readonly nearest: readonly string[];
  /** Best guess first. */
  readonly guesses: readonly KindGuess[];
}

/** Where a new name would be written down. */
export interface KindGuess {
  readonly kind: ThingKind;
  /** "a tool", "a part of the live-roller conveyor" */
  readonly words: string;
  readonly family?: string;
  readonly file: string;
}

// ---------------------------------------------------------------- completion

export type CompletionKind =
  | ThingKind
  | 'step'
  | 'table'
  | 'figure'
  | 'unit'
  | 'field'
  | 'value'
  | 'attribute'
  | 'notice'
  | 'instruction'
  | 'text';

export interface Completion {
  readonly kind: CompletionKind;
  readonly label: string;
  /** One line: what it is. */
  readonly detail: string;
  /** More, for a panel beside the list. */
  readonly note?: string;
  readonly insert: string;
  /** Where the caret goes, counted from the start of `insert`; absent: to its end. */
  readonly caret?: number;
  readonly replace: Span;
}

export interface Completions {
  /** What the caret stands in; 'none' offers nothing. */
  readonly place:
    | 'reference'
    | 'front matter'
    | 'register'
    | 'braces'
    | 'notice'
    | 'unit'
    | 'step start'
    | 'branch'
    | 'table'
    | 'prose'
    | 'none';
  /** Best first. */
  readonly items: readonly Completion[];
  /** More would fit than are given. */
  readonly more: boolean;
}

// ---------------------------------------------------------------- hover, going there, uses

export interface Place {
  readonly file: string;
  readonly span: Span;
  readonly line: number;
}

/** A use of a name, with its line as text. */
export interface Use extends Place {
  readonly text: string;
  readonly role: 'definition' | 'reference' | 'mention' | 'field' | 'table';
}

export interface Hover {
  readonly span: Span;
  readonly kind: 'thing' | 'reference' | 'quantity' | 'reading' | 'field' | 'finding';
  readonly title: string;
  /** Each a short line of plain text. */
  readonly lines: readonly string[];
  readonly goTo?: Place;
}

/** What may be asked for, renamed, and gone to: a thing of the registers, or an address of one file. */
export type Named =
  | { readonly kind: 'thing'; readonly thing: ThingKind; readonly name: string; readonly family?: string }
  | { readonly kind: 'measurement' | 'role'; readonly file: string; readonly name: string }
  | { readonly kind: 'step' | 'table' | 'figure'; readonly file: string; readonly id: string }
  | { readonly kind: 'section'; readonly file: string; readonly id: string; readonly title: string }
  | { readonly kind: 'document'; readonly number: string }
  | { readonly kind: 'symptom'; readonly name: string }
  /** What models of a family differ in, and formulas of limits use. */
  | { readonly kind: 'attribute'; readonly family: string; readonly name: string };

/** One of the other names that a register gives to a thing. */
export interface Alias {
  readonly of: Named;
  readonly alias: string;
}

// ---------------------------------------------------------------- findings

export interface QuickFix {
  readonly title: string;
  readonly check: string;
  readonly severity: Severity;
  readonly files: readonly FileEdits[];
}
