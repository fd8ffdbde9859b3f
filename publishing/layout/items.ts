/** Runs of text to boxes, glue and penalties: words, ties, hyphens, chips and page numbers. Leaves the choice of breaks to lines.ts. */
import { breakPlaces } from './break-places.ts';
import { pushChunks } from './chunks.ts';
import { hyphenate } from './hyphenate.ts';
import { chipPad, type Part, type TextKit } from './parts.ts';
import type { Run } from './runs.ts';
import { type Shaped, widthOfAll } from './shaped.ts';
import { mayHold, tied } from './ties.ts';
import type { Mp } from './units.ts';

/** One of breakLines' items with what it prints. All have the same fields: there is one for every word of a book and every space. */
export interface Item {
  readonly kind: 'box' | 'glue' | 'penalty';
  readonly width: Mp;
  /** Of a penalty. */
  readonly cost: number;
  readonly hyphen: boolean;
  /** Set where it is text of one run; `shaped` is that text. */
  readonly run: Run | undefined;
  readonly shaped: readonly Shaped[];
  /** Set where it is anything else. */
  readonly parts: readonly Part[] | undefined;
  /** A divided word's piece: joined again to the whole word when the line does not end at its hyphen. */
  readonly piece: string | undefined;
}

const nothing: readonly Shaped[] = [];
const text = (kind: 'box' | 'glue', width: Mp, run: Run, shaped: readonly Shaped[], piece?: string): Item => ({
  kind,
  width,
  cost: 0,
  hyphen: false,
  run,
  shaped,
  parts: undefined,
  piece,
});
const mixed = (kind: 'box' | 'glue', width: Mp, parts: readonly Part[]): Item => ({
  kind,
  width,
  cost: 0,
  hyphen: false,
  run: undefined,
  shaped: nothing,
  parts,
  piece: undefined,
});
const penalty = (width: Mp, cost: number, hyphen: boolean, run?: Run, shaped = nothing): Item => ({
  kind: 'penalty',
  width,
  cost,
  hyphen,
  run,
  shaped,
  parts: undefined,
  piece: undefined,
});

/** Stands in the joined text for a chip; UAX #14 class CB. */
const chipMark = '\ufffc';

/** Invisible characters that steer breaks or direction and print nothing. */
const silentText = /[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufeff]/g;

const hyphenCost = 280;
const slashCost = 160;
/** A break UAX #14 allows inside what is written without a space. */
const tightCost = 60;

export const partOf = (shaped: readonly Shaped[], width: Mp, run: Run): Part =>
  run.to === undefined
    ? { kind: 'text', shaped, look: run.look, width, node: run.node }
    : { kind: 'text', shaped, look: run.look, width, node: run.node, to: run.to };

/** Prints a hyphen, reads as a soft hyphen: a search for the whole word finds it. */
export function hyphenated(piece: string, run: Run, kit: TextKit): readonly Shaped[] {
  const shaped = kit.shaper.shape(run.look.face, `${piece}-`);
  const last = shaped[shaped.length - 1];
  return last === undefined ? shaped : [...shaped.slice(0, -1), kit.shaper.softHyphen(last)];
}

const isSpace = (code: number): boolean =>
  code === 32 ||
  (code > 127 && (code === 0x1680 || (code >= 0x2000 && code <= 0x200a && code !== 0x2007) || code === 0x205f || code === 0x3000));
/** What parts words for the ties: any white space, fixed ones included. */
const partsWords = (code: number): boolean =>
  isSpace(code) ||
  (code >= 9 && code <= 13) ||
  code === 0xa0 ||
  code === 0x2007 ||
  code === 0x2028 ||
  code === 0x2029 ||
  code === 0x202f ||
  code === 0xfeff;

/** Items of one paragraph; `divide` says whether words may be hyphenated. A word wider than `limit` is cut. */
export function itemsOf(runs: readonly Run[], kit: TextKit, limit: Mp, divide: boolean): Item[] {
  return runs.length === 0 ? [] : new ItemMaker(runs, kit, limit, divide).make();
}

