/**
 * The inside of a cue as a tree (WebVTT 6.5 and 6.6): tags, character references, times in the text. Draws nothing.
 * Tags that close what is not open, or are not known, are left out; their words stay.
 */
import { vttTime } from './cue-time-read.ts';
import type { Seconds } from './model.ts';

export type CueNode =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'time'; readonly at: Seconds }
  | {
      readonly kind: CueTag;
      readonly classes: readonly string[];
      /** Of a voice or a language; empty where none was given. */
      readonly annotation: string;
      readonly children: readonly CueNode[];
    };
export type CueTag = 'c' | 'i' | 'b' | 'u' | 'ruby' | 'rt' | 'v' | 'lang';

const TAGS: ReadonlySet<string> = new Set<CueTag>(['c', 'i', 'b', 'u', 'ruby', 'rt', 'v', 'lang']);

/** Names of characters, with or without their semicolon as HTML has them. Those that captions need; a caller may give more. */
export const CHARACTER_NAMES: Readonly<Record<string, string>> = {
  'amp;': '&',
  amp: '&',
  'AMP;': '&',
  'lt;': '<',
  lt: '<',
  'gt;': '>',
  gt: '>',
  'quot;': '"',
  quot: '"',
  'apos;': "'",
  'nbsp;': '\u00a0',
  nbsp: '\u00a0',
  'lrm;': '\u200e',
  'rlm;': '\u200f',
  'deg;': '°',
  deg: '°',
  'plusmn;': '±',
  plusmn: '±',
  'times;': '×',
  times: '×',
  'micro;': 'µ',
  micro: 'µ',
  'middot;': '·',
  middot: '·',
  'ndash;': '–',
  'mdash;': '—',
  'hellip;': '…',
  'rsquo;': '’',
  'frac12;': '½',
  frac12: '½',
  'frac14;': '¼',
  frac14: '¼',
};

interface Open {
  readonly kind: CueTag | 'cue';
  readonly classes: readonly string[];
  readonly annotation: string;
  readonly children: CueNode[];
}

export function readCueText(text: string, names: Readonly<Record<string, string>> = CHARACTER_NAMES): readonly CueNode[] {
  const root: Open = { kind: 'cue', classes: [], annotation: '', children: [] };
  const stack: Open[] = [root];
  const top = (): Open => stack.at(-1) as Open;
  const close = (): void => {
    const done = stack.pop() as Open;
    if (done.kind !== 'cue') top().children.push({ ...done, kind: done.kind });
  };
  for (const token of tokens(text, names)) {
    if (token.kind === 'text') top().children.push(token);
    else if (token.kind === 'time') {
      const at = vttTime(token.text);
      if (at !== undefined) top().children.push({ kind: 'time', at });
    } else if (token.kind === 'start') {
      const kind = TAGS.has(token.name) ? (token.name as CueTag) : undefined;
      if (kind === undefined || (kind === 'rt' && top().kind !== 'ruby')) continue;
      stack.push({ kind, classes: token.classes, annotation: kind === 'v' || kind === 'lang' ? token.annotation : '', children: [] });
    } else if (stack.length > 1 && top().kind === token.name) close();
    else if (token.name === 'ruby' && top().kind === 'rt') {
      close();
      close();
    }
  }
  while (stack.length > 1) close();
  return root.children;
}

type Token =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'time'; readonly text: string }
  | { readonly kind: 'start'; readonly name: string; readonly classes: readonly string[]; readonly annotation: string }
  | { readonly kind: 'end'; readonly name: string };

function* tokens(text: string, names: Readonly<Record<string, string>>): Iterable<Token> {
  let at = 0;
  let run = '';
  while (at < text.length) {
    const next = text.charAt(at);
    if (next === '&') {
      const found = reference(text, at, names);
      run += found.text;
      at += found.length;
    } else if (next !== '<') {
      run += next;
      at += 1;
    } else {
      if (run !== '') yield { kind: 'text', text: run };
      run = '';
      const end = text.indexOf('>', at);
      const inside = text.slice(at + 1, end === -1 ? text.length : end);
      at = end === -1 ? text.length : end + 1;
      yield tag(inside, names);
    }
  }
  if (run !== '') yield { kind: 'text', text: run };
}

function tag(inside: string, names: Readonly<Record<string, string>>): Token {
  if (/^\d/.test(inside)) return { kind: 'time', text: inside };
  if (inside.startsWith('/')) return { kind: 'end', name: inside.slice(1) };
  const [, head = '', annotation = ''] = /^([^ \t\n\f]*)(?:[ \t\n\f](.*))?$/s.exec(inside) ?? [];
  const [name = '', ...classes] = head.split('.');
  return {
    kind: 'start',
    name,
    classes: classes.filter((one) => one !== ''),
    annotation: decoded(annotation, names)
      .trim()
      .replace(/[ \t\n\f\r]+/g, ' '),
  };
}

function decoded(text: string, names: Readonly<Record<string, string>>): string {
  let out = '';
  for (let at = 0; at < text.length; ) {
    const found = text.charAt(at) === '&' ? reference(text, at, names) : { text: text.charAt(at), length: 1 };
    out += found.text;
    at += found.length;
  }
  return out;
}

const LONGEST_NAME = 40;

/** A character reference at an ampersand (HTML, "named character reference state"): the longest name that fits; else the sign itself. */
function reference(text: string, at: number, names: Readonly<Record<string, string>>): { readonly text: string; readonly length: number } {
  const numbered = /^&#(?:[xX]([0-9a-fA-F]{1,6})|(\d{1,7}));?/.exec(text.slice(at, at + 12));
  if (numbered) {
    const code = numbered[1] === undefined ? Number(numbered[2]) : Number.parseInt(numbered[1], 16);
    const bad = code === 0 || code > 0x10ffff || (code >= 0xd800 && code <= 0xdfff);
    return { text: bad ? '\ufffd' : String.fromCodePoint(code), length: numbered[0].length };
  }
  const name = /^[a-zA-Z0-9]+;?/.exec(text.slice(at + 1, at + 1 + LONGEST_NAME))?.[0] ?? '';
  for (let length = name.length; length > 0; length -= 1) {
    const known = name.slice(0, length);
    if (Object.hasOwn(names, known)) return { text: names[known] as string, length: length + 1 };
  }
  return { text: '&', length: 1 };
}
