/**
 * What is laid out: a guide or procedure as blocks with every name, label and reference resolved to words, before any measure.
 * Made from the core tree by `publishing/compose`; laid out by `publishing/layout`. Plain data.
 */

import type { Paper, ShownBand } from '../procedures-schema/index.ts';

/** The state beside a step. */
export type BandState = ShownBand;

/** `changed`: not so in the earlier revision compared with; a bar stands beside the line it comes to. */
export type Inline = InlineOf & { readonly changed?: true };

type InlineOf =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'strong'; readonly text: string }
  | { readonly kind: 'em'; readonly text: string }
  | { readonly kind: 'strong-em'; readonly text: string }
  | { readonly kind: 'code'; readonly text: string }
  /** A live reference: `text` is printed, the page number of `anchor` follows when `page` is set, in words or `bare`. */
  | {
      readonly kind: 'link';
      readonly text: string;
      readonly anchor: string;
      readonly page: boolean;
      readonly bare?: true;
      /** With `bare`: a range up to the page of this anchor, where that is another one. */
      readonly through?: string;
      /** Anchor of the place it stands at: the page follows only where `anchor` is on another one. */
      readonly near?: string;
      /** What it says without the labels in it: those may differ where the place is the same. Not printed. */
      readonly unlabelled?: string;
      /** Of a range of steps: the anchor of its last. */
      readonly last?: string;
    }
  /** A chip such as a model name on a conditional step. */
  | { readonly kind: 'chip'; readonly text: string };

export type Flow = readonly BookBlock[];

/** `title`, `subtitle` and `eyebrow` stand on covers. */
export type ParagraphStyle =
  | 'body'
  | 'lead'
  | 'small'
  | 'listed'
  | 'limit'
  | 'sent'
  | 'ends'
  | 'center'
  | 'state'
  | 'title'
  | 'subtitle'
  | 'eyebrow';

/** What is not so in the earlier revision compared with, of a whole block. */
export interface ChangeMarks {
  /** A bar stands beside all of it. */
  readonly changed?: true;
  /** Something that stood before it, or after it, is gone: a short stroke tells where. */
  readonly gone?: 'before' | 'after' | 'both';
}

export type BookBlock = BlockOf & ChangeMarks;

type BlockOf =
  | {
      readonly kind: 'heading';
      readonly level: 1 | 2 | 3 | 4;
      readonly text: string;
      readonly anchor?: string;
      readonly number?: string;
      readonly bookmark: boolean;
      /** What stands under it belongs to what stands above: they share a page where they can. */
      readonly goesOn?: true;
    }
  | { readonly kind: 'paragraph'; readonly inline: readonly Inline[]; readonly style?: ParagraphStyle }
  | { readonly kind: 'bullets'; readonly items: readonly Flow[] }
  | {
      readonly kind: 'step';
      readonly label: string;
      readonly anchor?: string;
      readonly depth: number;
      readonly body: Flow;
      /** Notices that guard it: never parted from its first line. */
      readonly notices: readonly NoticeBlock[];
      /** The machine is safe after this step (a page turn here is preferred); undefined: not said. */
      readonly safeAfter?: boolean;
      /** It clamps an earth on: what was tested dead stays so from here on, so that the proof is not over before. */
      readonly earths?: true;
      /** For the energy band beside the step. */
      readonly band?: BandState;
    }
  | NoticeBlock
  | {
      readonly kind: 'table';
      readonly head: readonly (readonly Inline[])[];
      readonly rows: readonly (readonly (readonly Inline[])[])[];
      readonly align: readonly ('left' | 'center' | 'right')[];
      readonly caption?: string;
      readonly anchor?: string;
      readonly notes?: Flow;
      readonly wide?: boolean;
      /** As wide as the text, whatever its cells need. */
      readonly full?: true;
      /** Shares of the width, in thousandths, where neighbours want the same columns. */
      readonly widths?: readonly number[];
      /** Rows tall enough for handwriting, with lines between the columns. */
      readonly writable?: true;
      /** Read as one: kept on a page where it can be. */
      readonly whole?: true;
      /** A bar stands beside the caption alone. */
      readonly captionChanged?: true;
      /** One list with the table above it. */
      readonly joins?: true;
    }
  | {
      readonly kind: 'figure';
      readonly alt: string;
      readonly caption?: string;
      readonly anchor?: string;
      readonly image: Image;
      readonly captionChanged?: true;
      /** Made anew for each issue from what is no part of the text: no change of it is told. */
      readonly unmarked?: true;
      /** Stands over what it belongs to. */
      readonly leads?: true;
    }
  /** `strong`: under the title of a cover. */
  | { readonly kind: 'rule'; readonly strong?: true }
  | { readonly kind: 'write-in'; readonly label: string; readonly unit?: string; readonly field?: string }
  /** What is judged, and the answers to tick one of. */
  | { readonly kind: 'choice'; readonly label: string; readonly choices: readonly string[]; readonly field: string }
  /** Lines to tick off under one heading, which stands again at the head of every further page. */
  | TasksBlock
  /** Rows of labelled boxes to fill in, joined to one grid. */
  | { readonly kind: 'entries'; readonly rows: readonly (readonly EntryCell[])[] }
  /** Filled by the layout: chapters at level 1, headings with a bookmark below; `depth` levels of them, 2 if not said. */
  | { readonly kind: 'contents'; readonly depth?: 1 | 2 | 3 }
  /** Filled by the layout: each name with the pages of its places, every page once. */
  | { readonly kind: 'index'; readonly entries: readonly IndexEntry[] }
  /** What the hatches of the energy band mean; `states`: only of these. */
  | { readonly kind: 'band-key'; readonly compact?: true; readonly states?: readonly BandState[] }
  | { readonly kind: 'page-break'; readonly to?: 'right' }
  /** `fill`, on a cover: and all that its page has left. */
  | { readonly kind: 'space'; readonly lines: number; readonly fill?: true };

