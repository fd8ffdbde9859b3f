/**
 * What is not said as it is written, besides quantities: a table of patterns, tried in order where a word begins. Each row says what it is for.
 * Pure text; which numbers are quantities is for `spoken.ts`.
 */
import { cardinal, digits, ordinal, sayNumber, year } from './number-words.ts';
import { CAPITALS_SAID, MONTHS, SHORT_FORMS, SIGNS, SPELLED } from './sign-sayings.ts';

export interface SpokenRule {
  readonly for: string;
  /** Sticky; must match at the start of a word. */
  readonly pattern: RegExp;
  /** Undefined: not meant after all; the next row is tried. */
  readonly say: (match: RegExpExecArray) => string | undefined;
}

const NUMBER = String.raw`(?:\d+[ -])?\d+\/\d+|\d*[½¼¾⅛⅜⅝⅞⅓⅔⅕⅙]|\d+(?:,\d{3})*(?:\.\d+)?|\.\d+`;
const LABEL = String.raw`[A-Z]?\d+(?:\.\d+)*[a-z]{0,2}(?![\w/])|[A-Z](?:\d+[a-z]?)?(?!\w)`;

const said = (typed: string): string => sayNumber(typed)?.words ?? typed;
const spell = (letters: string): string => [...letters].join(' ');
const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
/** Longest first, so that ">=" is not read as ">". */
const oneOf = (words: readonly string[]): string =>
  [...words]
    .sort((a, b) => b.length - a.length)
    .map(escaped)
    .join('|');

/** "4b" four B, "3.2" three point two, "C2" C two: as a voice on the telephone says it. */
export function sayLabel(label: string): string {
  return [...label.matchAll(/\d+|[A-Za-z]+|\./g)]
    .map(([part], index) =>
      part === '.'
        ? /^\.[a-z]/i.test(label.slice(label.indexOf('.'))) && index > 0
          ? ''
          : 'point'
        : /\d/.test(part)
          ? cardinal(Number(part))
          : spell(part.toUpperCase()),
    )
    .filter((part) => part !== '')
    .join(' ');
}

/** The figures of a name ("OM-3140", "EF-450", "LT-1000"): whole hundreds and short ones as a number, others figure by figure. */
function nameNumber(text: string): string {
  const whole = Number(text);
  return text.startsWith('0') || text.length > 4 || (text.length === 4 && whole % 100 !== 0) ? digits(text) : cardinal(whole);
}

/** "OM-3140" O M three one four zero; "M12" M twelve; "SP-90B" S P ninety B. */
export const sayName = (name: string): string =>
  [...name.matchAll(/[A-Za-z]+|\d+/g)].map(([part]) => (/\d/.test(part) ? nameNumber(part) : spell(part.toUpperCase()))).join(' ');

