/**
 * Goes over the lines once, before the Markdown parser, and writes the text that parser is given: lettered lines look like
 * items to it, under-indented children stand where they belong, a notice that was never closed is closed. Also says where the
 * text may be cut into pieces that parse on their own. Leaves all reading of blocks to markdown.ts and blocks.ts.
 *
 * The given text differs from the source only inside lines; each line remembers where it came from, so that every
 * position leads back to the typed character. Values are always taken from the source, never from the given text.
 * Long because one pass over the lines with all that it must remember; to be cut by what it writes.
 */
import type { Span } from '../finding.ts';
import { closesCode, indentOf, isNoticeClose, type LineKind, lineKind, NOTICE_OPEN, runLength } from './line-shape.ts';
import { isProseSection } from './section-words.ts';
import { lineEnd } from './source.ts';
import type { FormatProblem, SourceText, TypedLabel } from './tree.ts';
import { readMarker, readTypedLabel } from './typed-label.ts';

/** A line as the parser sees it, and where it came from. */
export interface GivenLine {
  readonly text: string;
  /** Source offset of the line's start, characters of blanks there, and columns of blanks given instead. */
  readonly base: number;
  readonly lead: number;
  readonly indent: number;
  /** Characters of the source line without its ending. */
  readonly length: number;
}

export type Mode = 'steps' | 'prose';

/** A piece that parses on its own starts at this line. `afterItem`: only if the piece before ends in a list. */
export interface Cut {
  readonly line: number;
  readonly afterItem: boolean;
  readonly mode: Mode;
}

export interface Outline {
  readonly lines: readonly GivenLine[];
  readonly cuts: readonly Cut[];
  readonly problems: readonly FormatProblem[];
}

/** Deeper lists and quotes than this are nobody's procedure and cost time that grows with depth. */
const DEEPEST = 12;

interface Item {
  /** Column of the marker in the source, of the text in the source, of the text as given. */
  readonly marker: number;
  readonly content: number;
  readonly given: number;
  readonly style: TypedLabel['style'];
  readonly ordinal: number | undefined;
  /** Made from a lettered line: other viewers do not indent by it, so nor do its children. */
  readonly masked: boolean;
  /** Nothing after the marker: a blank line ends it. */
  readonly empty: boolean;
}

interface NoticeRange {
  readonly close: number;
  /** Items open around the fence. */
  readonly depth: number;
  readonly colons: number;
}

export function outlineOf(source: SourceText, from: number, to: number, kind: 'procedure' | 'guide'): Outline {
  return new Scan(source, from, to, kind).run();
}

class Scan {
  readonly #source: SourceText;
  readonly #first: number;
  readonly #count: number;
  readonly #guide: boolean;
  readonly #lines: GivenLine[] = [];
  readonly #cuts: Cut[] = [];
  readonly #problems: FormatProblem[] = [];

  #mode: Mode = 'prose';
  #stack: Item[] = [];
  /** The item that closed last at each depth: what a lettered line may continue. */
  #closed: (Item | undefined)[] = [];
  #blankBefore = true;
  /** The line before could go on as the same paragraph. */
  #open = false;
  /** How the line before ends: a lettered line inside a paragraph needs a full stop or colon before it. */
  #ended = true;
  #table = false;
  #previous = '';
  #code: { readonly char: string; readonly size: number; readonly depth: number } | undefined;
  #notice: NoticeRange | undefined;
  /** Closing fences to give before a source line (recovery of notices never closed). */
  #closeBefore = new Map<number, string>();
  #closeAt = new Map<number, string>();
  #tooDeep = false;
  #lastWasMarker = false;
  #topMode: Mode = 'steps';

  constructor(source: SourceText, from: number, to: number, kind: 'procedure' | 'guide') {
    this.#source = source;
    this.#guide = kind === 'guide';
    let first = 0;
    while (first < source.lineStarts.length && (source.lineStarts[first] ?? 0) < from) first++;
    let end = first;
    while (end < source.lineStarts.length && (source.lineStarts[end] ?? 0) < to) end++;
    this.#first = first;
    this.#count = end - first;
  }

