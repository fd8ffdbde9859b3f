/**
 * Blocks of a piece that holds nothing but a heading, a paragraph, items of text with items of text below them, a table, or a notice of
 * one paragraph: nearly all of every procedure. Read by hand, because the parser takes a hundred times as long to find the same. Whatever is not surely one of these is
 * left to it (markdown.ts); the tests hold both to the same answer, node for node and place for place.
 */
import type { LineSpan, Markup, MarkupItem, MarkupList, MarkupTable, MarkupText } from './markdown.ts';
import type { GivenLine } from './outline.ts';

/** Source offset of a column of a given line, both counted from nought. */
export type PlaceOf = (line: number, column: number) => number;

/** What could be more than text anywhere in a line: tabs, table bars, escapes, control characters; blanks at its end. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what the parser replaces or splits at
const ODD = /[\u0000-\u001f|\\]|\s$/;
/** The same within a table, where bars are what is looked for. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: as above
const SPLITS = /[\u0000-\u001f\\]/;
/** What cannot start a line of text: a block of its own may. */
const OPENS = /^(?:[\s#>*+_`~:=<-]|\d{1,9}[.)](?:\s|$))/;
const ITEM = /^(?:([-*+])|(\d{1,9})([.)])) (?=\S)/;
/** As the outline gives the first line of a notice. */
const FENCE = /^:::x *$/;
const HEADING = /^(#{1,6}) (?=\S)/;

/** undefined: not surely plain. */
export function plainMarkup(lines: readonly GivenLine[], placeOf: PlaceOf): readonly Markup[] | undefined {
  let count = lines.length;
  while (count > 0 && /^ *$/.test(lines[count - 1]?.text ?? '')) count -= 1;
  if (count === 0) return [];
  const first = lines[0]?.text ?? '';
  if (first.startsWith('|')) return table(lines.slice(0, count), placeOf);
  if (FENCE.test(first)) return fence(lines, count, placeOf);
  if (!allPlain(lines, 0, count)) return undefined;
  const heading = HEADING.exec(first);
  if (heading) {
    if (count > 1 || first.endsWith('#')) return undefined;
    const end = placeOf(0, first.length);
    const depth = (heading[1] ?? '').length;
    return [{ type: 'heading', start: placeOf(0, 0), end, depth, lines: [{ start: placeOf(0, heading[0].length), end }] }];
  }
  const reader = new Lists(lines, count, placeOf);
  if (ITEM.test(first)) {
    const list = reader.list(0);
    return list && reader.at === count ? [list] : undefined;
  }
  const paragraph = reader.paragraph(0, count);
  return paragraph && [paragraph];
}

function allPlain(lines: readonly GivenLine[], from: number, to: number): boolean {
  for (let index = from; index < to; index += 1) {
    const text = lines[index]?.text ?? '';
    if (text === '' || ODD.test(text)) return false;
  }
  return true;
}

/** A notice with its end, and one paragraph in it. */
function fence(lines: readonly GivenLine[], count: number, placeOf: PlaceOf): readonly Markup[] | undefined {
  const last = count - 1;
  if (last < 2 || lines[last]?.text !== ':::' || !allPlain(lines, 1, last)) return undefined;
  const paragraph = new Lists(lines, last, placeOf).paragraph(1, last);
  return paragraph && [{ type: 'fence', start: placeOf(0, 0), end: placeOf(last, 3), children: [paragraph], closed: true }];
}

/** Every line between two bars; a cell begins with its bar, and the last of a row holds the closing one. */
function table(lines: readonly GivenLine[], placeOf: PlaceOf): readonly Markup[] | undefined {
  const texts = lines.map(({ text }) => text);
  if (texts.length < 2 || texts.some((text) => !/^\|.*\|$/.test(text) || SPLITS.test(text))) return undefined;
  const under = texts[1] ?? '';
  if (!/^\|(?: *:?-+:? *\|)+$/.test(under)) return undefined;
  const marks = under.slice(1, -1).split('|');
  const align = marks.map((mark) => {
    const [left, right] = [/^ *:/.test(mark), /: *$/.test(mark)];
    return left && right ? 'center' : left ? 'left' : right ? 'right' : null;
  });
  const row = (index: number): MarkupTable['rows'][number] => {
    const text = texts[index] ?? '';
    const bars: number[] = [];
    for (let at = text.indexOf('|'); at >= 0 && at < text.length - 1; at = text.indexOf('|', at + 1)) bars.push(at);
    const cells = bars.map((bar, n) => {
      const stop = bars[n + 1] ?? text.length - 1;
      const inside = text.slice(bar + 1, stop);
      // Blanks only: a no-break space is text.
      const at = bar + 1 + leading(inside);
      const own = inside.slice(leading(inside)).replace(/ +$/, '');
      const words = own === '' ? [] : [{ start: placeOf(index, at), end: placeOf(index, at + own.length) }];
      return { start: placeOf(index, bar), end: placeOf(index, bars[n + 1] ?? text.length), lines: words };
    });
    return { start: placeOf(index, 0), end: placeOf(index, text.length), cells };
  };
  const head = row(0);
  if (head.cells.length !== marks.length) return undefined;
  const rows = [head, ...texts.slice(2).map((_, n) => row(n + 2))];
  return [{ type: 'table', start: head.start, end: placeOf(texts.length - 1, (texts.at(-1) ?? '').length), align, rows }];
}

class Lists {
  /** The next line to read. */
  at = 0;
  readonly #lines: readonly GivenLine[];
  readonly #count: number;
  readonly #placeOf: PlaceOf;

  constructor(lines: readonly GivenLine[], count: number, placeOf: PlaceOf) {
    this.#lines = lines;
    this.#count = count;
    this.#placeOf = placeOf;
  }

  #given(line: number): string {
    return this.#lines[line]?.text ?? '';
  }

  /** A line of text from `column` to its end. */
  text(line: number, column: number): LineSpan | undefined {
    const given = this.#given(line);
    if (OPENS.test(given.slice(column))) return undefined;
    return { start: this.#placeOf(line, column), end: this.#placeOf(line, given.length) };
  }

  /** Lines of text and nothing else. */
  paragraph(from: number, to: number): MarkupText | undefined {
    const lines: LineSpan[] = [];
    for (let index = from; index < to; index += 1) {
      const span = this.text(index, 0);
      if (span === undefined) return undefined;
      lines.push(span);
    }
    return { type: 'paragraph', start: lines[0]?.start ?? 0, end: lines.at(-1)?.end ?? 0, depth: 0, lines };
  }

  /** Items whose markers stand at `indent`, one after the other without empty lines. */
  list(indent: number): MarkupList | undefined {
    const start = this.#placeOf(this.at, indent);
    const children: MarkupItem[] = [];
    let marker = '';
    let ordered = false;
    while (this.at < this.#count && leading(this.#given(this.at)) === indent) {
      const found = ITEM.exec(this.#given(this.at).slice(indent));
      const own = found?.[1] ?? found?.[3];
      if (!found || own === undefined || (children.length > 0 && own !== marker)) return undefined;
      marker = own;
      ordered = found[1] === undefined;
      const item = this.#item(indent, indent + found[0].length);
      if (item === undefined) return undefined;
      children.push(item);
    }
    if (this.at < this.#count && leading(this.#given(this.at)) > indent) return undefined;
    return { type: 'list', start, end: children.at(-1)?.end ?? start, ordered, marker, children };
  }

  #item(indent: number, content: number): MarkupItem | undefined {
    const start = this.#placeOf(this.at, indent);
    const head = this.text(this.at, content);
    if (head === undefined) return undefined;
    const lines = [head];
    const below: MarkupList[] = [];
    this.at += 1;
    while (this.at < this.#count && below.length === 0 && leading(this.#given(this.at)) === content) {
      const more = this.text(this.at, content);
      if (more !== undefined) {
        lines.push(more);
        this.at += 1;
        continue;
      }
      // Only a list that begins with one may follow text without an empty line.
      const found = ITEM.exec(this.#given(this.at).slice(content));
      if (!found || (found[2] !== undefined && found[2] !== '1')) return undefined;
      const list = this.list(content);
      if (list === undefined) return undefined;
      below.push(list);
    }
    const paragraph = { type: 'paragraph' as const, start: head.start, end: lines.at(-1)?.end ?? head.end, depth: 0, lines };
    return { type: 'item', start, end: below.at(-1)?.end ?? paragraph.end, children: [paragraph, ...below] };
  }
}

function leading(text: string): number {
  let at = 0;
  while (text.charCodeAt(at) === 32) at += 1;
  return at;
}