class ItemMaker {
  private readonly runs: readonly Run[];
  private readonly kit: TextKit;
  private readonly limit: Mp;
  private readonly divide: boolean;
  private readonly joined: string;
  /** Where each run begins in the joined text. */
  private readonly starts: number[] = [];
  private readonly hasSilent: boolean;
  private readonly items: Item[] = [];
  private runIndex = 0;
  /** The last space that was met. */
  private space: Item | undefined;
  private spaceCode = 0;

  constructor(runs: readonly Run[], kit: TextKit, limit: Mp, divide: boolean) {
    this.runs = runs;
    this.kit = kit;
    this.limit = limit;
    this.divide = divide;
    let joined = '';
    for (const run of runs) {
      this.starts.push(joined.length);
      joined += run.chip ? chipMark : run.text;
    }
    this.joined = joined;
    this.hasSilent = joined.search(silentText) >= 0;
  }

  make(): Item[] {
    const { joined, items, limit } = this;
    const length = joined.length;
    let wordStart = 0;
    breakPlaces(joined, (position) => {
      let end = position;
      while (end > wordStart && isSpace(joined.charCodeAt(end - 1))) end -= 1;
      if (end < position) {
        if (position < length) {
          // The word before the space may have begun earlier (after a tie or a slash); judge by its last stretch.
          const left = lastSpaced(joined, end);
          if (mayHold(left)) {
            const until = this.wordEnd(position);
            if (tied(left, joined.slice(position, until)) && this.widthOf(wordStart, until) <= limit) return;
          }
        }
        if (end > wordStart) this.word(wordStart, end);
        if (position < length) this.glue(end);
      } else {
        const last = joined.charCodeAt(end - 1);
        const afterSlash = last === 0x2f;
        const afterHyphen = last === 0x2d || last === 0x2010 || last === 0x2013;
        if (position < length && (afterSlash || afterHyphen)) {
          const following = this.wordEnd(position) - position;
          // A slash or hyphen between short or numeric pieces belongs to a unit, a fraction or a code.
          if (following < 4 || end - wordStart < 4 || /\d/.test(joined.slice(wordStart, end))) return;
        }
        if (end > wordStart) this.word(wordStart, end);
        if (position < length) items.push(penalty(0, afterSlash || afterHyphen ? slashCost : tightCost, afterHyphen));
      }
      wordStart = position;
    });
    return items;
  }

  private wordEnd(from: number): number {
    const { joined } = this;
    let to = from;
    while (to < joined.length && !partsWords(joined.charCodeAt(to))) to += 1;
    return to;
  }

  /** The run a piece of the joined text lies in, where it is one run of text. */
  private runOf(from: number, to: number): Run | undefined {
    const { runs, starts } = this;
    while (this.runIndex > 0 && (starts[this.runIndex] as number) > from) this.runIndex -= 1;
    while (this.runIndex + 1 < runs.length && (starts[this.runIndex + 1] as number) <= from) this.runIndex += 1;
    const run = runs[this.runIndex] as Run;
    return run.chip || run.page !== undefined || to > (starts[this.runIndex] as number) + run.text.length ? undefined : run;
  }

  private printed(from: number, to: number): string {
    const piece = this.joined.slice(from, to);
    return this.hasSilent ? piece.replace(silentText, '') : piece;
  }

  private shape(piece: string, run: Run): readonly Shaped[] {
    return piece === '' ? nothing : this.kit.shaper.shape(run.look.face, piece);
  }

  private widthOf(from: number, to: number): Mp {
    const run = this.runOf(from, to);
    return run === undefined ? sumWidth(this.partsIn(from, to)) : widthOfAll(this.shape(this.printed(from, to), run), run.look.size);
  }

  private glue(at: number): void {
    const run = this.runOf(at, at + 1);
    if (run === undefined) {
      const parts = this.partsIn(at, at + 1);
      this.items.push(mixed('glue', sumWidth(parts), parts));
      return;
    }
    // Spaces of one run are alike, but for the few kinds of them.
    if (this.space?.run !== run || this.spaceCode !== this.joined.charCodeAt(at)) {
      const shaped = this.shape(this.printed(at, at + 1), run);
      this.space = text('glue', widthOfAll(shaped, run.look.size), run, shaped);
      this.spaceCode = this.joined.charCodeAt(at);
    }
    this.items.push(this.space);
  }