  run(): Outline {
    for (let n = 0; n < this.#count; n++) this.#line(n);
    const closing = this.#closeBefore.get(this.#count);
    if (closing !== undefined) this.#give(closing, this.#start(this.#count), 0, 0, 0);
    return { lines: this.#lines, cuts: this.#cuts, problems: this.#problems };
  }

  #start(n: number): number {
    return this.#source.lineStarts[this.#first + n] ?? this.#source.text.length;
  }

  #raw(n: number): string {
    return this.#source.text.slice(this.#start(n), lineEnd(this.#source, this.#first + n));
  }

  #give(text: string, base: number, lead: number, indent: number, length: number): void {
    // The parser would drop a byte-order mark at the start of a piece, and every offset with it.
    this.#lines.push({ text: text.replace(/\ufeff/g, '\ufffd'), base, lead, indent, length });
  }

  #problem(rule: FormatProblem['rule'], span: Span, message: string, more: Partial<FormatProblem> = {}): void {
    this.#problems.push({ rule, span, message, ...more });
  }

  #line(n: number): void {
    const closing = this.#closeBefore.get(n);
    if (closing !== undefined) {
      this.#give(closing, this.#start(n), 0, closing.length - closing.trimStart().length, 0);
      this.#endNotice();
    }
    const raw = this.#raw(n);
    const base = this.#start(n);
    const { columns, chars } = indentOf(raw);
    const rest = raw.slice(chars);
    if (this.#code && this.#inCode(raw, base, rest, columns, chars)) return;
    const kind = lineKind(rest);
    if (kind === 'blank') {
      this.#blank(n, raw, base);
      return;
    }
    if (this.#notice) this.#inNotice(n, raw, base, rest, columns, chars, kind);
    else this.#flow(n, raw, base, rest, columns, chars, kind);
    this.#previous = rest;
  }

  #blank(n: number, raw: string, base: number): void {
    const closing = this.#closeAt.get(n);
    if (closing !== undefined) {
      this.#give(closing, base, 0, closing.length - closing.trimStart().length, 0);
      this.#endNotice();
    } else {
      this.#give('', base, 0, 0, raw.length);
    }
    const top = this.#stack.at(-1);
    if (top?.empty && this.#open === false && this.#lastWasMarker) this.#pop();
    this.#lastWasMarker = false;
    this.#blankBefore = true;
    this.#open = false;
    this.#table = false;
    this.#ended = true;
    this.#previous = '';
  }

  #inCode(raw: string, base: number, rest: string, columns: number, chars: number): boolean {
    const code = this.#code;
    if (!code) return false;
    const holder = this.#stack[code.depth - 1];
    const blank = /^\s*$/.test(rest);
    const leaves = !blank && holder !== undefined && columns < holder.marker + 2 && !this.#notice;
    if (leaves || (this.#notice && isNoticeClose(rest))) {
      this.#code = undefined;
      this.#open = false;
      this.#blankBefore = true;
      return false;
    }
    if (blank) this.#give('', base, 0, 0, raw.length);
    else this.#giveIndented(rest, base, chars, this.#given(holder, columns), raw.length);
    if (closesCode(rest, code.char, code.size)) {
      this.#code = undefined;
      this.#open = false;
      this.#blankBefore = false;
    }
    return true;
  }

  /** Columns to give to a line that stands at `columns` inside `holder`. */
  #given(holder: Item | undefined, columns: number): number {
    if (!holder) return columns;
    return columns < holder.content ? holder.given : columns + holder.given - holder.content;
  }

  #giveIndented(text: string, base: number, chars: number, indent: number, length: number): void {
    this.#give(' '.repeat(indent) + text, base, chars, indent, length);
  }

  #pop(): void {
    const item = this.#stack.pop();
    if (item) {
      this.#closed.length = this.#stack.length + 1;
      this.#closed[this.#stack.length] = item;
    }
  }

  #flow(n: number, raw: string, base: number, rest: string, columns: number, chars: number, kind: LineKind): void {
    const open = this.#open;
    const hadItem = this.#stack.length > 0;
    const label = kind === 'text' ? this.#label(rest) : kind === 'ordered' ? readMarker(rest) : undefined;
    if (kind === 'text' && !label && open && hadItem) {
      this.#lazy(raw, base, rest, columns, chars);
      return;
    }

    // A closing fence with nothing open is told and stands for an empty line, which ends no item.
    if (kind === 'notice-fence' && isNoticeClose(rest)) {
      this.#strayClose(raw, base, chars);
      return;
    }
    const style = label?.style ?? (kind === 'bullet' ? 'bullet' : undefined);
    const depth = this.#stack.length;
    const nested = this.#popFor(columns, style, label?.ordinal, kind);
    // CommonMark lets a paragraph be interrupted by "1." and by bullets with text; we also by a label where a sentence has ended.
    const interrupts = open && this.#stack.length === depth;
    if (interrupts && this.#isOnlyText(rest, kind)) {
      if (depth > 0) this.#lazy(raw, base, rest, columns, chars);
      else this.#plain(raw, base, rest, columns, chars);
      return;
    }
    const holder = this.#stack.at(-1);

    if (holder && columns < holder.content && !nested) this.#underIndented(holder, raw, base, columns, chars);
    const indent = this.#given(holder, columns);
    if (!holder && columns === 0) this.#cut(kind, label !== undefined || kind === 'bullet', hadItem);

    if (kind === 'heading' && !holder) this.#heading(rest);
    if (kind === 'notice-fence') {
      this.#fence(n, raw, base, rest, columns, chars, indent);
      return;
    }

    const given = this.#markers(rest, base + chars, columns, indent, kind, label, interrupts && this.#mode === 'steps');
    this.#giveIndented(given, base, chars, indent, raw.length);
    this.#blankBefore = false;
  }

  #isOnlyText(rest: string, kind: LineKind): boolean {
    if (kind === 'bullet') return /^.[ \t]*$/.test(rest);
    if (kind !== 'ordered') return false;
    if (/^\d+.[ \t]*$/.test(rest)) return true;
    return !/^1[.)]/.test(rest) && !(this.#mode === 'steps' && this.#ended);
  }

  #plain(raw: string, base: number, rest: string, columns: number, chars: number): void {
    this.#giveIndented(rest, base, chars, columns, raw.length);
    this.#afterText(rest);
    this.#blankBefore = false;
  }

  #cut(kind: LineKind, marker: boolean, hadItem: boolean): void {
    const line = this.#lines.length;
    if (this.#blankBefore || kind === 'heading') this.#cuts.push({ line, afterItem: false, mode: this.#mode });
    else if (marker && hadItem) this.#cuts.push({ line, afterItem: true, mode: this.#mode });
  }

  #heading(rest: string): void {
    const depth = runLength(rest);
    const title = rest
      .slice(depth)
      .replace(/\{[^}]*\}/g, '')
      .replace(/[ \t]#+[ \t]*$/, '')
      .trim();
    // A subheading of a prose section is prose as well.
    if (depth <= 2 || this.#topMode === 'steps') {
      this.#mode = this.#guide || isProseSection(title) ? 'prose' : 'steps';
      if (depth <= 2) this.#topMode = this.#mode;
    }
    const cut = this.#cuts.at(-1);
    if (cut && cut.line === this.#lines.length) this.#cuts[this.#cuts.length - 1] = { ...cut, mode: this.#mode };
    this.#closed = [];
  }

  /** F12. A paragraph inside an item goes on at a smaller indent. */
  #lazy(raw: string, base: number, rest: string, columns: number, chars: number): void {
    const holder = this.#stack.at(-1);
    if (holder && columns < holder.content && !holder.masked) {
      this.#problem(
        'lazy-line',
        { start: base + chars, end: base + raw.length },
        'This line belongs to the item above but is not indented with it.',
        {
          expected: `${holder.content} spaces before it`,
          replacement: { span: { start: base, end: base + chars }, text: ' '.repeat(holder.content), title: 'Indent the line' },
        },
      );
    }
    this.#giveIndented(rest, base, chars, this.#given(holder, columns), raw.length);
    this.#afterText(rest);
    this.#blankBefore = false;
  }

  #underIndented(holder: Item, raw: string, base: number, columns: number, chars: number): void {
    if (holder.masked) return;
    this.#problem(
      'lazy-line',
      { start: base + chars, end: base + raw.length },
      `This line is indented by ${columns}; to stand inside the item above it wants ${holder.content}. It is read as part of that item.`,
      {
        expected: `${holder.content} spaces before it`,
        replacement: { span: { start: base, end: base + chars }, text: ' '.repeat(holder.content), title: 'Indent the line' },
      },
    );
  }

  /** Closes the items this line does not belong to. True: it is a new list inside the top item though it stands at its margin. */
  #popFor(columns: number, style: TypedLabel['style'] | undefined, ordinal: number | undefined, kind: LineKind): boolean {
    const atMargin = this.#stack.findLastIndex((item) => columns >= item.marker && columns < item.marker + 2);
    const inside = this.#mode === 'steps' && style !== undefined && atMargin >= 0;
    if (inside) {
      // "1." then "a)" at the same margin, and back again: the style says which list a label belongs to.
      const same = this.#stack.findLastIndex((item) => columns >= item.marker && columns < item.marker + 2 && item.style === style);
      const top = this.#stack.at(-1);
      if (same >= 0) {
        while (this.#stack.length > same) this.#pop();
        return false;
      }
      if (top && atMargin === this.#stack.length - 1 && this.#nests(top, style, ordinal, kind)) return true;
    }
    while (this.#stack.length > 0 && columns < (this.#stack.at(-1)?.marker ?? 0) + 2) this.#pop();
    return false;
  }

  #nests(top: Item, style: TypedLabel['style'], ordinal: number | undefined, kind: LineKind): boolean {
    if (top.style === 'bullet') return false;
    if (kind === 'bullet') return !this.#blankBefore;
    return ordinal === 1 && style !== top.style && style !== 'bullet';
  }

  /** A lettered line that counts as an item where it stands; undefined when it is only text. */
  #label(rest: string): ReturnType<typeof readTypedLabel> {
    if (this.#mode !== 'steps' || this.#notice) return undefined;
    const label = readTypedLabel(rest);
    if (!label) return undefined;
    if (!this.#open) return label;
    const before =
      this.#stack.findLast((item) => item.style === label.style) ?? this.#closed.findLast((item) => item?.style === label.style);
    if (before?.ordinal !== undefined && before.ordinal + 1 === label.ordinal) return label;
    return this.#ended && (label.ordinal === 1 || before !== undefined) ? label : undefined;
  }

  /** Pushes the items a line opens ("1. - a" opens two) and returns the line as the parser shall see it. */
  #markers(
    rest: string,
    at: number,
    columns: number,
    indent: number,
    kind: LineKind,
    first: ReturnType<typeof readTypedLabel>,
    interrupts: boolean,
  ): string {
    let out = '';
    let text = rest;
    let column = columns;
    let given = indent;
    let now = kind;
    let label = first;
    this.#lastWasMarker = false;
    while (now === 'ordered' || now === 'bullet' || (now === 'text' && label)) {
      const marker = label ? label.raw : text.slice(0, 1);
      if (this.#stack.length >= DEEPEST) {
        this.#deep(at);
        out += 'x'.repeat(marker.length) + text.slice(marker.length);
        this.#afterText(text);
        return out;
      }
      const blanks = indentOf(text.slice(marker.length), column + marker.length);
      const empty = blanks.chars === text.length - marker.length;
      const masked = label !== undefined && (now === 'text' || (interrupts && out === ''));
      const wide = marker.length + (empty ? 1 : blanks.columns);
      const wideGiven = marker.length + (empty ? 1 : blanks.chars);
      this.#stack.push({
        marker: column,
        content: column + wide,
        given: given + wideGiven,
        style: label?.style ?? 'bullet',
        ordinal: label?.ordinal,
        masked: now === 'text',
        empty,
      });
      this.#closed.length = Math.min(this.#closed.length, this.#stack.length);
      out += masked ? this.#mask(marker) : marker;
      out += ' '.repeat(empty ? 0 : blanks.chars);
      text = text.slice(marker.length + blanks.chars);
      at += marker.length + blanks.chars;
      column += wide;
      given += wideGiven;
      if (empty) {
        this.#lastWasMarker = true;
        this.#open = false;
        this.#ended = true;
        return out;
      }
      now = lineKind(text);
      label = now === 'ordered' ? readMarker(text) : undefined;
    }
    if (now === 'quote') text = this.#quote(text, at);
    if (now === 'code-fence') {
      this.#code = { char: text[0] ?? '`', size: runLength(text), depth: this.#stack.length };
      this.#open = false;
      this.#ended = true;
    } else if (now === 'text' || now === 'quote' || now === 'notice-fence') {
      this.#afterText(now === 'quote' ? text.replace(/^[>\s]+/, '') : text);
    } else {
      this.#open = false;
      this.#ended = true;
    }
    return out + text;
  }

  /** Same length, and a list marker that may interrupt a paragraph. */
  #mask(marker: string): string {
    return `1${marker.endsWith(')') ? ')' : '.'}`.padEnd(marker.length, ' ');
  }

  #quote(text: string, at: number): string {
    const prefix = /^(?:(?:>|[-+*]|\d{1,9}[.)])[ \t]*)+/.exec(text)?.[0] ?? '';
    if (prefix.length <= DEEPEST) return text;
    let depth = 0;
    for (let n = 0; n < prefix.length; n++) {
      if (!/[>\-+*.)]/.test(prefix[n] ?? '')) continue;
      depth++;
      if (depth <= DEEPEST) continue;
      this.#deep(at + n);
      return text.slice(0, n) + text.slice(n, prefix.length).replace(/\S/g, 'x') + text.slice(prefix.length);
    }
    return text;
  }

  #deep(at: number): void {
    if (this.#tooDeep) return;
    this.#tooDeep = true;
    this.#problem(
      'nesting',
      { start: at, end: at + 1 },
      `Lists or quotes stand more than ${DEEPEST} deep here. What lies deeper is read as plain text.`,
    );
  }

  #afterText(text: string): void {
    const table = /^\|?[ \t:|-]+\|?$/.test(text) && text.includes('-') && text.includes('|') && this.#previous.includes('|');
    if (table) this.#table = true;
    this.#open = !this.#table && text !== '';
    this.#ended = /[.:;!?)\]][*"'”’]*\s*$/.test(text);
  }

  // ------------------------------------------------------------ notices

  #strayClose(raw: string, base: number, chars: number): void {
    const span = { start: base + chars, end: base + raw.length };
    this.#problem('notice-form', span, 'This line closes a notice, but none is open here.', {
      expected: 'a line such as :::danger before it',
      replacement: { span, text: '', title: 'Delete the line' },
    });
    this.#open = false;
    this.#ended = true;
    this.#give('', base, 0, 0, raw.length);
    this.#blankBefore = true;
  }

  #fence(n: number, raw: string, base: number, rest: string, columns: number, chars: number, indent: number): void {
    const span = { start: base + chars, end: base + raw.length };
    this.#open = false;
    this.#ended = true;
    this.#blankBefore = false;
    const colons = runLength(rest);
    const depth = this.#stack.length;
    const holder = this.#stack.at(-1);
    const end = this.#findClose(n, colons, holder);
    const given = holder ? holder.given : columns;
    if (end.kind === 'closed') {
      this.#notice = { close: end.line, depth, colons };
    } else {
      const fence = `${' '.repeat(Math.max(given, indent))}${':'.repeat(colons)}`;
      (end.kind === 'blank' ? this.#closeAt : this.#closeBefore).set(end.line, fence);
      this.#notice = { close: -1, depth, colons };
      const last = this.#lastTextBefore(end.line);
      const after = lineEnd(this.#source, this.#first + last);
      this.#problem(
        'notice-form',
        span,
        'This notice is never closed. It is taken to end before the next list or heading after a blank line.',
        {
          expected: `a line ${':'.repeat(colons)} after its text`,
          replacement: {
            span: { start: after, end: after },
            text: `\n${this.#source.text.slice(base, base + chars)}${':'.repeat(colons)}`,
            title: 'Close the notice',
          },
        },
      );
    }
    this.#giveIndented(openFence(rest), base, chars, indent, raw.length);
  }

  #lastTextBefore(line: number): number {
    let n = line - 1;
    while (n > 0 && /^\s*$/.test(this.#raw(n))) n--;
    return n;
  }

  /** Looks ahead for the line that closes a notice, or for the place where it plainly should have been. */
  #findClose(
    open: number,
    colons: number,
    holder: Item | undefined,
  ): { readonly kind: 'closed' | 'blank' | 'before'; readonly line: number } {
    let code: { readonly char: string; readonly size: number } | undefined;
    let blank = -1;
    let recover: { kind: 'blank' | 'before'; line: number } | undefined;
    for (let n = open + 1; n < this.#count; n++) {
      const raw = this.#raw(n);
      const { columns, chars } = indentOf(raw);
      const rest = raw.slice(chars);
      if (isNoticeClose(rest) && runLength(rest) >= colons) return { kind: 'closed', line: n };
      if (code) {
        if (closesCode(rest, code.char, code.size)) code = undefined;
        continue;
      }
      const kind = lineKind(rest);
      if (kind === 'blank') {
        if (blank < 0) blank = n;
        continue;
      }
      const stop: { kind: 'blank' | 'before'; line: number } = blank >= 0 ? { kind: 'blank', line: blank } : { kind: 'before', line: n };
      const marker = kind === 'ordered' || (this.#mode === 'steps' && kind === 'text' && readTypedLabel(rest) !== undefined);
      const outside = holder !== undefined && columns < holder.marker + 2;
      if (kind === 'heading' || (kind === 'notice-fence' && runLength(rest) >= colons)) return recover ?? stop;
      if (outside && (marker || kind === 'bullet' || blank >= 0)) return recover ?? stop;
      if (!recover && (marker || (blank >= 0 && kind === 'bullet'))) recover = stop;
      if (kind === 'code-fence') code = { char: rest[0] ?? '`', size: runLength(rest) };
      blank = -1;
    }
    return recover ?? { kind: 'before', line: this.#count };
  }

  #inNotice(n: number, raw: string, base: number, rest: string, columns: number, chars: number, kind: LineKind): void {
    const notice = this.#notice;
    if (!notice) return;
    const holder = this.#stack[notice.depth - 1];
    const least = this.#given(holder, columns);
    if (holder && columns < holder.content && !holder.masked) this.#underIndented(holder, raw, base, columns, chars);
    if (n === notice.close) {
      this.#giveIndented(rest, base, chars, least, raw.length);
      this.#endNotice();
      return;
    }
    if (kind === 'notice-fence') {
      this.#giveIndented(isNoticeClose(rest) ? rest : openFence(rest), base, chars, least, raw.length);
      return;
    }
    let text = rest;
    if (kind === 'quote') text = this.#quote(text, base + chars);
    else if (columns > DEEPEST * 4) text = this.#flattened(text, base + chars);
    if (kind === 'code-fence') this.#code = { char: rest[0] ?? '`', size: runLength(rest), depth: notice.depth };
    this.#giveIndented(this.#capped(text, base + chars), base, chars, least, raw.length);
  }

  /** Markers on one line inside a notice are not tracked; their number still is. */
  #capped(text: string, at: number): string {
    return /^(?:[-+*]|\d{1,9}[.)])[ \t]/.test(text) ? this.#quote(text, at) : text;
  }

  #flattened(text: string, at: number): string {
    this.#deep(at);
    return text.replace(/^(?:[-+*>]|\d+[.)])/, (marker) => 'x'.repeat(marker.length));
  }

  #endNotice(): void {
    const notice = this.#notice;
    if (!notice) return;
    while (this.#stack.length > notice.depth) this.#pop();
    this.#notice = undefined;
    this.#open = false;
    this.#ended = true;
    this.#blankBefore = true;
    this.#table = false;
  }
}

/** The opening line as the parser knows it: any word, no attributes, no text after it. The real ones are read from the source. */
function openFence(rest: string): string {
  const colons = NOTICE_OPEN.exec(rest)?.[1] ?? ':::';
  const room = rest.length - colons.length;
  return room === 0 ? colons : `${colons}x`.padEnd(rest.length, ' ');
}
