/**
 * Optimal line breaks for ragged-right text after Knuth and Plass, "Breaking Paragraphs into Lines", Software: Practice and
 * Experience 11 (1981): boxes, glue and penalties, least sum of demerits over the whole paragraph, in whole numbers.
 * Leaves shaping and drawing to paragraph.ts. Ragged, because even word spaces read better at arm's length than even edges.
 */
import type { Mp } from './units.ts';

export type BreakItem =
  | { readonly kind: 'box'; readonly width: Mp }
  | { readonly kind: 'glue'; readonly width: Mp }
  /** A break that may be taken here, at this cost, adding this width (a hyphen). */
  | { readonly kind: 'penalty'; readonly width: Mp; readonly cost: number; readonly hyphen: boolean };

export interface LineBreaks {
  /** Item index each line ends before; the last is the item count. */
  readonly ends: readonly number[];
  /** The worst badness of a line that is not the last, 0 to 10,000. */
  readonly worst: number;
}

const maxBadness = 10_000;
/** Two hyphens under each other, and a hyphen before the last line, as TeX's plain format weighs them. */
const doubleHyphen = 10_000;
const finalHyphen = 5_000;
/** A last line shorter than `stub`, a word alone, costs the part of this that it is short by: all of it as much as a line that falls short by 1.85 times the stretch. */
const stubDemerits = 400_000;

/** 100 times the cube of shortfall over stretch, as TeX's badness. */
function badness(shortfall: Mp, stretch: Mp): number {
  const ratio = Math.floor((shortfall * 1000) / stretch);
  if (ratio > 4700) return maxBadness;
  return Math.min(maxBadness, Math.floor((ratio * ratio * ratio) / 10_000_000));
}

/**
 * Breaks into lines of `width`. `stretch` is how much raggedness is taken as one unit (about three ems).
 * A line is overfull only where one box is wider than the line.
 */
export function breakLines(items: readonly BreakItem[], width: Mp, stretch: Mp, stub: Mp): LineBreaks {
  const count = items.length;
  // upTo[i]: width of boxes and glue before item i.
  const upTo: Mp[] = new Array<Mp>(count + 1);
  upTo[0] = 0;
  for (let i = 0; i < count; i += 1) {
    const item = items[i] as BreakItem;
    upTo[i + 1] = (upTo[i] as Mp) + (item.kind === 'penalty' ? 0 : item.width);
  }
  // Breaks: at glue after a box, at penalties, and at the end. `from` is where the next line starts.
  interface Node {
    readonly end: number;
    readonly from: number;
    readonly hyphen: boolean;
    readonly best: number;
    readonly worst: number;
    readonly before: Node | undefined;
  }
  let active: Node[] = [{ end: 0, from: 0, hyphen: false, best: 0, worst: 0, before: undefined }];
  const tryBreak = (at: number, extra: Mp, cost: number, hyphen: boolean, from: number): void => {
    const last = at === count;
    let chosen: Node | undefined;
    let drop = 0;
    for (let k = 0; k < active.length; k += 1) {
      const node = active[k] as Node;
      const length = (upTo[at] as Mp) - (upTo[node.from] as Mp) + extra;
      const shortfall = width - length;
      const lastChoice = k === active.length - 1 && chosen === undefined;
      if (shortfall < 0) {
        drop = k + 1;
        if (!lastChoice) continue;
      }
      const bad = shortfall < 0 ? maxBadness : last ? 0 : badness(shortfall, stretch);
      const line = 10 + bad;
      let demerits = line * line + cost * cost;
      if (hyphen && node.hyphen) demerits += doubleHyphen;
      if (last && node.hyphen) demerits += finalHyphen;
      if (last && node.from > 0 && length < stub) demerits += Math.floor((stubDemerits * (stub - length)) / stub);
      if (shortfall < 0) demerits += maxBadness * maxBadness;
      const best = node.best + demerits;
      if (chosen === undefined || best < chosen.best) {
        chosen = { end: at, from, hyphen, best, worst: last ? node.worst : Math.max(node.worst, bad), before: node };
      }
    }
    if (drop > 0) active = active.slice(Math.min(drop, active.length));
    if (chosen !== undefined) active.push(chosen);
  };
  for (let i = 0; i < count; i += 1) {
    const item = items[i] as BreakItem;
    if (item.kind === 'glue' && i > 0 && items[i - 1]?.kind === 'box') {
      let from = i + 1;
      while (from < count && items[from]?.kind === 'glue') from += 1;
      tryBreak(i, 0, 0, false, from);
    } else if (item.kind === 'penalty') tryBreak(i, item.width, item.cost, item.hyphen, i + 1);
  }
  tryBreak(count, 0, 0, false, count);
  const ends: number[] = [];
  const final = active[active.length - 1] as Node;
  for (let node: Node | undefined = final; node?.before !== undefined; node = node.before) ends.unshift(node.end);
  return { ends, worst: final.worst };
}

/** The breaks of the narrowest lines that are as many: a title does not leave one word alone on its second line. */
export function evened(items: readonly BreakItem[], breaks: LineBreaks, width: Mp, stretch: Mp, stub: Mp): LineBreaks {
  if (breaks.ends.length < 2) return breaks;
  const widest = Math.max(...items.map((item) => (item.kind === 'box' ? item.width : 0)));
  let best = breaks;
  let [low, high] = [Math.min(width, Math.max(widest, Math.round(width / 2))), width];
  while (high - low > 1000) {
    const middle = Math.round((low + high) / 2);
    const tried = breakLines(items, middle, stretch, stub);
    if (tried.ends.length > breaks.ends.length) low = middle;
    else {
      best = tried;
      high = middle;
    }
  }
  return best;
}
