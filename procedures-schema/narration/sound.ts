/** How a word sounds, roughly: a key that misheard words share. Consonants in groups, vowels left out. A device of ours, in the manner of the phonetic codes used for names. */

const GROUPS: readonly (readonly [RegExp, string])[] = [
  [/^(?:kn|gn|pn)/, 'n'],
  [/^wr/, 'r'],
  [/^ps/, 's'],
  [/ph/g, 'f'],
  [/gh(?=t|$)/g, ''],
  [/tch|ch|sh|tion|sion/g, 'j'],
  [/th/g, 't'],
  [/ck|c(?![eiy])|q|x/g, 'k'],
  [/c|z/g, 's'],
  [/g(?=[eiy])/g, 'j'],
  [/[dt]/g, 't'],
  [/[bp]/g, 'p'],
  [/[fv]/g, 'f'],
  [/[gk]/g, 'k'],
  [/[mn]/g, 'n'],
];

/** Empty: too short to be told from others by sound. */
export function soundKey(word: string): string {
  if (!/^[a-z]{3,}$/.test(word)) return '';
  let text = word;
  for (const [group, sign] of GROUPS) text = text.replace(group, sign);
  const key = (/^[aeiou]/.test(text) ? 'a' : '') + text.replace(/[aeiouyhw]/g, '').replace(/(.)\1+/g, '$1');
  return key.length < 2 ? '' : key;
}

/** Number words that are heard as other words. */
export const HOMOPHONES: Readonly<Record<string, readonly string[]>> = {
  '#1': ['won'],
  '#2': ['to', 'too'],
  '#4': ['for', 'fore'],
  '#8': ['ate'],
  '#10': ['then', 'tin'],
};
