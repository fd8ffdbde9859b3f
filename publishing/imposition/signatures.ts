/** The order of pages on folded sheets. Numbers only: counts and indices, no lengths. */

/** Indices of pages from nought; undefined: a blank. Left and right as seen on that side. */
export interface FoldedSheet {
  readonly front: readonly [number | undefined, number | undefined];
  readonly back: readonly [number | undefined, number | undefined];
  /** Sheets around it in its signature: 0 for the outermost. */
  readonly depth: number;
}

/**
 * One signature, from the outermost sheet in: of n pages, sheet k has n - 2k and 1 + 2k in front, 2 + 2k and n - 1 - 2k behind, so that each
 * pair adds up to n + 1 and odd pages stand on the right. Backs are for a printer that flips on the short edge.
 * `first` and `count` in pages; `count` is rounded up to a multiple of four, and `last` says where pages end and blanks begin.
 */
export function saddle(first: number, count: number, last: number = first + count): readonly FoldedSheet[] {
  const n = Math.ceil(count / 4) * 4;
  const page = (number: number): number | undefined => (first + number - 1 < last ? first + number - 1 : undefined);
  return Array.from({ length: n / 4 }, (_, k) => ({
    front: [page(n - 2 * k), page(1 + 2 * k)] as const,
    back: [page(2 + 2 * k), page(n - 1 - 2 * k)] as const,
    depth: k,
  }));
}

/** Signatures of so many sheets, one after the other, to be sewn or glued; the last is as thin as the rest of the pages lets it be. */
export function signatures(pages: number, sheetsEach: number): readonly (readonly FoldedSheet[])[] {
  const each = Math.max(1, sheetsEach) * 4;
  const out: (readonly FoldedSheet[])[] = [];
  for (let first = 0; first < pages; first += each) out.push(saddle(first, Math.min(each, pages - first), pages));
  return out;
}