export const SPOKEN_RULES: readonly SpokenRule[] = [
  {
    for: 'a callout of a figure, which is shown and not said',
    pattern: /\s?\((?:\d{1,2}(?:,? (?:and |to )?\d{1,2})*)\)/y,
    say: () => '',
  },
  {
    for: 'a date by ISO 8601',
    pattern: /(\d{4})-(\d\d)-(\d\d)(?!\d)/y,
    say: ([, y, m, d]) =>
      MONTHS[Number(m) - 1] === undefined ? undefined : `the ${ordinal(Number(d))} of ${MONTHS[Number(m) - 1]} ${year(Number(y))}`,
  },
  {
    for: 'a ratio or mix',
    pattern: /(ratio of |mix(?:ed|ture)? |mixed at )(\d+):(\d+)(?!\d)/iy,
    say: ([, before, a, b]) => `${before}${cardinal(Number(a))} to ${cardinal(Number(b))}`,
  },
  {
    for: 'a time of the day',
    pattern: /([01]?\d|2[0-3]):([0-5]\d)(?![\d:])/y,
    say: ([, h, m]) =>
      `${cardinal(Number(h))} ${m === '00' ? "o'clock" : m?.startsWith('0') ? `oh ${cardinal(Number(m))}` : cardinal(Number(m))}`,
  },
  { for: 'any other ratio', pattern: /(\d+):(\d+)(?![\d:])/y, say: ([, a, b]) => `${cardinal(Number(a))} to ${cardinal(Number(b))}` },
  {
    for: 'serial and part numbers, figure by figure',
    pattern: /((?:serial|part|order|tag) (?:numbers?|no\.?) )(\d+)((?: (?:to|and|or) \d+)*)/iy,
    say: ([, before, first, more]) => `${before}${digits(first ?? '')}${(more ?? '').replace(/\d+/g, digits)}`,
  },
  {
    for: 'labels of steps, tables and figures',
    pattern: new RegExp(`((?:steps?|figures?|tables?|sections?|items?) )(${LABEL})((?:(?:,| to| and| or|, and) (?:${LABEL}))*)`, 'iy'),
    // "Section A" is a label, "section Close up" a title: the pattern is without case for the word, the label is not.
    say: ([, before, first, more]) =>
      /^[A-Z]?\d|^[A-Z]$/.test(first ?? '')
        ? `${before}${sayLabel(first ?? '')}${(more ?? '').replace(/(, and|,| to| and| or) (\S+)/g, (_, link, label) => `${link} ${sayLabel(label)}`)}`
        : undefined,
  },
  {
    for: 'a fine thread, with its pitch',
    pattern: /(M\d+(?:\.\d+)?) ?[x×] ?(\d+(?:\.\d+)?)(?!\w)/y,
    say: ([, size, pitch]) => `M ${said((size ?? '').slice(1))} by ${said(pitch ?? '')}`,
  },
  {
    for: 'an inch thread',
    pattern: /(\d+\/\d+|#\d+|\d+ \d+\/\d+)-(\d+)(?= UN[CFR]| thread)/y,
    say: ([, size, threads]) => `${size?.startsWith('#') ? `number ${said(size.slice(1))}` : said(size ?? '')} ${said(threads ?? '')}`,
  },
  { for: 'metric thread sizes', pattern: /M(\d+(?:\.\d+)?)(?![\w-])/y, say: ([, size]) => `M ${said(size ?? '')}` },
  { for: 'pipe threads', pattern: /G ?(\d+\/\d+)(?!\w)/y, say: ([, size]) => `G ${said(size ?? '')}` },
  {
    for: 'names of documents, models and parts',
    pattern: /[A-Z]{1,4}-?\d{1,8}[A-Za-z]?(?:-\d{1,6}[A-Za-z]?)?(?!\w)/y,
    say: ([name]) => sayName(name),
  },
  { for: 'ordinals', pattern: /(\d+)(?:st|nd|rd|th)(?!\w)/y, say: ([, n]) => ordinal(Number(n)) },
  { for: '"number" as a sign', pattern: /#(\d+)(?!\w)/y, say: ([, n]) => `number ${cardinal(Number(n))}` },
  { for: 'how many of a thing', pattern: /(\d+) ?[x×] (?=[A-Za-z])/y, say: ([, n]) => `${cardinal(Number(n))} ` },
  { for: 'how many times', pattern: /(\d+)[x×](?!\w)/y, say: ([, n]) => `${cardinal(Number(n))} times` },
  {
    for: 'two sizes with a sign between',
    pattern: new RegExp(`(${NUMBER}) ?[x×] ?(?=${NUMBER})`, 'y'),
    say: ([, a]) => `${said(a ?? '')} by `,
  },
  {
    for: 'the same where the first has its unit',
    pattern: /[x×] (?=\d)/y,
    say: () => 'by ',
  },
  {
    for: 'a range of bare numbers',
    pattern: new RegExp(`(${NUMBER}) ?(?:–|-|—|…|\\.\\.\\.) ?(${NUMBER})(?![\\w/])`, 'y'),
    say: ([, a, b]) => `${said(a ?? '')} to ${said(b ?? '')}`,
  },
  {
    for: 'a number joined to a word',
    pattern: /(\d+)-(?=[a-z]{2})/y,
    say: ([, n]) => `${cardinal(Number(n))}-`,
  },
  {
    for: 'short forms',
    pattern: new RegExp(`(?:${oneOf(Object.keys(SHORT_FORMS))})(?![A-Za-z])`, 'iy'),
    say: ([short]) => SHORT_FORMS[short.toLowerCase()],
  },
  {
    for: 'capitals that stand for words',
    pattern: new RegExp(`(?:${oneOf(Object.keys(CAPITALS_SAID))})(?!\\w)`, 'y'),
    say: ([capitals]) => CAPITALS_SAID[capitals],
  },
  {
    for: 'capitals said one by one',
    pattern: /[A-Z]{2,4}(?!\w)/y,
    say: ([capitals]) => (SPELLED.has(capitals) ? spell(capitals) : undefined),
  },
  { for: 'bare numbers', pattern: new RegExp(`[-−]?(?:${NUMBER})(?![\\w])`, 'y'), say: ([n]) => sayNumber(n)?.words },
];

const SIGN = new RegExp(oneOf(Object.keys(SIGNS)), 'y');

/** Signs may stand anywhere, inside a word or not. */
export function signAt(text: string, at: number): { readonly words: string; readonly length: number } | undefined {
  SIGN.lastIndex = at;
  const found = SIGN.exec(text);
  return found ? { words: ` ${SIGNS[found[0]]} `, length: found[0].length } : undefined;
}
