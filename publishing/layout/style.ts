/** How the printed page looks: type sizes, spaces, colours, and what a page break costs where. One table a subject; measures nothing. */
import type { Colour } from '../../procedures-schema/figures/index.ts';
import type { Book } from '../book.ts';
import { between, growth } from './paper.ts';
import type { Face } from './shaped.ts';
import { type Mp, mm, pt } from './units.ts';

export type { Colour };

export const colours = {
  ink: [24, 26, 28],
  quiet: [84, 88, 92],
  faint: [168, 172, 176],
  wash: [240, 241, 241],
  paper: [255, 255, 255],
  link: [20, 62, 96],
  draft: [226, 222, 220],
} as const satisfies Readonly<Record<string, Colour>>;

export interface TextLook {
  /** Lines of about the same length. */
  readonly even?: true;
  readonly face: Face;
  readonly size: Mp;
  readonly lead: Mp;
  readonly colour: Colour;
  readonly align: 'left' | 'center' | 'right';
}

export interface Sheet {
  readonly body: TextLook;
  readonly lead: TextLook;
  readonly small: TextLook;
  /** What is fetched before the work: read once, at a table. */
  readonly listed: TextLook;
  /** What a value is judged by, beside the step that reads it: read at arm's length, so no smaller than a table and never grey. */
  readonly limit: TextLook;
  /** How a section is come to. */
  readonly sent: TextLook;
  /** Where the main line ends, or the way back. */
  readonly ends: TextLook;
  readonly state: TextLook;
  readonly cell: TextLook;
  readonly cellHead: TextLook;
  readonly caption: TextLook;
  readonly label: TextLook;
  readonly subLabel: TextLook;
  readonly panel: TextLook;
  readonly furniture: TextLook;
  readonly title: TextLook;
  readonly subtitle: TextLook;
  readonly eyebrow: TextLook;
  readonly headings: readonly [TextLook, TextLook, TextLook, TextLook];
  /** Space above and below each. */
  readonly aroundHeadings: readonly (readonly [Mp, Mp])[];
  /** Body text stands in from the headings by this much; labels and the energy band hang in it. */
  readonly hang: Mp;
  /** Width of the energy band and the space after it. */
  readonly band: Mp;
  readonly bandGap: Mp;
  /** Longest line of running text. */
  readonly measure: Mp;
  /** Space between paragraphs, and around blocks. */
  readonly between: Mp;
  readonly around: Mp;
  readonly cellPad: Mp;
  readonly boxPad: Mp;
}

interface Scale {
  readonly size: number;
  readonly lead: number;
  readonly small: number;
  readonly h: readonly [number, number, number, number];
  readonly hang: number;
}

/** By the width of the page, from that of A5 to that of A4. */
const small: Scale = { size: 10.5, lead: 14, small: 9, h: [18, 13.5, 11.5, 10.5], hang: 12.5 };
const large: Scale = { size: 11, lead: 15, small: 9.5, h: [23, 15.5, 12.5, 11], hang: 15 };

const half = (points: number): number => Math.round(points * 2) / 2;

function scaleOf(grown: number): Scale {
  const of = (from: number, to: number): number => half(between(from, to, grown));
  const heading = (level: 0 | 1 | 2 | 3): number => of(small.h[level], large.h[level]);
  return {
    size: of(small.size, large.size),
    lead: of(small.lead, large.lead),
    small: of(small.small, large.small),
    h: [heading(0), heading(1), heading(2), heading(3)],
    hang: of(small.hang, large.hang),
  };
}

const enlarged = ({ size, lead, small, h, hang }: Scale): Scale => ({
  size: half(size * 1.32),
  lead: half(lead * 1.3),
  small: half(small * 1.35),
  // Headings need less: they are large already.
  h: [half(h[0] * 1.1), half(h[1] * 1.22), half(h[2] * 1.28), half(h[3] * 1.32)],
  hang,
});

/** Large type is a third larger: 14.5 points for running text on A4. */
export function sheetOf(paper: Book['paper'], enlarge = false): Sheet {
  const grown = growth(paper);
  const scale = enlarge ? enlarged(scaleOf(grown)) : scaleOf(grown);
  const of = (from: number, to: number): number => half(between(from, to, grown));
  const ink = colours.ink;
  const look = (face: Face, size: number, lead: number, colour: Colour = ink): TextLook => ({
    face,
    size: pt(size),
    lead: pt(lead),
    colour,
    align: 'left',
  });
  const heading = (size: number): TextLook => ({ ...look('bold', size, Math.round(size * 1.22 * 2) / 2), even: true });
  return {
    body: look('regular', scale.size, scale.lead),
    lead: look('regular', scale.size + 1.5, scale.lead + 2, colours.quiet),
    small: look('regular', scale.small, scale.small + 3.5, colours.quiet),
    listed: look('regular', scale.size, scale.lead),
    // Read with one eye on a gauge: no smaller than the step.
    limit: look('regular', scale.size, scale.lead),
    sent: look('regular', scale.size, scale.lead),
    ends: look('regular', scale.size, scale.lead),
    state: look('italic', scale.size, scale.lead, colours.quiet),
    cell: look('regular', scale.size - 0.5, scale.lead - 1),
    cellHead: look('bold', scale.size - 1, scale.lead - 1),
    caption: look('regular', scale.small, scale.small + 3.5, colours.quiet),
    label: look('bold', scale.size, scale.lead),
    subLabel: look('regular', scale.size, scale.lead),
    panel: look('bold', scale.size + 1, scale.lead),
    furniture: look('regular', enlarge ? 10.5 : of(8, 8.5), enlarge ? 13 : 11, colours.quiet),
    title: { ...look('bold', of(27, 36), of(31, 41)), even: true },
    subtitle: { ...look('regular', of(13, 16), of(18, 22), colours.quiet), even: true },
    eyebrow: look('bold', scale.small, scale.small + 4, colours.quiet),
    headings: [heading(scale.h[0]), heading(scale.h[1]), heading(scale.h[2]), heading(scale.h[3])],
    aroundHeadings: [
      [0, pt(14)],
      [pt(22), pt(6)],
      [pt(15), pt(4)],
      [pt(11), pt(3)],
    ],
    hang: mm(scale.hang),
    band: mm(2.4),
    bandGap: mm(2.2),
    measure: pt(scale.size * 37),
    between: pt(scale.lead * 0.4),
    around: pt(scale.lead * 0.8),
    cellPad: pt(5.5),
    boxPad: pt(9),
  };
}

