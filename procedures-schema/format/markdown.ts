/**
 * The one door to unified and remark: given text to blocks with places, mdast dropped at once. Only block structure is asked of
 * it; the profile turns off everything inside a line, and inline.ts reads that from the source.
 */
import { directiveFromMarkdown } from 'mdast-util-directive';
import { gfmTableFromMarkdown } from 'mdast-util-gfm-table';
import { directive } from 'micromark-extension-directive';
import { gfmTable } from 'micromark-extension-gfm-table';
import remarkParse from 'remark-parse';
import { type Processor, unified } from 'unified';
import type { GivenLine } from './outline.ts';
import { plainMarkup } from './plain-markup.ts';

/** Source offsets of one line's text inside a paragraph, heading or cell. */
export interface LineSpan {
  readonly start: number;
  readonly end: number;
}

export type Markup = MarkupText | MarkupList | MarkupItem | MarkupBox | MarkupCode | MarkupTable | MarkupRule;
interface Base {
  readonly start: number;
  readonly end: number;
}
export interface MarkupText extends Base {
  readonly type: 'paragraph' | 'heading';
  readonly depth: number;
  readonly lines: readonly LineSpan[];
}
export interface MarkupList extends Base {
  readonly type: 'list';
  readonly ordered: boolean;
  /** The character that must be the same in all items: one of - + * . ) */
  readonly marker: string;
  readonly children: readonly MarkupItem[];
}
export interface MarkupItem extends Base {
  readonly type: 'item';
  readonly children: readonly Markup[];
}
export interface MarkupBox extends Base {
  readonly type: 'quote' | 'fence';
  readonly children: readonly Markup[];
  readonly closed: boolean;
}
export interface MarkupCode extends Base {
  readonly type: 'code';
  readonly value: string;
  readonly closed: boolean;
}
export interface MarkupTable extends Base {
  readonly type: 'table';
  readonly align: readonly (string | null)[];
  readonly rows: readonly (Base & { readonly cells: readonly (Base & { readonly lines: readonly LineSpan[] })[] })[];
}
export interface MarkupRule extends Base {
  readonly type: 'rule';
}

/** What remark would read inside lines or as blocks that service prose never means: "5*3*2", "2. [P1]: 0", "12:30". */
const OFF = [
  'attention',
  'autolink',
  'characterEscape',
  'characterReference',
  'codeIndented',
  'codeText',
  'definition',
  'hardBreakEscape',
  'htmlFlow',
  'htmlText',
  'labelEnd',
  'labelStartImage',
  'labelStartLink',
  'setextUnderline',
];

/** The parts of mdast and of its builder that are used here. */
interface Point {
  readonly line: number;
  readonly column: number;
}
interface Node {
  readonly type: string;
  readonly position?: { readonly start: Point; end: Point };
  readonly children?: Node[];
  readonly depth?: number;
  readonly ordered?: boolean;
  readonly value?: string;
  readonly align?: (string | null)[];
}
interface Token {
  readonly start: Point;
  readonly end: Point;
}
interface Builder {
  readonly stack: Node[];
}

/** Each line of text becomes a node of its own, so that list and quote prefixes between lines never get into it. */
const LINES = {
  enter: {
    data(this: Builder, token: Token): void {
      const node: Node = { type: 'line', position: { start: token.start, end: token.end } };
      this.stack.at(-1)?.children?.push(node);
      this.stack.push(node);
    },
  },
  exit: {
    data(this: Builder, token: Token): void {
      const node = this.stack.pop();
      if (node?.position) node.position.end = token.end;
    },
  },
};

function profile(this: Processor): void {
  const data = this.data() as { micromarkExtensions?: unknown[]; fromMarkdownExtensions?: unknown[] };
  const flow = (directive().flow as Record<number, unknown>)[58];
  const container = Array.isArray(flow) ? flow[0] : flow;
  data.micromarkExtensions = [{ disable: { null: OFF } }, gfmTable(), { flow: { 58: container } }];
  data.fromMarkdownExtensions = [gfmTableFromMarkdown(), directiveFromMarkdown(), LINES];
}

let parser: { parse(text: string): unknown } | undefined;

/** `base` is subtracted from every source offset. What is plain is read by hand: the same answer, without the parser. */
export const parseBlocks = (lines: readonly GivenLine[], base: number): readonly Markup[] =>
  plainMarkup(lines, (line, column) => placeIn(lines, base, line, column)) ?? parseFully(lines, base);

