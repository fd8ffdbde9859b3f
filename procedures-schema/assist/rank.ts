/** Orders what may be written by how well it answers what was typed. Knows nothing of what the names stand for. */
import { foldText } from '../format/index.ts';

/**
 * How well `label` answers `typed`: 0 starts with it, 1 a later word starts with it, 2 each typed word starts a word, in order,
 * 3 its letters come in order; undefined: not at all. Nothing typed: 0.
 */
export function fitOf(label: string, typed: string): 0 | 1 | 2 | 3 | undefined {
  return answered(knownLabel(label), foldText(typed));
}

interface Label {
  readonly folded: string;
  /** Where its words start. */
  readonly starts: readonly number[];
}

function answered({ folded, starts }: Label, wanted: string): 0 | 1 | 2 | 3 | undefined {
  if (wanted === '' || folded.startsWith(wanted)) return 0;
  if (starts.some((at) => folded.startsWith(wanted, at))) return 1;
  let from = 0;
  const each = wanted.split(' ').every((word) => {
    const at = starts.find((start) => start >= from && folded.startsWith(word, start));
    if (at === undefined) return false;
    from = at + word.length;
    return true;
  });
  if (each) return 2;
  // One letter alone comes in order in nearly every name.
  return wanted.length >= 2 && inOrder(folded, wanted) ? 3 : undefined;
}

/** The same names are asked for at each key. */
const LABELS = new Map<string, Label>();
const MOST_LABELS = 50_000;

function knownLabel(text: string): Label {
  const known = LABELS.get(text);
  if (known) return known;
  if (LABELS.size >= MOST_LABELS) LABELS.clear();
  const folded = foldText(text);
  const made = { folded, starts: wordStarts(folded) };
  LABELS.set(text, made);
  return made;
}

function wordStarts(name: string): number[] {
  const out: number[] = [];
  for (let at = 0; at < name.length; at++) if (isWord(name[at]) && !isWord(name[at - 1])) out.push(at);
  return out;
}

const isWord = (c: string | undefined): boolean => c !== undefined && /[\p{L}\p{N}]/u.test(c);

function inOrder(name: string, letters: string): boolean {
  let at = 0;
  for (const letter of letters) {
    at = name.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}

/** Those that fit, best first; of equals those with the lower `weight`, then as given. */
export function ranked<T>(
  things: readonly T[],
  typed: string,
  of: (thing: T) => { readonly spellings: readonly string[]; readonly weight: number },
): T[] {
  const wanted = foldText(typed);
  return things
    .flatMap((thing, order) => {
      const { spellings, weight } = of(thing);
      let best = 4;
      for (const spelling of spellings) best = Math.min(best, answered(knownLabel(spelling), wanted) ?? 4);
      return best === 4 ? [] : [{ thing, fit: best, weight, order }];
    })
    .sort((a, b) => a.fit - b.fit || a.weight - b.weight || a.order - b.order)
    .map(({ thing }) => thing);
}
