/**
 * Blocks of a piece that holds nothing but a heading, a paragraph, or items of text with items of text below them: most of every
 * procedure. Read by hand, because the parser takes a hundred times as long to find the same. Whatever is not surely one of these is
 * left to it (markdown.ts); the tests hold both to the same answer, node for node and place for place.
 */
import type { LineSpan, Markup, MarkupItem, MarkupList } from './markdown.ts';
import type { GivenLine } from './outline.ts';

/** Source offset of a column of a given line, both counted from nought. */
export type PlaceOf = (line: number, column: number) => number;

/** What could be more than text anywhere in a line: tabs, table bars, escapes, control characters; blanks at its end. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what the parser replaces or splits at
const ODD = /[\u0000-\u001f|\\]|\s$/;
/** What cannot start a line of text: a block of its own may. */
const OPENS = /^(?:[\s#>*+_`~:=<-]|\d{1,9}[.)](?:\s|$))/;
const ITEM = /^(?:([-*+])|(\d{1,9})([.)])) (?=\S)/;
const HEADING = /^(#{1,6}) (?=\S)/;

/** undefined: not surely plain. */
export function plainMarkup(lines: readonly GivenLine[], placeOf: PlaceOf): readonly Markup[] | undefined {
  let count = lines.length;
  while (count > 0 && /^ *$/.test(lines[count - 1]?.text ?? '')) count -= 1;
  if (count === 0) return [];
  for (let index = 0; index < count; index += 1) {
    const text = lines[index]?.text ?? '';
    if (text === '' || ODD.test(text)) return undefined;
  }
  const first = lines[0]?.text ?? '';
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
  const spans: LineSpan[] = [];
  for (let index = 0; index < count; index += 1) {
    const span = reader.text(index, 0);
    if (span === undefined) return undefined;
    spans.push(span);
  }
  return [{ type: 'paragraph', start: placeOf(0, 0), end: spans.at(-1)?.end ?? 0, depth: 0, lines: spans }];
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
