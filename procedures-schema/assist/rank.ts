/** Orders what may be written by how well it answers what was typed. Knows nothing of what the names stand for. */
import { foldText } from '../format/index.ts';

/**
 * How well `label` answers `typed`: 0 starts with it, 1 a later word starts with it, 2 each typed word starts a word, in order,
 * 3 its letters come in order; undefined: not at all. Nothing typed: 0.
 */
export function fitOf(label: string, typed: string): 0 | 1 | 2 | 3 | undefined {
  const name = foldText(label);
  const wanted = foldText(typed);
  if (wanted === '' || name.startsWith(wanted)) return 0;
  const starts = wordStarts(name);
  if (starts.some((at) => name.startsWith(wanted, at))) return 1;
  const words = wanted.split(' ');
  let from = 0;
  const each = words.every((word) => {
    const at = starts.find((start) => start >= from && name.startsWith(word, start));
    if (at === undefined) return false;
    from = at + word.length;
    return true;
  });
  if (each) return 2;
  // One letter alone comes in order in nearly every name.
  return wanted.length >= 2 && inOrder(name, wanted) ? 3 : undefined;
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
  return things
    .flatMap((thing, order) => {
      const { spellings, weight } = of(thing);
      const fits = spellings.flatMap((spelling) => fitOf(spelling, typed) ?? []);
      return fits.length === 0 ? [] : [{ thing, fit: Math.min(...fits), weight, order }];
    })
    .sort((a, b) => a.fit - b.fit || a.weight - b.weight || a.order - b.order)
    .map(({ thing }) => thing);
}
