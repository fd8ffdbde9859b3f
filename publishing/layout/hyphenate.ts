/** Where a word may be divided: the TeX patterns of US English with the exceptions of hyphen.tex. Leaves the decision to the line breaker. */

import patterns from 'hyphenation.en-us';
import Hypher from 'hypher';

/** The 14 exceptions published with TeX's hyphen.tex. The library wants U+2027 between the parts. */
export const texExceptions: readonly string[] = [
  'as-so-ciate',
  'as-so-ciates',
  'dec-li-na-tion',
  'oblig-a-tory',
  'phil-an-thropic',
  'present',
  'presents',
  'project',
  'projects',
  'reci-procity',
  're-cog-ni-zance',
  'ref-or-ma-tion',
  'ret-ri-bu-tion',
  'ta-ble',
];

const byLanguage: Readonly<Record<string, Hypher>> = {
  en: new Hypher({ ...patterns, exceptions: texExceptions.map((word) => word.replaceAll('-', '\u2027')).join(', ') }),
};

const cache = new Map<string, readonly string[]>();

/** Words that are divided at all: plain small letters, perhaps one capital in front. Codes, names in capitals and numbers stay whole. */
const divisible = /^\p{L}\p{Ll}{5,}$/u;

/** The parts of a word between which a hyphen may stand; the word alone when it may not be divided. */
export function hyphenate(word: string, language: string): readonly string[] {
  const hypher = byLanguage[language.slice(0, 2)];
  if (hypher === undefined || !divisible.test(word)) return [word];
  let parts = cache.get(word);
  if (parts === undefined) {
    parts = hypher.hyphenate(word);
    cache.set(word, parts);
  }
  return parts;
}
