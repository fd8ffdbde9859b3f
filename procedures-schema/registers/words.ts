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
  for (const found of text.matchAll(WORD))
    out.push({ word: foldText(found[0]).replace(/’/g, "'"), at: found.index, end: found.index + found[0].length });
  return out;
}

/** Singular forms an English plural may come from, the word itself first. Irregular ones of the trade are listed. */
const IRREGULAR: Readonly<Record<string, string>> = {
  feet: 'foot',
  knives: 'knife',
  halves: 'half',
  teeth: 'tooth',
  shelves: 'shelf',
  leaves: 'leaf',
  people: 'person',
  valves: 'valve',
  sleeves: 'sleeve',
};

export function singularsOf(word: string): readonly string[] {
  const irregular = IRREGULAR[word];
  if (irregular !== undefined) return [word, irregular];
  const out = [word];
  if (word.endsWith('ies') && word.length > 4) out.push(`${word.slice(0, -3)}y`);
  if (/(?:s|x|z|ch|sh)es$/.test(word)) out.push(word.slice(0, -2));
  if (word.endsWith('s') && !word.endsWith('ss') && word.length > 2) out.push(word.slice(0, -1));
  return out;
}