  private word(from: number, to: number): void {
    const { items, limit } = this;
    const run = this.runOf(from, to);
    if (run === undefined) {
      const parts = this.partsIn(from, to);
      const width = sumWidth(parts);
      if (width > limit) this.cut(parts);
      else items.push(mixed('box', width, parts));
      return;
    }
    const printed = this.printed(from, to);
    const shaped = this.shape(printed, run);
    const width = widthOfAll(shaped, run.look.size);
    if (width > limit) this.cut(shaped.map((one) => partOf([one], widthOfAll([one], run.look.size), run)));
    else if (!this.divide || printed === '' || !this.pieces(printed, run)) items.push(text('box', width, run, shaped));
  }

  private cut(parts: readonly Part[]): void {
    pushChunks(parts, this.kit.shaper, this.limit, (width, chunk) => {
      const { items } = this;
      if (items.length > 0 && items[items.length - 1]?.kind === 'box') items.push(penalty(0, 0, false));
      items.push(mixed('box', width, chunk));
    });
  }

  /** False where the word has no place for a hyphen. */
  private pieces(word: string, run: Run): boolean {
    const { items, kit } = this;
    const match = /^(\P{L}*)(\p{L}+)(\P{L}*)$/u.exec(word);
    if (match === null) return false;
    // A strong word before a colon is the name of what follows: it is what the eye looks for.
    if (run.look.face === 'bold' && (match[3] as string).startsWith(':')) return false;
    const texts = [...hyphenate(match[2] as string, run.language ?? kit.language)];
    if (texts.length < 2) return false;
    texts[0] = (match[1] as string) + texts[0];
    texts[texts.length - 1] += match[3] as string;
    const widthOf = (shaped: readonly Shaped[]): Mp => widthOfAll(shaped, run.look.size);
    const alone = texts.map((piece) => this.shape(piece, run));
    let done = '';
    const reached = texts.map((piece) => {
      done += piece;
      return widthOf(this.shape(done, run));
    });
    texts.forEach((piece, index) => {
      const shaped = alone[index] as readonly Shaped[];
      const next = alone[index + 1];
      // What two letters move together over a place for a hyphen belongs to the line that ends there: the one that begins there has its first letter whole.
      const closer = next === undefined ? 0 : (reached[index + 1] as Mp) - (reached[index] as Mp) - widthOf(next);
      const width = widthOf(shaped) + closer;
      items.push(text('box', width, run, shaped, piece));
      if (next === undefined) return;
      const hyphen = hyphenated(piece, run, kit);
      items.push(penalty(Math.max(0, widthOf(hyphen) - width), hyphenCost, true, run, hyphen));
    });
    return true;
  }

  /** A piece that runs over several runs, or is a chip or page number. */
  private partsIn(from: number, to: number): Part[] {
    const { runs, starts, kit, limit } = this;
    this.runOf(from, to);
    const parts: Part[] = [];
    for (let k = this.runIndex, position = from; position < to && k < runs.length; k += 1) {
      const run = runs[k] as Run;
      const end = (starts[k] as number) + (run.chip ? 1 : run.text.length);
      if (end <= position) continue;
      if (run.chip) {
        const shaped = this.shape(run.text, run);
        const width = widthOfAll(shaped, run.look.size) + 2 * chipPad;
        if (width <= limit) parts.push({ kind: 'chip', shaped, look: run.look, width, node: run.node });
        else if (shaped.length > 0) parts.push(partOf(shaped, width - 2 * chipPad, run));
      } else if (run.page !== undefined) {
        const width = kit.reserve(run.page, run.look);
        parts.push({ kind: 'page', anchor: run.page, look: run.look, width, node: run.node, to: run.page });
      } else {
        const shaped = this.shape(this.printed(position, Math.min(to, end)), run);
        if (shaped.length > 0) parts.push(partOf(shaped, widthOfAll(shaped, run.look.size), run));
      }
      position = Math.min(to, end);
    }
    return parts;
  }
}

const sumWidth = (parts: readonly Part[]): Mp => {
  let sum = 0;
  for (const { width } of parts) sum += width;
  return sum;
};

const lastSpaced = (text: string, end: number): string => {
  let start = end;
  while (start > 0 && text.charCodeAt(start - 1) !== 32) start -= 1;
  return text.slice(start, end);
};
