/** A registered name as it was written in running text - capitals, plural, one of several, line break - and another name in the same form. English. */

const VOWEL = /[aeiou]/;

/** Words with a plural of their own, as the look-up of names knows them. */
const IRREGULAR: Readonly<Record<string, string>> = {
  foot: 'feet',
  knife: 'knives',
  half: 'halves',
  tooth: 'teeth',
  shelf: 'shelves',
  leaf: 'leaves',
  person: 'people',
};
const SINGULAR: Readonly<Record<string, string>> = Object.fromEntries(Object.entries(IRREGULAR).map(([one, many]) => [many, one]));

export function plural(word: string): string {
  const lower = word.toLowerCase();
  const irregular = IRREGULAR[lower];
  if (irregular !== undefined) return irregular;
  if (/(?:s|x|z|ch|sh)$/.test(lower)) return `${word}es`;
  if (lower.endsWith('y') && !VOWEL.test(lower.charAt(lower.length - 2))) return `${word.slice(0, -1)}ies`;
  return `${word}s`;
}

export function singular(word: string): string {
  const lower = word.toLowerCase();
  const irregular = SINGULAR[lower];
  if (irregular !== undefined) return irregular;
  if (/[^aeiou]ies$/.test(lower) && lower.length > 4) return `${word.slice(0, -3)}y`;
  if (/(?:s|x|z|ch|sh)es$/.test(lower)) return word.slice(0, -2);
  return /[^s]s$/.test(lower) && lower.length > 2 ? word.slice(0, -1) : word;
}

/** Whether the last word of a name stands in the plural. */
function isPlural(name: string): boolean {
  const last = name.split(/\s+/).at(-1) ?? '';
  return singular(last) !== last;
}

const onLast = (name: string, change: (word: string) => string): string => name.replace(/\S+$/, change);

/** `written` stood for `name`; the same way of writing `to`. Undefined where it is no form of the name, but an alias. */
export function inFormOf(written: string, name: string, to: string): string | undefined {
  const plain = written.replace(/\s+/g, ' ').trim();
  const capitals = (form: string): string => inCapitalsOf(plain, name, form);
  if (fold(plain) === fold(name)) return capitals(to);
  if (fold(onLast(name, plural)) === fold(plain)) return capitals(isPlural(to) ? to : onLast(to, plural));
  if (fold(onLast(name, singular)) === fold(plain)) return capitals(isPlural(to) ? onLast(to, singular) : to);
  // A plural inside the name ("guards screw"), or signs left out.
  return stems(plain) === stems(name) ? capitals(to) : undefined;
}

function stems(text: string): string {
  return fold(text)
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '')
    .map(singular)
    .join(' ');
}

function inCapitalsOf(written: string, name: string, to: string): string {
  const small = /\p{Ll}/u;
  const letters = written.replace(/[^\p{L}]/gu, '');
  if (letters.length > 1 && !small.test(letters) && small.test(name)) return to.toUpperCase();
  const [first = ''] = written;
  const [registered = ''] = name;
  return first !== registered && first === registered.toUpperCase() ? to.charAt(0).toUpperCase() + to.slice(1) : to;
}

function fold(text: string): string {
  return text
    .toLowerCase()
    .replace(/[\u00a0\s]+/g, ' ')
    .replace(/\u2019/g, "'");
}

/** Whether "an" stands before a name. Undefined where letters do not tell (a number, an abbreviation). */
export function takesAn(name: string): boolean | undefined {
  if (!/^\p{L}/u.test(name) || /^\p{Lu}{2}|^\p{Lu}\b/u.test(name)) return undefined;
  const word = name.toLowerCase();
  if (/^(?:hour|honest|heir)/.test(word)) return true;
  if (/^(?:u[^aeiou][aeiou]|uni|eu|one\b|once\b)/.test(word)) return false;
  return VOWEL.test(word.charAt(0));
}
