/** Finding and replacing text in the whole library: plain or by pattern, with a preview. Never slower than the texts are long. */
import type { Span, TextEdit } from '../finding.ts';
import { positionAt, type SourceText, sourceOf } from '../format/index.ts';
import type { LibraryText, Proposal } from './model.ts';
import { compilePattern, PatternError } from './pattern.ts';
import { foldUnit, isWordUnit } from './pattern-parse.ts';
import { matchFrom, type PatternMatch } from './pattern-run.ts';
import { proposalOf } from './proposals.ts';

export interface FindOptions {
  /** The query is a pattern; else plain text. */
  readonly pattern?: boolean;
  readonly matchCase?: boolean;
  readonly wholeWord?: boolean;
  /** Matches given at most; 1000 unless told. */
  readonly most?: number;
  /** Replaced is only the match that begins there. */
  readonly only?: number;
}

export interface FoundText {
  readonly span: Span;
  readonly line: number;
  /** The line it starts on, and where in it. */
  readonly text: string;
  readonly column: number;
}

export type FoundTexts =
  | {
      readonly ok: true;
      readonly files: readonly { readonly file: string; readonly found: readonly FoundText[] }[];
      readonly count: number;
      readonly more: boolean;
    }
  | { readonly ok: false; readonly reason: string };

export function findText(texts: readonly LibraryText[], query: string, options: FindOptions = {}): FoundTexts {
  const search = searchOf(query, options);
  if (typeof search === 'string') return { ok: false, reason: search };
  const most = options.most ?? 1000;
  let count = 0;
  let more = false;
  const files: { file: string; found: FoundText[] }[] = [];
  for (const { path, text } of texts) {
    const found: FoundText[] = [];
    let source: SourceText | undefined;
    for (const match of all(search, text)) {
      if (count === most) {
        more = true;
        break;
      }
      count += 1;
      source ??= sourceOf(path, text);
      found.push(placed(source, match));
    }
    if (found.length > 0) files.push({ file: path, found });
    if (more) break;
  }
  return { ok: true, files, count, more };
}

/** In a pattern's replacement `$1` is the first group, `$&` the whole, `$$` a dollar sign. */
export function replaceText(texts: readonly LibraryText[], query: string, replacement: string, options: FindOptions = {}): Proposal {
  const search = searchOf(query, options);
  if (typeof search === 'string') return { ok: false, reason: search };
  const edits: TextEdit[] = [];
  for (const { path, text } of texts)
    for (const match of all(search, text)) {
      if (options.only !== undefined && match.start !== options.only) continue;
      const own = options.pattern ? filled(replacement, text, match) : replacement;
      if (own !== text.slice(match.start, match.end)) edits.push({ file: path, start: match.start, end: match.end, text: own });
    }
  if (edits.length === 0) return { ok: false, reason: 'Nothing would change.' };
  return proposalOf(
    `Replace in ${edits.length} ${edits.length === 1 ? 'place' : 'places'}`,
    edits,
    new Map(texts.map(({ path, text }) => [path, text])),
  );
}

/** The next match at or after a place. */
type Search = (text: string, from: number) => PatternMatch | undefined;

function searchOf(query: string, options: FindOptions): Search | string {
  if (query === '') return 'Type what to look for.';
  const bare = options.pattern ? patternSearch(query, options) : plainSearch(query, options.matchCase === true);
  if (typeof bare === 'string' || !options.wholeWord) return bare;
  return (text, from) => {
    for (let at = from; at <= text.length; ) {
      const match = bare(text, at);
      if (!match) return undefined;
      if (isWhole(text, match)) return match;
      at = match.start + 1;
    }
    return undefined;
  };
}

function patternSearch(query: string, options: FindOptions): Search | string {
  try {
    const pattern = compilePattern(query, options.matchCase !== true);
    return (text, from) => matchFrom(pattern, text, from);
  } catch (error) {
    if (error instanceof PatternError) return error.message;
    throw error;
  }
}

function plainSearch(query: string, matchCase: boolean): Search {
  const wanted = matchCase ? query : folded(query);
  let known: { readonly text: string; readonly folded: string } | undefined;
  return (text, from) => {
    if (known?.text !== text) known = { text, folded: matchCase ? text : folded(text) };
    const start = known.folded.indexOf(wanted, from);
    return start === -1 ? undefined : { start, end: start + wanted.length, groups: [start, start + wanted.length] };
  };
}

/** Small letters, unit by unit, so that places stay as they are. */
function folded(text: string): string {
  const lower = text.toLowerCase();
  if (lower.length === text.length) return lower;
  let out = '';
  for (let at = 0; at < text.length; at++) out += String.fromCharCode(foldUnit(text.charCodeAt(at)));
  return out;
}

function* all(search: Search, text: string): Iterable<PatternMatch> {
  for (let at = 0; at <= text.length; ) {
    const match = search(text, at);
    if (!match) return;
    // Nothing found is found nowhere: an empty match is no place to show.
    if (match.end > match.start) yield match;
    at = Math.max(match.end, match.start + 1);
  }
}

function isWhole(text: string, { start, end }: PatternMatch): boolean {
  const joined = (left: number, right: number): boolean => isWordUnit(text.charCodeAt(left)) && isWordUnit(text.charCodeAt(right));
  return !(start > 0 && joined(start - 1, start)) && !(end < text.length && joined(end - 1, end));
}

function placed(source: SourceText, { start, end }: PatternMatch): FoundText {
  const { line, column } = positionAt(source, start);
  const lineStart = start - column + 1;
  const stop = source.lineStarts[line] ?? source.text.length;
  return { span: { start, end }, line, column, text: source.text.slice(lineStart, stop).replace(/\r?\n$/, '') };
}

function filled(replacement: string, text: string, match: PatternMatch): string {
  return replacement.replace(/\$(\$|&|\d{1,2})/g, (whole, what: string) => {
    if (what === '$') return '$';
    const group = what === '&' ? 0 : Number(what);
    const [start, end] = [match.groups[group * 2], match.groups[group * 2 + 1]];
    if (start === undefined || end === undefined) return whole;
    return start < 0 || end < 0 ? '' : text.slice(start, end);
  });
}
