/** Whether a word is spelt as the house spells, and what to write instead of one that is not. Knows no dictionary; it is asked through `has`. */
import { britishOf, type EnglishSpelling, isBritish } from './variants.ts';

export interface Judge {
  /** Whether the dictionary has a word. */
  readonly has: (word: string) => boolean;
  /** Whether the library itself says it so: a name of its registers is right as it stands there. */
  readonly own: (word: string) => boolean;
  readonly spelling: EnglishSpelling;
}

export function isRight(word: string, { has, own, spelling }: Judge): boolean {
  const plain = word.replace(/’/g, "'");
  const bare = plain.replace(/'s$/, '');
  if (own(word) || own(bare)) return true;
  if (spelling === 'american') return has(plain);
  if (isBritish(bare, has)) return true;
  return has(plain) && (spelling === 'both' || britishOf(bare, has) === undefined);
}

/** Best first. `suggested` is what the dictionary has near to it. */
export function instead(word: string, suggested: readonly string[], { has, spelling }: Judge): readonly string[] {
  if (spelling === 'american') return suggested;
  const twin = britishOf(word, has);
  const near = suggested.flatMap((one) => {
    const british = britishOf(one, has);
    if (british === undefined) return [one];
    return spelling === 'british' ? [british] : [one, british];
  });
  return [...new Set([...(twin === undefined ? [] : [twin]), ...near])];
}