/**
 * Panels of the four signal words: common sRGB approximations of the ANSI Z535.1 colours; contrast of word on ground is at least 4.5. The blue of
 * NOTICE is as dark on a grey copy as the red of DANGER, so its panel is no wider and higher than its word, and its frame is thin: the graver the
 * word, the more ink.
 */
export const signals = {
  danger: { ground: [200, 16, 46], word: [255, 255, 255], edge: [200, 16, 46], symbol: true, slanted: false, small: false },
  warning: { ground: [255, 130, 0], word: [0, 0, 0], edge: [214, 105, 0], symbol: true, slanted: false, small: false },
  caution: { ground: [255, 209, 0], word: [0, 0, 0], edge: [190, 152, 0], symbol: true, slanted: false, small: false },
  notice: { ground: [0, 114, 206], word: [255, 255, 255], edge: [0, 114, 206], symbol: false, slanted: true, small: true },
} as const;

/** Energy band: colour and hatch both tell the state, so that a photocopy tells it too. */
export const bands = {
  live: { colour: [178, 34, 34], ground: [250, 226, 222], hatch: 'slant' },
  // Broken as the stripe of what is live is, for it is to be taken as live.
  cut: { colour: [120, 72, 0], ground: [255, 222, 140], hatch: 'chequer' },
  safe: { colour: [35, 122, 82], ground: [228, 240, 233], hatch: 'solid' },
  open: { colour: [0, 83, 135], ground: [225, 236, 244], hatch: 'rungs' },
  unknown: { colour: [63, 67, 71], ground: [255, 255, 255], hatch: 'cross' },
} as const;

/**
 * Cost of a page break, against 10,000 for an empty page and the square of the unused share otherwise.
 * From `hard` on a break is taken only where no other way exists, the cheapest tier first, and is told to the caller.
 */
export const costs = {
  block: 0,
  line: 120,
  /** In a paragraph of a few lines: it is read in one go, and gains a page little. */
  insideShortParagraph: 450,
  insideStep: 500,
  /** Inside a step of at most a third of a page: half of what to do, or one of two ways on, would stand overleaf. */
  insideShortStep: 2600,
  /** Inside one of at most half a page: it goes on the next page whole where that leaves less than two fifths of this one empty. */
  insideHalfPageStep: 1600,
  betweenSubsteps: 400,
  bullet: 60,
  /** One thing of a list alone, or anywhere in a short list: a count that was announced does not come true on the page. */
  bulletNearEdge: 1500,
  /** Between the sections of one procedure in the contents: overleaf nobody sees whose they are. */
  insideEntry: 600,
  row: 80,
  rowNearEdge: 900,
  /** Between tables that are one list. */
  betweenParts: 400,
  orphan: 6000,
  betweenSteps: 60,
  /** Between the steps of a section of less than a third of a page: seven short steps of making safe are done in one go. */
  betweenShortRun: 900,
  /** Boxes to sign off alone on a leaf: what is to be written down stands with them. */
  goesOn: 2600,
  /** One step alone under its heading at the foot of a page, or the last of many alone on the next. */
  loneStep: 1000,
  /** The first step alone under the notice of its section: what the notice warns of comes in the steps overleaf. */
  loneUnderNotice: 2500,
  /** Of a checklist: it is to be one or two, and is parted wherever no choice and no notice is. */
  anotherLeaf: 5000,
  // Added where a leaf is turned between two steps.
  afterSafe: 0,
  afterUnsaid: 120,
  afterUnsafe: 1500,
  /** Between what is cut off and what is proved dead: who reads the next line with one hand on the page has the other at the wires. */
  insideProof: 3500,
  /** A page whose spaces give way: nobody sees it, but pages of a book are spaced alike where they can be. */
  givesWay: 1200,
  hard: 1_000_000,
  /** Inside a step that a notice guards, added to the break's own cost. */
  guarded: 1_000_000,
  rowInside: 2_000_000,
  heading: 10_000_000,
  notice: 1_000_000_000,
} as const;