export interface NoticeBlock extends ChangeMarks {
  readonly kind: 'notice';
  readonly word: 'danger' | 'warning' | 'caution' | 'notice';
  /** The panel's word in the book's language. */
  readonly panel: string;
  readonly body: Flow;
  /** Word and message side by side, made to be read on a copy of a copy. */
  readonly compact?: true;
  /** It guards all of its section: at the head of each further page of it the word stands again, with what happens and where the notice is. */
  readonly recall?: { readonly anchor: string; readonly hazard: string };
}

export interface TasksBlock {
  readonly kind: 'tasks';
  readonly heading: string;
  readonly anchor: string;
  /** Printed small beside the heading: how the section is come to. */
  readonly aside?: string;
  /** A bar stands beside the heading alone. */
  readonly headingChanged?: true;
  readonly items: readonly (Task | NoticeBlock | Extract<BookBlock, { kind: 'table' }>)[];
}

/** One line of a short form: a box to tick, the label, what to do, and what is written in. */
export interface Task extends ChangeMarks {
  readonly kind: 'task';
  /** Empty for a branch and for a thing on a list. */
  readonly label: string;
  readonly anchor?: string;
  readonly depth: number;
  readonly line: readonly Inline[];
  readonly notices: readonly NoticeBlock[];
  readonly band?: BandState;
  /** It clamps an earth on: before that no proof is over. */
  readonly earths?: true;
  readonly readings: readonly TaskReading[];
  /** Said, not done: no box stands before it. */
  readonly remark?: true;
  /** Initialled, not only ticked; the words say by whom where that is not the reader. */
  readonly initials?: string;
  /** Name of the form field; unique in the book. */
  readonly field: string;
}

export interface TaskReading {
  readonly name: string;
  /** One line a model, or one for all. */
  readonly limits: readonly { readonly model?: string; readonly text: string }[];
  /** Words over the boxes: before and after, or one. */
  readonly boxes: readonly string[];
  readonly unit: string;
  /** A bar stands beside it. */
  readonly changed?: true;
  /** Judged, not measured: what counts as passed and as failed, each with a box to tick. */
  readonly verdict?: { readonly passes: string; readonly pass: string; readonly fails: string; readonly fail: string };
}

export interface EntryCell {
  readonly label: string;
  /** Named aloud, where the label alone does not tell one from another. */
  readonly says?: string;
  /** Share of the row, in thousandths. */
  readonly share: number;
  /** Boxes to tick instead of a line to write on. */
  readonly options?: readonly string[];
  /** Height in lines of handwriting; 1 if not said. */
  readonly lines?: number;
  readonly field: string;
}

export interface IndexEntry {
  readonly name: string;
  readonly anchors: readonly string[];
}

export type Image =
  | { readonly kind: 'svg'; readonly source: string }
  | { readonly kind: 'png' | 'jpeg'; readonly bytes: Uint8Array }
  | { readonly kind: 'missing'; readonly path: string };

export interface Chapter {
  readonly title: string;
  /** What a link to the chapter names; made up by the layout where not given. */
  readonly anchor?: string;
  /** Not named in the contents: the contents page itself. */
  readonly unlisted?: boolean;
  /** Document number and revision for the running head; undefined on front matter. */
  readonly number?: string;
  readonly revision?: string;
  readonly date?: string;
  /** Words on the thumb tab; neighbours with the same words share a tab. */
  readonly tab?: string;
  readonly startRight: boolean;
  /** Short words that open the next chapter: they stand at the head of its first page where there is room, not alone on a leaf. */
  readonly leadsIn?: true;
  readonly blocks: Flow;
}

/** Words of one language. */
export interface Spoken {
  readonly text: string;
  /** As BCP 47 writes it. */
  readonly language: string;
}

export interface Book {
  readonly title: string;
  readonly subtitle?: string;
  readonly number: string;
  readonly revision?: string;
  readonly date?: string;
  readonly publisher: string;
  readonly language: string;
  /** Language of the writer's words, where it is another. */
  readonly written?: string;
  /** By the words as they stand in the book: what of them is in which language. What is not here is the writer's. */
  readonly spoken?: ReadonlyMap<string, readonly Spoken[]>;
  readonly paper: Paper;
  readonly binding: 'left' | 'top' | 'none';
  readonly duplex: boolean;
  /** Printed in the foot of every page. */
  readonly footLine?: string;
  /** "DRAFT: NOT FOR FIELD USE" on every page. */
  readonly draft: boolean;
  /** "OBSOLETE: DO NOT USE" on every page. */
  readonly obsolete?: boolean;
  /** Type for bad light and tired eyes: a good third larger. */
  readonly large?: boolean;
  /** The last page, on the back of its sheet. */
  readonly backCover?: Flow;
  readonly cover?: Flow;
  readonly chapters: readonly Chapter[];
  /** Narrow margins, small heads, and pages counted anew in each chapter: leaves that can be replaced without touching the others. */
  readonly short?: ShortForm;
}

export interface ShortForm {
  /** Boxes in the head of every leaf, so that leaves that fell apart find each other again. */
  readonly head: readonly EntryCell[];
}
