/**
 * The one typed tree of a procedure, guide or register file. Plain data, readonly; every node has a span of
 * UTF-16 offsets into `SourceText.text`. Line and column come from `SourceText` through `positionAt`.
 * Says what was written; what it means (names, labels, actions) stands beside it, never on it.
 */
import type { Span } from '../finding.ts';

/** Text of one file. `text` has no byte-order mark; `bom` remembers it for writing back. CRLF is kept. */
export interface SourceText {
  readonly path: string;
  readonly text: string;
  readonly bom: boolean;
  /** Offset of the first character of each line. */
  readonly lineStarts: readonly number[];
}

// ---------------------------------------------------------------- inline

/**
 * Running text of one block, read for people and for the reader: markup taken out, line breaks folded to one space,
 * escapes undone. `segments` map offsets of `text` back to the source; `marks` say what stood there.
 */
export interface Prose {
  readonly span: Span;
  readonly text: string;
  readonly segments: readonly { readonly at: number; readonly source: number; readonly length: number }[];
  readonly marks: readonly Mark[];
}

/** A marked stretch of a Prose. `at`..`end` are offsets of Prose.text; `span` of the source, brackets included. */
export type Mark = StrongMark | EmMark | CodeMark | ReferenceMark;
interface MarkBase {
  readonly at: number;
  readonly end: number;
  readonly span: Span;
}
export interface StrongMark extends MarkBase {
  readonly kind: 'strong';
}
export interface EmMark extends MarkBase {
  readonly kind: 'em';
}
export interface CodeMark extends MarkBase {
  readonly kind: 'code';
}
/**
 * `[...]`. Prose.text holds the content without the brackets at `at`..`end`.
 * `form` is what can be said from this file alone (F3); names are looked up later.
 */
export interface ReferenceMark extends MarkBase {
  readonly kind: 'reference';
  /** The content as written, spaces folded. */
  readonly content: string;
  readonly form: ReferenceForm;
}
export type ReferenceForm =
  /** [step #read], [step read]: an id of this file or, with document, of another */
  | { readonly kind: 'step'; readonly id: string }
  /** [steps #a to #b] */
  | { readonly kind: 'steps'; readonly from: string; readonly to: string }
  /** [section Close up], [section #close], [OM-2220: Title] */
  | { readonly kind: 'section'; readonly title?: string; readonly id?: string; readonly document?: string }
  | { readonly kind: 'table'; readonly id: string }
  | { readonly kind: 'figure'; readonly id: string }
  /** digits alone: a callout of a figure */
  | { readonly kind: 'callout'; readonly number: string }
  /** a quantity with a unit: the second value of the one before */
  | { readonly kind: 'second-value'; readonly value: string }
  /** looked up whole: register name or alias, front-matter name, document number, section title of this file */
  | { readonly kind: 'name'; readonly name: string };

// ---------------------------------------------------------------- attributes

/** `{#id key=value key="v w" flag}`. Values are undefined for flags. */
export interface Attributes {
  readonly span: Span;
  readonly id?: { readonly value: string; readonly span: Span };
  readonly entries: readonly { readonly key: string; readonly value?: string; readonly span: Span }[];
}

// ---------------------------------------------------------------- blocks

export type Block = Paragraph | StepList | BulletList | Notice | Table | Figure | CodeBlock;

export interface Paragraph {
  readonly kind: 'paragraph';
  readonly span: Span;
  readonly prose: Prose;
  /** `{#id}` at its end, not part of the prose: names the table that stands next to it. */
  readonly attributes?: Attributes;
}

export interface CodeBlock {
  readonly kind: 'code';
  readonly span: Span;
  readonly value: string;
}

/** Bullets in prose sections, notices and guides: no steps in them. */
export interface BulletList {
  readonly kind: 'bullets';
  readonly span: Span;
  readonly items: readonly { readonly span: Span; readonly prose: Prose; readonly blocks: readonly Block[] }[];
}

/** One ordered list as it stands in the source. All lists of a section are one sequence (see `stepsOf`). */
export interface StepList {
  readonly kind: 'steps';
  readonly span: Span;
  readonly steps: readonly Step[];
}

export interface Step {
  readonly kind: 'step';
  readonly span: Span;
  /** The label as typed ("4.", "b)", "(c)", "Step 3:", "3.1"), compared with the computed one. */
  readonly typed: TypedLabel;
  readonly attributes?: Attributes;
  readonly id?: string;
  /** The instruction: the item's first paragraph, label and attributes taken off. */
  readonly lead: Prose;
  /** Everything else in the item, in source order, substeps and branches included. */
  readonly children: readonly StepChild[];
}

export type StepChild =
  | Paragraph
  | CodeBlock
  | Notice
  | Table
  | Figure
  | { readonly kind: 'substeps'; readonly span: Span; readonly steps: readonly Step[] }
  /** Bullets that all start with a condition: exactly one is taken. */
  | { readonly kind: 'branches'; readonly span: Span; readonly branches: readonly Branch[] }
  /** Bullets with no condition: objects of the lead verb, or all-of checks. */
  | {
      readonly kind: 'objects';
      readonly span: Span;
      readonly items: readonly { readonly span: Span; readonly prose: Prose }[];
    };

export interface Branch {
  readonly kind: 'branch';
  readonly span: Span;
  /** The condition's words, without "If" or the colon; empty for "Otherwise". */
  readonly condition: Prose;
  readonly otherwise: boolean;
  /** What is done, after the condition. */
  readonly lead: Prose;
  readonly children: readonly StepChild[];
}

