/**
 * A written sentence as a voice reads it: quantities with their units in words, and all that the table of rules names. Knows no procedure;
 * what is said of a step, and in which order, is for the script.
 */
import { type DecimalMark, type FoundQuantity, findQuantities, type Quantity } from '../quantities/index.ts';
import { sayNumber } from './number-words.ts';
import { SPOKEN_RULES, signAt } from './spoken-rules.ts';
import { sayUnit } from './unit-sayings.ts';
import { withPoint } from './with-point.ts';

/** The second value in brackets is not said: the screen shows both. `mark`: how the text writes its numbers. */
export function spokenForm(written: string, mark: DecimalMark = 'point'): string {
  const text = withPoint(written.replace(/[\u00a0\u202f\u2009]/g, ' '), mark);
  const quantities = new Map(findQuantities(text).map((found) => [found.at, found]));
  let out = '';
  let at = 0;
  while (at < text.length) {
    const quantity = quantities.get(at);
    if (quantity && !inName(text, at)) {
      out += sayFound(text, quantity);
      at = quantity.second?.end ?? quantity.end;
      continue;
    }
    const rule = ruleAt(text, at);
    if (rule) {
      out += rule.words;
      at += rule.length;
      continue;
    }
    const sign = signAt(text, at);
    out += sign ? sign.words : text.charAt(at);
    at += sign ? sign.length : 1;
  }
  return tidy(out);
}

function ruleAt(text: string, at: number): { readonly words: string; readonly length: number } | undefined {
  if (inName(text, at)) return undefined;
  for (const { pattern, say } of SPOKEN_RULES) {
    pattern.lastIndex = at;
    const match = pattern.exec(text);
    const words = match ? say(match) : undefined;
    if (match && words !== undefined) return { words, length: match[0].length };
  }
  return undefined;
}

/** Inside a word, where no number and no short form begins. */
const inName = (text: string, at: number): boolean => /[\p{L}\p{N}]/u.test(text.charAt(at)) && /[\p{L}\p{N}_]/u.test(text.charAt(at - 1));

/** The words round the value ("at least", "or more") stay as the writer has them. */
function sayFound(text: string, { quantity, at, end }: FoundQuantity): string {
  const typed = text.slice(at, end);
  const first = (quantity.nominal ?? quantity.lower ?? quantity.upper)?.text ?? '';
  const start = typed.indexOf(first);
  const before = spokenWords(typed.slice(0, Math.max(0, start)));
  const after = /\s*(?:\b(?:minimum|maximum|min|max)\b\.?|or (?:more|longer|less|below|shorter)|and (?:up|over))\s*$/i.exec(
    typed.slice(start + first.length),
  );
  const current = /\b(DC|AC)\s*$/.exec(typed)?.[1];
  // "2 min." after "at least" is two minutes, not two at the minimum.
  const tail = after && before === '' && /^at/.test(quantity.form) ? ` ${spokenWords(after[0].trim())}` : '';
  // The full stop of "lb." may end the sentence too.
  const stop = typed.endsWith('.') && tail === '' && /^(?:$|\s+\p{Lu})/u.test(text.slice(end)) ? '.' : '';
  return `${before}${sayQuantity(quantity)}${current === undefined ? '' : ` ${[...current].join(' ')}`}${tail}${stop}`;
}

const FULL: Readonly<Record<string, string>> = { min: 'minimum', 'min.': 'minimum', max: 'maximum', 'max.': 'maximum' };

/** "max. " and ">= " before a value. */
function spokenWords(words: string): string {
  let out = '';
  for (let at = 0; at < words.length; ) {
    const sign = signAt(words, at);
    out += sign ? sign.words : words.charAt(at);
    at += sign ? sign.length : 1;
  }
  return out.replace(/\b(?:min|max)\b\.?/gi, (short) => FULL[short.toLowerCase()] ?? short);
}

/** "25 ± 2 N·m": twenty-five plus or minus two newton metres. */
export function sayQuantity(quantity: Quantity): string {
  const { form, nominal, lower, upper, plus, unit } = quantity;
  const number = (typed: string | undefined) => sayNumber(typed ?? '') ?? { words: typed ?? '', count: 'many' as const };
  const withUnit = (typed: string | undefined): string => {
    const { words, count } = number(typed);
    return unit.symbol === '' ? words : `${words} ${sayUnit(unit.symbol, count)}`;
  };
  if (form === 'range') return `${number(lower?.text).words} ${/ and /.test(quantity.text) ? 'and' : 'to'} ${withUnit(upper?.text)}`;
  if (form === 'tolerance') return `${number(nominal?.text).words} plus or minus ${withUnit(plus?.text)}`;
  return withUnit((nominal ?? lower ?? upper)?.text);
}

const tidy = (text: string): string =>
  text
    .replace(/\s+/g, ' ')
    .replace(/ ([,.;:!?)])/g, '$1')
    .trim();
