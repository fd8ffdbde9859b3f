/** What stands on a line of text, and what setting text needs to know. Plain types: made by runs.ts, items.ts and paragraph.ts, drawn by draw.ts. */
import type { Spoken } from '../book.ts';
import type { LayoutWords } from '../printed-words/index.ts';
import type { Shaped, Shaper } from './shaped.ts';
import type { NodeId, StructureBuilder } from './structure.ts';
import type { Colour, TextLook } from './style.ts';
import type { Mp } from './units.ts';

export interface Look {
  /** Lines of about the same length, as titles want them; no hyphens. */
  readonly even?: true;
  readonly face: TextLook['face'];
  readonly size: Mp;
  readonly colour: Colour;
  /** New since an earlier revision: a bar stands beside its line. */
  readonly barred?: true;
}

/** What stands on a line, left to right. */
export type Part =
  /** Words of one look and element with the spaces between them, each shaped alone; `width` is the sum of theirs. */
  | {
      readonly kind: 'text';
      readonly shaped: readonly Shaped[];
      readonly look: Look;
      readonly width: Mp;
      readonly node: NodeId;
      readonly to?: string;
    }
  /** A page number filled in when the pages are known; `width` is what was kept for it. */
  | { readonly kind: 'page'; readonly anchor: string; readonly look: Look; readonly width: Mp; readonly node: NodeId; readonly to: string }
  /** Words in a rounded frame. */
  | { readonly kind: 'chip'; readonly shaped: readonly Shaped[]; readonly look: Look; readonly width: Mp; readonly node: NodeId };

export interface Line {
  readonly parts: readonly Part[];
  readonly width: Mp;
}

export interface TextKit {
  readonly shaper: Shaper;
  readonly structure: StructureBuilder;
  readonly words: LayoutWords;
  /** Of words that `spoken` does not name. */
  readonly language: string;
  /** Of the words that the layout itself prints. */
  readonly printed: string;
  readonly spoken?: ReadonlyMap<string, readonly Spoken[]>;
  readonly linkColour: Colour;
  /** Width kept for the page number of an anchor, in a look. */
  readonly reserve: (anchor: string, look: Look) => Mp;
  /** Page index of an anchor as the pass before left it; undefined in the first. */
  readonly pageBefore: (anchor: string) => number | undefined;
  /** Whether a reference standing at `near` needs the page number of `anchor`: they were on different pages. */
  readonly away: (near: string, anchor: string) => boolean;
}

/** Between the words of a chip and its frame. */
export const chipPad: Mp = 3500;
