/** Reads a text piece by piece at the cuts an outline offers, and joins two pieces where a cut proves bad. What a piece is, the caller says. */
import type { Markup } from './markdown.ts';
import type { Cut, Mode } from './outline.ts';

/** What a piece says about its end. */
export interface Ending {
  /** Type of its last block. */
  readonly last: Markup['type'] | undefined;
  /** Its last block would go on in what follows: a code or notice fence without an end. */
  readonly open: boolean;
}

/** More failed cuts in a row than this, and the rest is read as one. */
const MOST_JOINS = 8;

export function cutUp<T extends Ending>(
  lines: number,
  cuts: readonly Cut[],
  read: (from: number, to: number, mode: Mode) => T,
): readonly T[] {
  const all: readonly Cut[] = cuts[0]?.line === 0 ? cuts : [{ line: 0, afterItem: false, mode: 'prose' }, ...cuts];
  const out: T[] = [];
  for (let at = 0; at < all.length; ) {
    const { line, mode } = all[at] ?? { line: 0, mode: 'prose' as const };
    let next = at + 1;
    let piece = read(line, all[next]?.line ?? lines, mode);
    for (let joins = 0; next < all.length && !holds(piece, all[next]); joins++) {
      next = joins < MOST_JOINS ? next + 1 : all.length;
      piece = read(line, all[next]?.line ?? lines, mode);
    }
    out.push(piece);
    at = next;
  }
  return out;
}

/** Before a heading or after an empty line any closed block ends; an item right after an item needs a list before it. */
function holds(piece: Ending, cut: Cut | undefined): boolean {
  return !piece.open && (cut?.afterItem !== true || piece.last === 'list');
}

export function endingOf(markup: readonly Markup[]): Ending {
  const last = markup.at(-1);
  return { last: last?.type, open: (last?.type === 'code' || last?.type === 'fence') && !last.closed };
}
