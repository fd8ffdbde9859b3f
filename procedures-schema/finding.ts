/**
 * The finding: what a check tells a person, as plain data. Leaves rendering (text, JSON, margin) to the borders.
 */

/** A place between two characters. `line` and `column` count from 1; `offset` counts UTF-16 units of the text after a byte-order mark. */
export interface Position {
  readonly line: number;
  readonly column: number;
  readonly offset: number;
}

/** Half-open: `end` is the place after the last character. */
export interface Range {
  readonly start: Position;
  readonly end: Position;
}

/** The same as offsets only; the tree carries spans, the border turns them into ranges. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** error blocks publishing; warning wants an answer; advice never counts. */
export type Severity = 'error' | 'warning' | 'advice';

/** Replaces [start, end) of one file by `text`. Offsets as in Position. */
export interface TextEdit {
  readonly file: string;
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

export interface Fix {
  /** What the fix does, as a button would say it: "Write lbf instead of lb". */
  readonly title: string;
  readonly edits: readonly TextEdit[];
}

export interface Related {
  readonly file: string;
  readonly span: Span;
  readonly message: string;
}

/** Each answer stands with its own question: a "not" before two of them could be read over both. */
export interface WalkAnswer {
  readonly asked: string;
  readonly yes: boolean;
}

/** One step of a counter-walk, in the procedure's own labels and words. */
export interface WalkStep {
  readonly file: string;
  readonly section: string;
  readonly label: string;
  readonly text: string;
  /** What is asked after this step on the walk, in the page's words ("it is over the limit"), and what was answered. */
  readonly answers?: readonly WalkAnswer[];
  readonly span: Span;
}

/** What a check yields. The runner adds check, severity and file where they are not given. */
export interface Draft {
  readonly file: string;
  readonly span: Span;
  /** Where and what, in one sentence, without the severity: "Step 7 opens the skirt before the platform is held." */
  readonly message: string;
  /** What stands there now. */
  readonly actual?: string;
  /** What would be right. */
  readonly expected?: string;
  /** Overrides the check's standing "why it matters". */
  readonly why?: string;
  /** Only for checks whose severity depends on the case (rule R: controls off). */
  readonly severity?: Severity;
  readonly fix?: Fix;
  readonly related?: readonly Related[];
  /** Full labels of the steps concerned, such as "Renew the seal 4". */
  readonly steps?: readonly string[];
  /** Variants on which it holds; empty means all. */
  readonly variants?: readonly string[];
  readonly walk?: readonly WalkStep[];
}

export interface Finding {
  readonly check: string;
  readonly severity: Severity;
  readonly file: string;
  readonly span: Span;
  readonly range: Range;
  readonly message: string;
  readonly actual?: string;
  readonly expected?: string;
  readonly why: string;
  readonly fix?: Fix;
  readonly related: readonly Related[];
  readonly steps: readonly string[];
  readonly variants: readonly string[];
  readonly walk: readonly WalkStep[];
}
