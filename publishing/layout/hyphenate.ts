/**
 * Where a word may be divided: the TeX patterns of US English with the exceptions of hyphen.tex, and those of German. A language without
 * patterns is not divided. Leaves the decision to the line breaker.
 */

import german from 'hyphenation.de';
import english from 'hyphenation.en-us';
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

interface Divider {
  readonly hypher: Hypher;
  /** The same letters may be two words in two languages, so each keeps its own. */
  readonly known: Map<string, readonly string[]>;
}

/** By the first part of a name as BCP 47 writes it. */
const patterns: Readonly<Record<string, () => Hypher>> = {
  de: () => new Hypher(german),
  en: () => new Hypher({ ...english, exceptions: texExceptions.map((word) => word.replaceAll('-', '\u2027')).join(', ') }),
};

const dividers = new Map<string, Divider | undefined>();

/** Made when first asked for: thousands of patterns take longer to read than a leaf to lay out. */
function dividerOf(language: string): Divider | undefined {
  if (dividers.has(language)) return dividers.get(language);
  const make = patterns[language.toLowerCase().split('-')[0] ?? ''];
  const made = make === undefined ? undefined : { hypher: make(), known: new Map<string, readonly string[]>() };
  dividers.set(language, made);
  return made;
}

/** Words that are divided at all: plain small letters, perhaps one capital in front. Codes, names in capitals and numbers stay whole. */
const divisible = /^\p{L}\p{Ll}{5,}$/u;

/** The parts of a word between which a hyphen may stand; the word alone when it may not be divided. */
export function hyphenate(word: string, language: string): readonly string[] {
  if (!divisible.test(word)) return [word];
  const divider = dividerOf(language);
  if (divider === undefined) return [word];
  let parts = divider.known.get(word);
  if (parts === undefined) {
    parts = divider.hypher.hyphenate(word);
    divider.known.set(word, parts);
  }
  return parts;
}
