/**
 * Pieces read before, by their text: an edit reads again the one piece it touches. A piece that stands where it stood is
 * returned as the same object, so that whoever keeps facts by step finds them again. Never trusted across versions: it lives in memory only.
 */

import { Recent } from '../recent.ts';
import type { TopBlock } from './block-reader.ts';
import type { Ending } from './cut-up.ts';
import type { ReadFront } from './front-matter.ts';
import { shifted } from './shift.ts';
import type { FormatProblem } from './tree.ts';

/** What a piece gave, offsets from its start. */
export interface Piece extends Ending {
  readonly blocks: readonly TopBlock[];
  readonly problems: readonly FormatProblem[];
}

interface Entry {
  readonly piece: Piece;
  /** Places where it was used last, by file. */
  places: Map<string, Piece>;
  /** Read in this round or the one before; older ones are dropped. */
  round: number;
}

/** Files whose front matter is kept: those that are being edited. Of a long library it would weigh more than all the rest. */
const FRONTS = 3;

export class BlockCache {
  readonly #entries = new Map<string, Entry>();
  readonly #fronts = new Recent<string, { readonly text: string; readonly front: ReadFront }>(FRONTS);
  #round = 0;

  /** Called once per file read. Pieces not used for a while go. */
  nextRound(): void {
    this.#round++;
    if (this.#entries.size < 4000) return;
    for (const [key, entry] of this.#entries) if (entry.round < this.#round - 200) this.#entries.delete(key);
  }

  /** Front matter that is closed hangs on nothing below it: while its own text stands, it is the same object. */
  front(path: string, text: string, read: () => ReadFront): ReadFront {
    const known = this.#fronts.get(path);
    if (known !== undefined && text.startsWith(known.text)) return known.front;
    const front = read();
    const own = text.slice(0, front.body);
    // A lone carriage return may get its line feed later.
    if (front.front !== undefined && own.endsWith('\n') && front.problems.every(({ rule }) => rule !== 'front-matter'))
      this.#fronts.set(path, { text: own, front });
    return front;
  }

  piece(key: string, path: string, at: number, read: () => Piece): Piece {
    let entry = this.#entries.get(key);
    if (!entry) {
      entry = { piece: read(), places: new Map(), round: this.#round };
      this.#entries.set(key, entry);
    }
    entry.round = this.#round;
    const place = `${at}\u0000${path}`;
    const known = entry.places.get(place);
    if (known) return known;
    // Also at offset 0 a copy: the same text in two files must not be one object.
    const piece = moveTo(entry.piece, at);
    if (entry.places.size > 8) entry.places.clear();
    entry.places.set(place, piece);
    return piece;
  }
}

function moveTo(piece: Piece, by: number): Piece {
  return { ...piece, blocks: shifted(piece.blocks, by), problems: shifted(piece.problems, by) };
}

export function newBlockCache(): BlockCache {
  return new BlockCache();
}
