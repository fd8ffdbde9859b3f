/** Words of a text in look-up form, with where they stand. The unit names are matched by. */
import { foldText } from '../format/index.ts';

export interface FoldedWord {
  readonly word: string;
  readonly at: number;
  readonly end: number;
}

const WORD = /[\p{L}\p{N}]+(?:[-'’./][\p{L}\p{N}]+)*/gu;

export function foldWords(text: string): readonly FoldedWord[] {
  const out: FoldedWord[] = [];
  for (const found of text.matchAll(WORD)) out.push({ word: folded(found[0]), at: found.index, end: found.index + found[0].length });
  return out;
}

/** Nearly every word is plain letters, which have nothing to fold but their case. */
function folded(word: string): string {
  return PLAIN.test(word) ? word.toLowerCase() : foldText(word);
}

const PLAIN = /^[\w.'/-]+$/;

/** Irregular plurals of the trade, and regular ones that look like others. */
const IRREGULAR: Readonly<Record<string, string>> = {
  foot: 'feet',
  knife: 'knives',
  half: 'halves',
  tooth: 'teeth',
  shelf: 'shelves',
  leaf: 'leaves',
  person: 'people',
};

/** The forms in which an English word of a registered name may be typed, besides the word itself: its plurals, and its singulars. */
export function formsOf(word: string): { readonly plurals: readonly string[]; readonly singulars: readonly string[] } {
  const irregular = IRREGULAR[word];
  const plurals: string[] = irregular === undefined ? [] : [irregular];
  if (/[^s]y$/.test(word) && word.length > 2) plurals.push(`${word.slice(0, -1)}ies`);
  if (/(?:s|x|z|ch|sh)$/.test(word)) plurals.push(`${word}es`);
  if (!word.endsWith('s') && word.length > 1) plurals.push(`${word}s`);
  // The register may name the plural ("guard screws") and the writer one of them ("the guard screw").
  const singulars: string[] = [];
  if (/[^s]s$/.test(word) && word.length > 2) singulars.push(word.slice(0, -1));
  if (/(?:s|x|z|ch|sh)es$/.test(word)) singulars.push(word.slice(0, -2));
  if (/[^aeiou]ies$/.test(word) && word.length > 4) singulars.push(`${word.slice(0, -3)}y`);
  for (const [one, many] of Object.entries(IRREGULAR)) if (many === word) singulars.push(one);
  return { plurals, singulars };
}
