/** How pages stand in the window: which beside which, how large, and which one is meant by a number typed. Knows numbers only; draws nothing. */

export const STEPS = [50, 75, 100, 125, 150, 200, 250, 300] as const;
export const ARRANGEMENTS = ['single', 'facing', 'many'] as const;
export type Arrangement = (typeof ARRANGEMENTS)[number];
/** Fitted to the window, or percent of the true size. */
export type Zoom = 'page' | 'width' | (typeof STEPS)[number];

/** Of a setting, which the contract has looked at. */
export const zoomOf = (text: string): Zoom =>
  text === 'page' || text === 'width' ? text : (STEPS.find((step) => String(step) === text) ?? 100);

interface Size {
  readonly width: number;
  readonly height: number;
}

/** CSS pixels of a millipoint: 96 and 72 to the inch. */
const TRUE_SIZE = 96 / 72 / 1000;
/** Between pages that do not face each other, and between rows. */
export const GAP = 18;
/** Between two that do: the fold. */
export const FOLD = 2;

/** CSS pixels a millipoint takes for a row of pages beside each other; `room` is what the window has for it. */
export function scaleOf(row: readonly Size[], zoom: Zoom, room: Size): number {
  if (typeof zoom === 'number') return (TRUE_SIZE * zoom) / 100;
  const wide = (room.width - FOLD * (row.length - 1)) / row.reduce((sum, { width }) => sum + width, 0);
  const high = room.height / Math.max(...row.map(({ height }) => height));
  return Math.max(TRUE_SIZE / 10, zoom === 'width' ? wide : Math.min(wide, high));
}

/** Percent of the true size, as it is shown. */
export const percentOf = (scale: number): number => Math.round((scale / TRUE_SIZE) * 100);

/** The next step above or below what is shown; undefined: there is none. */
export const nextStep = (percent: number, larger: boolean): Zoom | undefined =>
  larger ? STEPS.find((step) => step > percent) : STEPS.findLast((step) => step < percent);

/** Pages beside each other by their index; undefined: the empty half beside a page that nothing faces. */
export type Row = readonly (number | undefined)[];

/** The first page is a right-hand one. What is printed on one side has a blank back, and every page of it stands on the right. */
export function rowsOf(sizes: readonly Size[], arrangement: Arrangement, duplex: boolean, zoom: Zoom, room: Size): readonly Row[] {
  if (arrangement === 'single') return sizes.map((_, index) => [index]);
  if (arrangement === 'facing') {
    if (!duplex) return sizes.map((_, index) => [undefined, index]);
    const spreads = Array.from({ length: Math.floor(sizes.length / 2) + 1 }, (_, at) => [2 * at - 1, 2 * at]);
    return spreads
      .map((spread) => spread.map((index) => (sizes[index] === undefined ? undefined : index)))
      .filter((spread) => spread.some((index) => index !== undefined));
  }
  const rows: number[][] = [];
  let used = 0;
  sizes.forEach((size, index) => {
    const width = size.width * scaleOf([size], zoom, room);
    const row = rows.at(-1);
    if (row !== undefined && used + GAP + width <= room.width) {
      row.push(index);
      used += GAP + width;
    } else {
      rows.push([index]);
      used = width;
    }
  });
  return rows;
}

/**
 * The page meant by what was typed: a number as it is printed ("iv", "12"), else a leaf counted from the first; with "leaf" before it, or a
 * number sign, always a leaf. Where chapters count anew, the next page of that number from `from` on.
 */
export function pageAsked(typed: string, numbers: readonly string[], leafWord: string, from = 0): number | undefined {
  const text = typed.trim().toLowerCase();
  const words = leafWord.toLowerCase();
  const leaf = text.startsWith(words) ? text.slice(words.length) : text.startsWith('#') ? text.slice(1) : undefined;
  const counted = (digits: string): number | undefined => {
    const count = /^\d{1,6}$/.test(digits.trim()) ? Number(digits) : 0;
    return count >= 1 && count <= numbers.length ? count - 1 : undefined;
  };
  if (leaf !== undefined) return counted(leaf);
  if (text === '') return undefined;
  const named = numbers.flatMap((number, index) => {
    const printed = number.toLowerCase();
    return printed === text || printed.split(' ').at(-1) === text ? [index] : [];
  });
  return named.find((index) => index >= from) ?? named[0] ?? counted(text);
}