/** The same by the parser alone. */
export function parseFully(lines: readonly GivenLine[], base: number): readonly Markup[] {
  parser ??= unified().use(remarkParse).use(profile).freeze();
  const text = lines.map((line) => line.text).join('\n');
  const root = parser.parse(text) as Node;
  return new Translation(lines, base).all(root.children);
}

/** Source offset, less `base`, of a column of a given line. */
export function placeIn(lines: readonly GivenLine[], base: number, index: number, column: number): number {
  const line = lines[index];
  if (!line) {
    const last = lines.at(-1);
    return last ? last.base + last.length - base : 0;
  }
  const inside = column < line.indent ? Math.min(column, line.lead) : line.lead + column - line.indent;
  return line.base + Math.min(inside, line.length) - base;
}

class Translation {
  readonly #lines: readonly GivenLine[];
  readonly #base: number;

  constructor(lines: readonly GivenLine[], base: number) {
    this.#lines = lines;
    this.#base = base;
  }

  all(nodes: readonly Node[] | undefined): Markup[] {
    const out: Markup[] = [];
    for (const node of nodes ?? []) {
      const markup = this.#one(node);
      if (markup) out.push(markup);
    }
    return out;
  }

  #at(point: Point): number {
    return placeIn(this.#lines, this.#base, point.line - 1, point.column - 1);
  }

  #place(node: Node): Base {
    const position = node.position;
    if (!position) return { start: 0, end: 0 };
    return { start: this.#at(position.start), end: this.#at(this.#trimmed(position.start, position.end)) };
  }

  /** The end of the last line with text: micromark lets a block without an end run on over empty lines, or not. */
  #trimmed(start: Point, end: Point): Point {
    let { line, column } = end;
    while (line > start.line && /^[ \t]*$/.test(this.#given({ line, column }).slice(0, column - 1))) {
      line--;
      column = this.#given({ line, column }).length + 1;
    }
    return { line, column };
  }

  #given(point: Point): string {
    return this.#lines[point.line - 1]?.text ?? '';
  }

  #one(node: Node): Markup | undefined {
    const place = this.#place(node);
    switch (node.type) {
      case 'paragraph':
        return { type: 'paragraph', ...place, depth: 0, lines: this.#textLines(node) };
      case 'heading':
        return { type: 'heading', ...place, depth: node.depth ?? 1, lines: this.#textLines(node) };
      case 'list':
        return { type: 'list', ...place, ordered: node.ordered === true, marker: this.#marker(node), children: this.#items(node) };
      case 'blockquote':
        return { type: 'quote', ...place, children: this.all(node.children), closed: true };
      case 'containerDirective':
        return { type: 'fence', ...place, children: this.all(node.children), closed: this.#closed(node, /^[\s>]*:{3,}\s*$/) };
      case 'code':
        return { type: 'code', ...place, value: node.value ?? '', closed: this.#closed(node, /^[\s>]*(?:`{3,}|~{3,})\s*$/) };
      case 'table':
        return { type: 'table', ...place, align: node.align ?? [], rows: this.#rows(node) };
      case 'thematicBreak':
        return { type: 'rule', ...place };
      default:
        return undefined;
    }
  }

  #closed(node: Node, closing: RegExp): boolean {
    const position = node.position;
    return position !== undefined && position.end.line > position.start.line && closing.test(this.#given(position.end));
  }

  #textLines(node: Node): LineSpan[] {
    const out: LineSpan[] = [];
    for (const child of node.children ?? []) if (child.type === 'line') out.push(this.#place(child));
    return out;
  }

  #marker(node: Node): string {
    const start = node.children?.[0]?.position?.start ?? node.position?.start;
    if (!start) return '-';
    const from = this.#given(start).slice(start.column - 1);
    return /^\d*(.)/.exec(from)?.[1] ?? '-';
  }

  #items(node: Node): MarkupItem[] {
    return (node.children ?? []).map((child) => ({ type: 'item' as const, ...this.#place(child), children: this.all(child.children) }));
  }

  #rows(node: Node): MarkupTable['rows'] {
    return (node.children ?? []).map((row) => ({
      ...this.#place(row),
      cells: (row.children ?? []).map((cell) => ({ ...this.#place(cell), lines: this.#textLines(cell) })),
    }));
  }
}
