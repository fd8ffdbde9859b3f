/** Pages to sheet sides: order by signatures.ts, places by scale and creep, marks by marks.ts. Draws no page. */
import type { DrawnPage, Mp } from '../layout/index.ts';
import { sheetMarks } from './marks.ts';
import { type PlacedOnSheet, type SheetSide, sheets } from './sheet.ts';
import { signatures } from './signatures.ts';

export interface Choice {
  /** Folded and stapled or sewn, or two pages beside each other to be read as they lie. */
  readonly kind: 'booklet' | 'two-up';
  readonly sheet: keyof typeof sheets;
  /** Sheets in a signature; all in one if not said. */
  readonly signature?: number;
  /** Thickness of one sheet: what the next one inside is pushed out by. */
  readonly thickness?: Mp;
  readonly marks?: boolean;
}

/** With marks, pages keep this far from the edge of the sheet. */
const markRoom: Mp = 22_000;

type Pair = readonly [number | undefined, number | undefined];

export function impose(pages: readonly DrawnPage[], choice: Choice): readonly SheetSide[] {
  const { width, height } = sheets[choice.sheet];
  const frame = frameFor(pages, width, height, choice.marks === true);
  const side = (pair: Pair, shift: Mp): SheetSide => {
    const places = pair.flatMap((page, at): PlacedOnSheet[] => {
      if (page === undefined) return [];
      const turned = isWide(pages[page] as DrawnPage) !== frame.wide;
      // Towards the fold: to the right on the left half, to the left on the right one.
      const x = at === 0 ? frame.left + shift : frame.middle - shift;
      return [{ page, x, y: frame.top, scale: frame.scale, turned }];
    });
    const marks = choice.marks ? sheetMarks(frame, choice.kind === 'booklet', width, height) : [];
    return { width, height, places, marks };
  };
  if (choice.kind === 'two-up')
    return Array.from({ length: Math.ceil(pages.length / 2) }, (_, k) =>
      side([2 * k, 2 * k + 1 < pages.length ? 2 * k + 1 : undefined], 0),
    );
  const all = Math.max(1, Math.ceil(pages.length / 4));
  return signatures(pages.length, choice.signature ?? all).flatMap((signature) =>
    signature.flatMap(({ front, back, depth }) => {
      // The inner sheets stick out at the fore edge by the thickness of those around them, and lose it when cut: their pages move in.
      const shift = depth * (choice.thickness ?? 0);
      return [side(front, shift), side(back, shift)];
    }),
  );
}

export interface Frame {
  readonly left: Mp;
  readonly middle: Mp;
  readonly top: Mp;
  /** Of one page as printed. */
  readonly width: Mp;
  readonly height: Mp;
  readonly scale: number;
  readonly wide: boolean;
}

const isWide = (page: DrawnPage): boolean => page.width > page.height;

/** Two pages of the first page's size, as large as they go and never enlarged, meeting in the middle of the sheet. */
function frameFor(pages: readonly DrawnPage[], width: Mp, height: Mp, marks: boolean): Frame {
  // The cover may lie; most pages say what the book is.
  const wide = pages.filter(isWide).length * 2 > pages.length;
  const page = pages.find((one) => isWide(one) === wide) ?? { width: 1, height: 1 };
  const room = marks ? markRoom : 0;
  const million = 1_000_000;
  const scale = Math.min(
    million,
    Math.floor(((Math.floor(width / 2) - room) * million) / page.width),
    Math.floor(((height - 2 * room) * million) / page.height),
  );
  const w = Math.round((page.width * scale) / million);
  const h = Math.round((page.height * scale) / million);
  const middle = Math.round(width / 2);
  return { left: middle - w, middle, top: Math.round((height - h) / 2), width: w, height: h, scale, wide };
}