/** What was typed as a label. `ordinal` counts from 1 where it can be read ("c" is 3, "3.1" has ordinal 1 and parents [3]). */
export interface TypedLabel {
  readonly span: Span;
  readonly raw: string;
  /** The list marker before it, where both were typed: "3. Step C:" has the marker "3." and is labelled "Step C:". */
  readonly marker?: { readonly span: Span; readonly raw: string; readonly ordinal?: number };
  readonly style: 'number' | 'letter' | 'capital' | 'decimal' | 'roman' | 'bullet';
  readonly ordinal?: number;
  readonly parents?: readonly number[];
}

export type SignalWord = 'danger' | 'warning' | 'caution' | 'notice';

export interface Notice {
  readonly kind: 'notice';
  readonly span: Span;
  readonly word: SignalWord;
  readonly wordSpan: Span;
  readonly attributes?: Attributes;
  readonly blocks: readonly Block[];
  /** fence `:::danger`, or a paragraph or quote starting "DANGER:" */
  readonly form: 'fence' | 'paragraph' | 'quote';
}

/** Its id stands in a paragraph next to it that is `{#id}` or ends in it ("Limits of drift {#drift-limits}"), before or after. */
export interface Table {
  readonly kind: 'table';
  readonly span: Span;
  readonly id?: string;
  readonly attributes?: Attributes;
  readonly head: readonly Cell[];
  readonly rows: readonly { readonly span: Span; readonly cells: readonly Cell[] }[];
}
export interface Cell {
  readonly span: Span;
  readonly prose: Prose;
  readonly align?: 'left' | 'center' | 'right';
}

export interface Figure {
  readonly kind: 'figure';
  readonly span: Span;
  readonly id?: string;
  readonly alt: string;
  readonly path: string;
  readonly pathSpan: Span;
}

// ---------------------------------------------------------------- file

export interface Section {
  readonly kind: 'section';
  readonly span: Span;
  readonly level: number;
  readonly title: string;
  readonly titleSpan: Span;
  readonly attributes?: Attributes;
  /** From `{#id}`, else made from the title; unique in the file. */
  readonly id: string;
  readonly aside: boolean;
  /** prose sections hold no steps (When to use, Background, Records) */
  readonly prose: boolean;
  readonly blocks: readonly Block[];
}

export interface Procedure {
  readonly kind: 'procedure';
  readonly source: SourceText;
  readonly front: FrontMatter | undefined;
  /** Blocks before the first heading. */
  readonly preface: readonly Block[];
  readonly sections: readonly Section[];
}

/** A bound guide (F13): front matter, headings as parts, bullets of `[document number]`; the rest is foreword. */
export interface Guide {
  readonly kind: 'guide';
  readonly source: SourceText;
  readonly front: FrontMatter | undefined;
  readonly foreword: readonly Block[];
  readonly parts: readonly {
    readonly span: Span;
    readonly title: string;
    readonly blocks: readonly Block[];
    readonly entries: readonly { readonly span: Span; readonly document: string }[];
  }[];
}

/** library.yaml and registers. */
export interface YamlFile {
  readonly kind: 'yaml';
  readonly source: SourceText;
  readonly root: YamlNode | undefined;
}

export interface FrontMatter {
  /** From the opening fence to the closing one. */
  readonly span: Span;
  readonly root: YamlNode | undefined;
}

// ---------------------------------------------------------------- YAML

/** YAML with every scalar as the text that was typed (F11). */
export type YamlNode = YamlMap | YamlSeq | YamlScalar;
export interface YamlScalar {
  readonly kind: 'scalar';
  readonly span: Span;
  /** Quotes and escapes undone; `null` and empty are ''. */
  readonly text: string;
  readonly quoted: boolean;
}
export interface YamlSeq {
  readonly kind: 'seq';
  readonly span: Span;
  readonly items: readonly YamlNode[];
}
export interface YamlMap {
  readonly kind: 'map';
  readonly span: Span;
  readonly entries: readonly { readonly key: YamlScalar; readonly value: YamlNode | undefined; readonly span: Span }[];
}

// ---------------------------------------------------------------- problems

/** What reading a file found wrong with its form. `rule` names the format rule; `checks/` words and grades it. Reading never fails. */
export interface FormatProblem {
  readonly rule: FormatRule;
  readonly span: Span;
  readonly message: string;
  readonly actual?: string;
  readonly expected?: string;
  /** The YAML was not read as it was meant from here on: what seems to be missing may stand there. */
  readonly broken?: true;
  /** Replaces the span by this text. */
  readonly replacement?: { readonly span: Span; readonly text: string; readonly title: string };
}
export type FormatRule =
  | 'text-damage' // F1 NUL, lone surrogate, binary
  | 'front-matter' // missing, unclosed, broken YAML, duplicate key, anchors, comma missing
  | 'yaml-comment' // F11 a comment after text in a list of names
  | 'inline-markup' // F2 unsupported or unbalanced
  | 'attributes' // F4 unknown key, bad or double id, misplaced
  | 'branches' // F6 mixed bullets
  | 'labels' // F7 list item that starts with a quantity
  | 'stray-instruction' // F7 a paragraph that looks like an instruction and is no step
  | 'notice-form' // F8 never closed, unknown word
  | 'sections' // F9, heading without steps, duplicate title
  | 'lazy-line' // F12
  | 'guide-form' // F13
  | 'nesting'; // lists or quotes deeper than anyone can follow, read as plain text
