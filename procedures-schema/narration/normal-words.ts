/**
 * Spoken or captioned words as tokens that can be compared: numbers as values, units as symbols, names joined, labels apart from values.
 * Both sides of an alignment go through here, so that "25 Nm" and "twenty-five newton metres" are the same.
 */
import { type Rational, toText } from '../quantities/index.ts';
import { readNumber } from './number-read.ts';
import { spokenForm } from './spoken.ts';
import { readUnit } from './unit-read.ts';

export type TokenKind = 'word' | 'number' | 'unit' | 'name' | 'label';

export interface Token {
  readonly kind: TokenKind;
  /** What is compared: "bolt", "#25", "~N·m", "=om3140", "step 4". */
  readonly key: string;
  readonly value?: Rational;
  /** Symbol of the unit. */
  readonly unit?: string;
  /** Which of the spoken words it was made from: [first, one past the last). */
  readonly at: number;
  readonly end: number;
}

export interface NormalText {
  /** Spoken words in order, as they stand. */
  readonly words: readonly string[];
  readonly tokens: readonly Token[];
}

/** Sounds that carry nothing. */
const FILLERS: ReadonlySet<string> = new Set(['um', 'uh', 'er', 'erm', 'hm']);
const LABELLED = /^(?:step|figure|table|section|item)s?$/;
const LINKS: ReadonlySet<string> = new Set(['to', 'and', 'or', 'through']);

/** Units whose words mean nothing else: known as such even where their number was not heard. */
const LONE_UNITS: ReadonlySet<string> = new Set('mm cm m µm kg g L mL min N·m lbf·ft lbf·in psi kPa MPa °C °F V A Ω kΩ MΩ Hz %'.split(' '));

/** `prefixes`: letters that begin names ("om", "dl"), so that captions in lower case still hold them together with their number. */
export function normalText(text: string, prefixes: ReadonlySet<string> = new Set()): NormalText {
  const words = spokenWords(text);
  return { words, tokens: tokensOf(words, prefixes) };
}

/** The words of a text as they are spoken, signs and hyphens taken off. */
export const spokenWords = (text: string): readonly string[] =>
  (spokenForm(apart(text)).match(/[\p{L}\p{N}]+(?:['’]\p{L}+)?|[%|]|[,;:.!?](?= )/gu) ?? []).map((word) =>
    /^[,;:.!?]$/.test(word) ? APART : word.replaceAll('’', "'"),
  );

/** Stands between two numbers, so that "0.5 4" or "DL-20, 105" are not read as one once both are words. Never a token. */
export const APART = '|';
/** "point 3", "0.5 point 1.5", "148 point 165": whoever writes figures writes the point of a decimal too, so the word was something else. "5 point 5" may be one. */
const NO_DECIMALS = /(?<!\d )\bpoint (?=\d)|(?<=\d\.\d+ )point (?=\d)|(?<=\d )point (?=\d+\.\d|\d{3})/gi;
const apart = (text: string): string =>
  text.replace(/(\d) (?=\d+(?:\.\d+)?(?![\d/]))/g, `$1 ${APART} `).replace(NO_DECIMALS, `$&${APART} `);

/** Prefixes of the names in a script. */
export const namePrefixes = (tokens: readonly Token[]): ReadonlySet<string> =>
  new Set(tokens.flatMap(({ kind, key }) => (kind === 'name' ? (/^=([a-z]+)/.exec(key)?.[1] ?? []) : [])));

export function tokensOf(words: readonly string[], prefixes: ReadonlySet<string>): readonly Token[] {
  const lower = words.map((word) => word.toLowerCase());
  const out: Token[] = [];
  let at = 0;
  const push = (kind: TokenKind, key: string, end: number, more: Partial<Token> = {}): void => {
    out.push({ kind, key, at, end, ...more });
    at = end;
  };
  while (at < words.length) {
    const word = lower[at] as string;
    if (FILLERS.has(word) || word === APART) {
      at += 1;
      continue;
    }
    if (word === 'plus' && lower[at + 1] === 'or' && lower[at + 2] === 'minus') {
      push('word', 'plus or minus', at + 3);
      continue;
    }
    const letters = lettersAt(words, at);
    const name = letters ?? (prefixes.has(word) ? { text: word, length: 1 } : undefined);
    const named = name ? readNumber(lower, at + name.length) : undefined;
    if (name && named && (letters || prefixes.has(name.text))) {
      push('name', `=${name.text}${toText(named.value)}`, at + name.length + named.length);
      continue;
    }
    if (letters && letters.length > 1) {
      push('word', letters.text, at + letters.length);
      continue;
    }
    const number = readNumber(lower, at);
    const before = out.at(-1);
    if (number && labelFollows(before, out)) {
      push('label', `step ${toText(number.value)}`, at + number.length);
      continue;
    }
    if (number) {
      const unit = readUnit(lower, at + number.length);
      push('number', `#${toText(number.value)}`, at + number.length, { value: number.value, ...(unit ? { unit: unit.symbol } : {}) });
      if (unit) push('unit', `~${unit.symbol}`, at + unit.length, { unit: unit.symbol });
      continue;
    }
    const lone = readUnit(lower, at);
    if (lone && LONE_UNITS.has(lone.symbol) && lower[at] !== 'of' && !/^an?$/.test(word))
      push('unit', `~${lone.symbol}`, at + lone.length, { unit: lone.symbol });
    else push('word', stem(word), at + 1);
  }
  return withRangeUnits(out);
}

/** Capital letters said one by one: "O M" is om. A lone one counts too: "M twelve". */
function lettersAt(words: readonly string[], at: number): { readonly text: string; readonly length: number } | undefined {
  let end = at;
  while (/^[A-Z]$/.test(words[end] ?? '') || (end > at && /^[a-z]$/.test(words[end] ?? '') && words[end] !== 'a')) end += 1;
  if (end === at && /^[b-z]$/.test(words[at] ?? '')) while (/^[a-z]$/.test(words[end] ?? '')) end += 1;
  // "A" alone begins a sentence more often than a name.
  return end === at || words.slice(at, end).join('') === 'A'
    ? undefined
    : { text: words.slice(at, end).join('').toLowerCase(), length: end - at };
}

/** "step four", and "seven" in "steps four to seven". */
function labelFollows(before: Token | undefined, out: readonly Token[]): boolean {
  if (!before) return false;
  if (before.kind === 'word' && LABELLED.test(before.key)) return true;
  return before.kind === 'word' && LINKS.has(before.key) && out.at(-2)?.kind === 'label';
}

/** In "0.5 to 1.5 mm" the unit is that of both. */
function withRangeUnits(tokens: readonly Token[]): readonly Token[] {
  return tokens.map((token, index) => {
    if (token.kind !== 'number' || token.unit !== undefined) return token;
    const [link, next] = [tokens[index + 1], tokens[index + 2]];
    const joins = link?.kind === 'word' && /^(?:to|and|plus or minus|by)$/.test(link.key) && next?.kind === 'number';
    return joins && next.unit !== undefined ? { ...token, unit: next.unit } : token;
  });
}

/** Plurals and American spelling folded. */
export function stem(word: string): string {
  const folded = word
    .replace(/'s?$/, '')
    .replace(/metre/g, 'meter')
    .replace(/litre/g, 'liter')
    .replace(/(?<=.)our$/, 'or')
    .replace(/tyre/g, 'tire');
  if (folded.length > 4 && /(?:ches|shes|xes|sses)$/.test(folded)) return folded.slice(0, -2);
  return folded.length > 3 && /[^su]s$/.test(folded) ? folded.slice(0, -1) : folded;
}
