/**
 * The inside of a block, scanned on the source: references, escapes, strong, em, code. Gives running text with the way
 * back to the source. Attributes are taken off before (attributes.ts); what a reference means is looked up later.
 */
import type { Span } from '../finding.ts';
import type { LineSpan } from './markdown.ts';
import { type FileNames, referenceForm } from './reference-form.ts';
import type { FormatProblem, Mark, Prose } from './tree.ts';

const PUNCTUATION = /[!-/:-@[-`{-~]/;

/** Characters by name that other Markdown tools turn into the sign. Here they would be printed as typed. */
const ENTITIES: Readonly<Record<string, string>> = {
  amp: '&',
  deg: '°',
  ge: '≥',
  gt: '>',
  le: '≤',
  lt: '<',
  micro: 'µ',
  middot: '·',
  minus: '−',
  nbsp: '\u00a0',
  ndash: '–',
  ohm: 'Ω',
  Omega: 'Ω',
  plusmn: '±',
  times: '×',
};

export interface Inline {
  readonly prose: Prose;
  readonly problems: readonly FormatProblem[];
}

/** `lines` are spans of `source`; between two of them stands one space in the prose. */
export function readInline(source: string, lines: readonly LineSpan[], names: FileNames): Inline {
  return new Scanner(source, lines, names).run();
}

interface Delimiter {
  readonly at: number;
  readonly size: number;
}

class Scanner {
  readonly #names: FileNames;
  readonly #span: Span;
  /** All lines joined by one space, and where each stretch of it came from. */
  #text = '';
  readonly #from: { at: number; source: number; length: number }[] = [];
  readonly #problems: FormatProblem[] = [];
  /** Stretches of #text that do not get into the prose. */
  readonly #gone: { at: number; end: number }[] = [];
  readonly #marks: { kind: Mark['kind']; at: number; end: number; open: number; close: number }[] = [];

  constructor(source: string, lines: readonly LineSpan[], names: FileNames) {
    this.#names = names;
    const first = lines[0];
    const last = lines.at(-1);
    this.#span = first && last ? { start: first.start, end: last.end } : { start: 0, end: 0 };
    lines.forEach((line, n) => {
      let end = line.end;
      while (end > line.start && /[ \t]/.test(source[end - 1] ?? '')) end--;
      // A backslash at a line's end is a hard break in Markdown; a line break is a space here.
      if (n < lines.length - 1 && source[end - 1] === '\\' && source[end - 2] !== '\\') end--;
      if (n > 0) {
        this.#from.push({ at: this.#text.length, source: lines[n - 1]?.end ?? line.start, length: 1 });
        this.#text += ' ';
      }
      if (end > line.start) {
        this.#from.push({ at: this.#text.length, source: line.start, length: end - line.start });
        this.#text += source.slice(line.start, end);
      }
    });
  }

  run(): Inline {
    const text = this.#text;
    if (/[\\`*[\]<&~]/.test(text)) this.#scan();
    return { prose: this.#compose(), problems: this.#problems };
  }

  #source(at: number): number {
    let low = 0;
    let high = this.#from.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.#from[middle]?.at ?? 0) <= at) low = middle;
      else high = middle - 1;
    }
    const piece = this.#from[low];
    return piece ? piece.source + Math.min(at - piece.at, piece.length) : this.#span.start;
  }

  #spanOf(at: number, end: number): Span {
    return { start: this.#source(at), end: end > at ? this.#source(end - 1) + 1 : this.#source(at) };
  }

  #problem(at: number, end: number, message: string, more: Partial<FormatProblem> = {}): void {
    this.#problems.push({ rule: 'inline-markup', span: this.#spanOf(at, end), message, ...more });
  }

  #scan(): void {
    const text = this.#text;
    const runs = backtickRuns(text);
    const brackets: number[] = [];
    const pairs: { open: number; close: number }[] = [];
    const stars: Delimiter[] = [];
    for (let at = 0; at < text.length; at++) {
      const c = text[at] ?? '';
      if (c === '\\' && PUNCTUATION.test(text[at + 1] ?? '')) {
        this.#gone.push({ at, end: at + 1 });
        at++;
      } else if (c === '`') {
        at = this.#code(at, runs);
      } else if (c === '[') {
        brackets.push(at);
      } else if (c === ']') {
        const open = brackets.pop();
        if (open !== undefined) pairs.push({ open, close: at });
        else
          this.#problem(at, at + 1, 'This closing bracket has no opening one.', {
            expected: '[ before the name, or \\] for a plain bracket',
          });
      } else if (c === '*') {
        let size = 1;
        while (text[at + size] === '*') size++;
        stars.push({ at, size });
        at += size - 1;
      } else if (c === '~' && text[at + 1] === '~') {
        if (/^~~[^~]+~~/.test(text.slice(at, at + 400)))
          this.#problem(
            at,
            at + 2,
            'Struck-out text is not used in procedures; it would be printed with its signs. Delete the text instead.',
          );
        while (text[at + 1] === '~') at++;
      } else if (c === '<') this.#angle(at);
      else if (c === '&') this.#entity(at);
    }
    for (const open of brackets) {
      this.#problem(open, open + 1, 'This bracket is never closed in its paragraph.', {
        expected: '] after the name, or \\[ for a plain bracket',
      });
    }
    const references = this.#references(pairs);
    this.#emphasis(stars, references);
  }

  /** Returns the last index it has dealt with. */
  #code(at: number, runs: ReturnType<typeof backtickRuns>): number {
    let size = 1;
    while (this.#text[at + size] === '`') size++;
    const close = runs(size, at + size);
    if (close === undefined) {
      this.#problem(at, at + size, 'This code mark (`) has no partner in its paragraph.', { expected: '` after the text as well' });
      return at + size - 1;
    }
    let from = at + size;
    let to = close;
    if (to - from > 2 && this.#text[from] === ' ' && this.#text[to - 1] === ' ') {
      from++;
      to--;
    }
    this.#gone.push({ at, end: from }, { at: to, end: close + size });
    this.#marks.push({ kind: 'code', at: from, end: to, open: at, close: close + size });
    return close + size - 1;
  }

  #angle(at: number): void {
    const tag = /^<(?:\/?[a-z][a-z0-9]*(?:\s[^<>]*)?\/?|!--|[a-z]+:\/\/[^\s<>]+)>?/i.exec(this.#text.slice(at, at + 200));
    if (!tag || (!tag[0].endsWith('>') && !tag[0].startsWith('<!--'))) return;
    this.#problem(at, at + tag[0].length, 'HTML is not used in procedures; it would be printed as typed.', {
      actual: tag[0],
      expected: 'plain text',
    });
  }

  #entity(at: number): void {
    const found = /^&(#\d{1,6}|#x[0-9a-f]{1,5}|[a-z]{2,8});/i.exec(this.#text.slice(at, at + 12));
    if (!found) return;
    const name = found[1] ?? '';
    const sign = ENTITIES[name] ?? (name.startsWith('#') ? numbered(name) : undefined);
    const span = this.#spanOf(at, at + found[0].length);
    this.#problem(at, at + found[0].length, 'A character written as a code would be printed as typed. Type the character itself.', {
      actual: found[0],
      ...(sign ? { expected: sign, replacement: { span, text: sign, title: `Write ${sign}` } } : {}),
    });
  }

  #references(pairs: { open: number; close: number }[]): { open: number; close: number }[] {
    pairs.sort((a, b) => a.open - b.open);
    const kept: { open: number; close: number }[] = [];
    let last = -1;
    for (const pair of pairs) {
      if (pair.close < last) continue;
      last = pair.close;
      const { open, close } = pair;
      const content = this.#text.slice(open + 1, close);
      if (content.trim() === '' || (/^[xX]$/.test(content) && open === 0)) {
        this.#problem(open, close + 1, 'An empty box is not used in procedures; the printed checklist draws its own.', {
          replacement: { span: this.#spanOf(open, Math.min(close + 2, this.#text.length)), text: '', title: 'Delete the box' },
        });
        continue;
      }
      const target = /^\(([^\s()]*(?:\/|\.[a-z]|#)[^\s()]*)\)/i.exec(this.#text.slice(close + 1, close + 301));
      if (target) {
        const image = this.#text[open - 1] === '!';
        this.#problem(
          image ? open - 1 : open,
          close + 1 + target[0].length,
          image
            ? 'A figure stands on a line of its own; inside a sentence it is not drawn.'
            : 'Links are not used in procedures: on paper the address is lost. Name the thing in brackets, or cite a registered document.',
          { actual: target[1] ?? '' },
        );
      } else if (content.startsWith('^')) {
        this.#problem(open, close + 1, 'Footnotes are not used in procedures. Say it in the step or in a notice.');
      }
      this.#gone.push({ at: open, end: open + 1 }, { at: close, end: close + 1 });
      this.#marks.push({ kind: 'reference', at: open + 1, end: close, open, close: close + 1 });
      kept.push(pair);
    }
    return kept;
  }

  #emphasis(stars: readonly Delimiter[], references: readonly { open: number; close: number }[]): void {
    const text = this.#text;
    const open: Delimiter[] = [];
    let reference = 0;
    for (const star of stars) {
      while (reference < references.length && (references[reference]?.close ?? 0) < star.at) reference++;
      if ((references[reference]?.open ?? text.length) < star.at) continue; // a star inside a name belongs to it
      if (star.size > 3) continue;
      const before = text[star.at - 1] ?? ' ';
      const after = text[star.at + star.size] ?? ' ';
      const closes = !/\s/.test(before) && !/[\p{L}\p{N}]/u.test(after);
      const opens = !/\s/.test(after) && !/[\p{L}\p{N}]/u.test(before);
      const partner = closes ? open.findLastIndex((other) => other.size === star.size) : -1;
      if (partner >= 0) {
        const from = open[partner];
        open.splice(partner + 1).forEach((lost) => {
          this.#unpaired(lost);
        });
        open.pop();
        if (from) this.#pair(from, star);
      } else if (opens) {
        // More open stars than this are no emphasis, and searching them all would take time.
        if (open.length < 20) open.push(star);
      } else if (star.size === 2 && closes) this.#unpaired(star);
    }
    for (const star of open) this.#unpaired(star);
  }

  #pair(from: Delimiter, to: Delimiter): void {
    const inside = { at: from.at + from.size, end: to.at, open: from.at, close: to.at + to.size };
    this.#gone.push({ at: from.at, end: inside.at }, { at: to.at, end: inside.close });
    if (from.size !== 1) this.#marks.push({ kind: 'strong', ...inside });
    if (from.size !== 2) this.#marks.push({ kind: 'em', ...inside });
  }

  #unpaired(star: Delimiter): void {
    if (star.size === 1 && /[\d\s]/.test(this.#text[star.at + 1] ?? ' ')) return;
    this.#problem(star.at, star.at + star.size, `This ${'*'.repeat(star.size)} has no partner in its paragraph and is printed as typed.`, {
      expected: `${'*'.repeat(star.size)} at the other end as well, or \\* for a plain star`,
    });
  }

  #compose(): Prose {
    this.#gone.sort((a, b) => a.at - b.at);
    const cuts: number[] = []; // of #gone: characters gone before each
    let lost = 0;
    for (const gone of this.#gone) {
      cuts.push(lost);
      lost += gone.end - gone.at;
    }
    const shift = (at: number): number => {
      let low = 0;
      let high = this.#gone.length;
      while (low < high) {
        const middle = (low + high) >> 1;
        if ((this.#gone[middle]?.at ?? 0) < at) low = middle + 1;
        else high = middle;
      }
      const gone = this.#gone[low - 1];
      return gone ? at - (cuts[low - 1] ?? 0) - (Math.min(gone.end, at) - gone.at) : at;
    };
    const segments: { at: number; source: number; length: number }[] = [];
    let text = '';
    let next = 0;
    for (const piece of this.#from) {
      let at = piece.at;
      const end = piece.at + piece.length;
      while (at < end) {
        while (next < this.#gone.length && (this.#gone[next]?.end ?? 0) <= at) next++;
        const gone = this.#gone[next];
        const until = gone ? Math.min(end, Math.max(gone.at, at)) : end;
        if (until > at) {
          segments.push({ at: text.length, source: piece.source + at - piece.at, length: until - at });
          text += this.#text.slice(at, until);
        }
        at = gone && gone.at <= until ? Math.max(until, Math.min(gone.end, end)) : until;
      }
    }
    const marks = this.#marks
      .map((mark): Mark => {
        const place = { at: shift(mark.at), end: shift(mark.end), span: this.#spanOf(mark.open, mark.close) };
        if (mark.kind !== 'reference') return { kind: mark.kind, ...place };
        const content = text.slice(place.at, place.end).replace(/\s+/g, ' ').trim();
        return { kind: 'reference', ...place, content, form: referenceForm(content, this.#names) };
      })
      .sort((a, b) => a.at - b.at || b.end - a.end || (a.kind < b.kind ? -1 : 1));
    return { span: this.#span, text, segments, marks };
  }
}

function numbered(name: string): string | undefined {
  const code = /^#x/i.test(name) ? Number.parseInt(name.slice(2), 16) : Number(name.slice(1));
  return code >= 32 && code < 0xd800 ? String.fromCharCode(code) : undefined;
}

/** Finds the next run of exactly `size` backticks at or after a place, in time that does not grow with each question. */
function backtickRuns(text: string): (size: number, after: number) => number | undefined {
  const bySize = new Map<number, number[]>();
  for (const run of text.matchAll(/`+/g)) {
    const list = bySize.get(run[0].length);
    if (list) list.push(run.index);
    else bySize.set(run[0].length, [run.index]);
  }
  const seen = new Map<number, number>();
  return (size, after) => {
    const list = bySize.get(size) ?? [];
    let n = seen.get(size) ?? 0;
    while (n < list.length && (list[n] ?? 0) < after) n++;
    seen.set(size, n);
    return list[n];
  };
}
