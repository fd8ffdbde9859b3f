/** What every measuring function is handed: fonts, the style sheet, the structure being built, the book's facts. Holds no logic but line-to-slab. */
import type { Book, Inline } from '../book.ts';
import type { ImageStore } from './images.ts';
import type { ContentsEntry } from './normalise.ts';
import { type Line, linesOf, type TextKit } from './paragraph.ts';
import { widthOfAll } from './shaped.ts';
import type { Decor, Slab } from './slab.ts';
import type { NodeId } from './structure.ts';
import { costs, type Sheet, type TextLook } from './style.ts';
import type { Mp } from './units.ts';

/** What the layout could not do as asked; the caller says where in the text that is, and what would be right. */
export interface LayoutNote {
  readonly kind:
    | 'missing-glyph'
    | 'group-too-tall'
    | 'dead-link'
    | 'bad-image'
    | 'figure-part'
    | 'small-print'
    | 'long-words'
    | 'unsettled-pages'
    | 'many-leaves';
  readonly message: string;
  /** What a link to the place names. */
  readonly anchor?: string;
  readonly character?: string;
}

export interface Kit extends TextKit {
  readonly book: Book;
  readonly sheet: Sheet;
  readonly contents: readonly ContentsEntry[];
  readonly images: ImageStore;
  /** Height of an empty page's body. */
  readonly pageHeight: Mp;
  readonly pageWidth: Mp;
  readonly notes: LayoutNote[];
}

/** Baseline of a line from its top: the face's ascent and descent centred in the lead. */
export function baselineIn(look: TextLook, kit: Kit): Mp {
  const { ascent, descent } = kit.shaper.metrics('regular');
  // Source Sans states generous line metrics; what counts for the eye is the letters themselves.
  const above = Math.min(ascent, 790);
  const below = Math.max(descent, -240);
  return Math.round(look.lead / 2 + ((above + below) * look.size) / 2000);
}

export interface TextPlace {
  readonly x: Mp;
  readonly width: Mp;
  readonly node: NodeId;
  readonly decor: readonly Decor[];
  readonly cost: number;
  readonly of: Slab['of'];
}

export const linesIn = (inline: readonly Inline[], look: TextLook, node: NodeId, width: Mp, kit: Kit): readonly Line[] =>
  linesOf(inline, look, node, width, kit);

/** Lines of a paragraph that is better moved whole. */
const shortParagraph = 6;

/** Lines as slabs, one a line, with widow and orphan costs. */
export function textSlabs(inline: readonly Inline[], look: TextLook, place: TextPlace, kit: Kit): Slab[] {
  const lines = linesIn(inline, look, place.node, place.width, kit);
  const baseline = baselineIn(look, kit);
  const within = lines.length <= shortParagraph ? costs.insideShortParagraph : costs.line;
  return lines.map((line, index) => ({
    height: look.lead,
    items: [{ kind: 'line', x: place.x, width: place.width, baseline, line, align: look.align }],
    gap: 0,
    cost: index === 0 ? 0 : place.cost + (index === 1 || index === lines.length - 1 ? costs.orphan : within),
    decor: line.parts.some(({ look: own }) => own.barred) ? [...place.decor, { kind: 'change' }] : place.decor,
    of: place.of,
  }));
}

export const textWidth = (text: string, look: TextLook, kit: Kit): Mp => widthOfAll(kit.shaper.shape(look.face, text), look.size);

/** The same words as page furniture: drawn again, read aloud and linked once. */
export const asArtifact = (line: Line): Line => ({
  ...line,
  parts: line.parts.map((part) => {
    const { to: _, ...rest } = part as typeof part & { to?: string };
    return { ...rest, node: -1 } as typeof part;
  }),
});
