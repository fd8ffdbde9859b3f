/**
 * One parsed piece of a file to our blocks: paragraphs, figures, notices, tables, lists. Offsets are those of the piece's text.
 * Items become steps in step-reader.ts; sections are put together in procedure.ts.
 * Long because one piece is read in one pass; a second idea is still to be cut out.
 */
import { attributeProblems, readAttributes, readTrailingAttributes } from './attributes.ts';
import { readInline } from './inline.ts';
import { NOTICE_OPEN } from './line-shape.ts';
import type { LineSpan, Markup, MarkupBox, MarkupItem, MarkupList, MarkupTable, MarkupText } from './markdown.ts';
import { nameTables } from './name-tables.ts';
import type { Mode } from './outline.ts';
import { emptyProse } from './prose.ts';
import type { FileNames } from './reference-form.ts';
import { nearestSignalWord, SIGNAL_START, signalWord } from './signal-words.ts';
import { type ItemContext, place, type Run, readSteps } from './step-reader.ts';
import type { Attributes, Block, BulletList, Cell, Figure, FormatProblem, Notice, Paragraph, Prose, Table } from './tree.ts';
import { startsWithQuantity } from './unit-words.ts';

/** What a piece turns into at the top of a file: blocks, and headings between them. */
export interface Heading {
  readonly kind: 'heading';
  readonly span: { readonly start: number; readonly end: number };
  readonly level: number;
  readonly title: string;
  readonly titleSpan: { readonly start: number; readonly end: number };
  readonly attributes?: Attributes;
}
export type TopBlock = Block | Heading;

/** Reads one piece. Collects problems instead of failing. */
export class PieceReader implements ItemContext {
  readonly text: string;
  readonly names: FileNames;
  readonly problems: FormatProblem[] = [];
  /** Steps only exist in procedure sections, and not inside notices. */
  mode: Mode;

  constructor(text: string, mode: Mode, names: FileNames) {
    this.text = text;
    this.mode = mode;
    this.names = names;
  }

  problem(problem: FormatProblem): void {
    this.problems.push(problem);
  }

  top(nodes: readonly Markup[]): TopBlock[] {
    return this.#all(nodes, true);
  }

  blocks(nodes: readonly Markup[]): Block[] {
    return this.#all(nodes, false) as Block[];
  }

  #all(nodes: readonly Markup[], top: boolean): TopBlock[] {
    const out: TopBlock[] = [];
    nodes.forEach((node, n) => {
      if (node.type === 'heading' && top) out.push(this.#heading(node));
      else if (node.type === 'rule') this.#rule(node, nodes[n - 1]);
      else out.push(...this.block(node));
    });
    return nameTables(out);
  }

  block(node: Markup): Block[] {
    switch (node.type) {
      case 'paragraph':
        return this.paragraph(node.lines);
      case 'heading':
        this.problem({
          rule: 'sections',
          span: node,
          message: 'A heading inside a list, quote or notice starts no section. It is read as text.',
          expected: 'the heading at the margin, with an empty line before it',
        });
        return this.paragraph(node.lines);
      case 'list':
        return this.#list(node);
      case 'quote':
        return this.#quote(node);
      case 'fence':
        return this.#fence(node);
      case 'code':
        return [{ kind: 'code', span: place(node), value: node.value }];
      case 'table':
        return [this.#table(node)];
      default:
        return [];
    }
  }

  prose(lines: readonly LineSpan[], at: number): Prose {
    if (lines.length === 0) return emptyProse(at);
    const { prose, problems } = readInline(this.text, lines, this.names);
    this.problems.push(...problems);
    this.#strayBraces(lines);
    return prose;
  }

  /** F4: braces that look like attributes where none are read. */
  #strayBraces(lines: readonly LineSpan[]): void {
    for (const line of lines) {
      const slice = this.text.slice(line.start, line.end);
      for (const found of slice.matchAll(/(?<!\\)\{(?=#[a-z]|(?:reads|because|by|aside)\b)/g)) {
        const read = readAttributes(this.text, line.start + found.index, line.end);
        if (!read) continue;
        this.problem({
          rule: 'attributes',
          span: read.span,
          message: 'Braces are read only at the start or the end of the first line of a step or heading. Here they are text.',
        });
      }
    }
  }

  #rule(node: Markup, before: Markup | undefined): void {
    if (before?.type !== 'paragraph' || this.text[node.start] !== '-') return;
    const between = this.text.slice(before.end, node.start);
    if (before.lines.length !== 1 || /(?:\n|\r\n?)[ \t]*(?:\n|\r)/.test(between)) return;
    this.problem({
      rule: 'sections',
      span: place(before),
      message: 'A line underlined with hyphens is not a heading here.',
      expected: 'a heading such as "## Check"',
      replacement: {
        span: { start: before.start, end: node.end },
        text: `## ${this.text.slice(before.start, before.end)}`,
        title: 'Make it a heading',
      },
    });
  }

  #heading(node: MarkupText): Heading {
    const line = node.lines[0];
    let from = line?.start ?? node.end;
    let to = line?.end ?? node.end;
    const attributes = this.takeAttributes(from, to, 'heading');
    if (attributes?.where === 'start') from = attributes.rest;
    if (attributes?.where === 'end') to = attributes.rest;
    const prose = this.prose(to > from ? [{ start: from, end: to }] : [], from);
    return {
      kind: 'heading',
      span: place(node),
      level: node.depth,
      title: prose.text.replace(/\s+/g, ' ').trim(),
      titleSpan: { start: from, end: to },
      ...(attributes ? { attributes: attributes.attributes } : {}),
    };
  }

  /** Attributes at one end of a line, checked; `rest` is where the text then starts or ends. */
  takeAttributes(
    from: number,
    to: number,
    place: 'step' | 'heading',
  ): { readonly attributes: Attributes; readonly where: 'start' | 'end'; readonly rest: number } | undefined {
    const leading = readAttributes(this.text, from, to);
    if (leading) {
      this.problems.push(...attributeProblems(leading, place));
      let rest = leading.span.end;
      while (rest < to && /[ \t]/.test(this.text[rest] ?? '')) rest++;
      return { attributes: leading, where: 'start', rest };
    }
    let end = to;
    while (end > from && /[ \t]/.test(this.text[end - 1] ?? '')) end--;
    const trailing = readTrailingAttributes(this.text, from, end);
    if (!trailing) return undefined;
    this.problems.push(...attributeProblems(trailing, place));
    let rest = trailing.span.start;
    while (rest > from && /[ \t]/.test(this.text[rest - 1] ?? '')) rest--;
    return { attributes: trailing, where: 'end', rest };
  }

  // ------------------------------------------------------------ paragraphs

  /** Lines of one paragraph: figures and notices that stand on lines of their own in it come out as such. */
  paragraph(lines: readonly LineSpan[]): (Paragraph | Figure | Notice)[] {
    const out: (Paragraph | Figure | Notice)[] = [];
    for (const run of this.runs(lines)) {
      if (run.kind === 'figure') out.push(run.figure);
      else if (run.kind === 'notice') out.push(this.#paragraphNotice(run.lines, 'paragraph'));
      else out.push(this.#plainParagraph(run.lines));
    }
    return out;
  }

  runs(lines: readonly LineSpan[]): Run[] {
    const runs: Run[] = [];
    let ended = true;
    for (const line of lines) {
      const slice = this.text.slice(line.start, line.end);
      const figure = slice.startsWith('![') ? this.#figure(line, slice) : undefined;
      const last = runs.at(-1);
      if (figure) runs.push({ kind: 'figure', figure });
      else {
        const signal = SIGNAL_START.exec(slice);
        if (signal && (ended || (signal[1] ?? '') === (signal[1] ?? '').toUpperCase())) runs.push({ kind: 'notice', lines: [line] });
        else if (last && last.kind !== 'figure') last.lines.push(line);
        else runs.push({ kind: 'text', lines: [line] });
      }
      ended = figure !== undefined || /[.:;!?)][*"'”’]*\s*$/.test(slice);
    }
    return runs;
  }

  #plainParagraph(lines: readonly LineSpan[]): Paragraph {
    const first = lines[0];
    const last = lines.at(-1);
    const start = first?.start ?? 0;
    const end = last?.end ?? 0;
    const trailing = last ? readTrailingAttributes(this.text, last.start, last.end) : undefined;
    if (!trailing?.id) return { kind: 'paragraph', span: { start, end }, prose: this.prose(lines, start) };
    this.problems.push(...attributeProblems(trailing, 'table'));
    const cut = lines.slice(0, -1);
    let stop = trailing.span.start;
    while (last && stop > last.start && /[ \t]/.test(this.text[stop - 1] ?? '')) stop--;
    if (last && stop > last.start) cut.push({ start: last.start, end: stop });
    return { kind: 'paragraph', span: { start, end }, prose: this.prose(cut, start), attributes: trailing };
  }

  #figure(line: LineSpan, slice: string): Figure | undefined {
    const found = /^!\[((?:[^\]\\]|\\.)*)\]\(\s*(?:<([^<>]*)>|([^()\s]*(?:\([^()\s]*\)[^()\s]*)*))\s*\)[ \t]*(?=$|\{)/.exec(slice);
    if (!found) return undefined;
    const after = line.start + found[0].length;
    const attributes = after < line.end ? readAttributes(this.text, after, line.end) : undefined;
    if (after < line.end && attributes?.span.end !== line.end) return undefined;
    if (attributes) this.problems.push(...attributeProblems(attributes, 'figure'));
    const path = found[2] ?? found[3] ?? '';
    const pathAt = line.start + found[0].indexOf(path, (found[1] ?? '').length + 3);
    return {
      kind: 'figure',
      span: { start: line.start, end: line.end },
      ...(attributes?.id ? { id: attributes.id.value } : {}),
      alt: (found[1] ?? '').replace(/\\([!-/:-@[-`{-~])/g, '$1'),
      path,
      pathSpan: { start: pathAt, end: pathAt + path.length },
    };
  }

  // ------------------------------------------------------------ notices

  #paragraphNotice(lines: readonly LineSpan[], form: 'paragraph' | 'quote'): Notice {
    const first = lines[0] ?? { start: 0, end: 0 };
    const slice = this.text.slice(first.start, first.end);
    const signal = SIGNAL_START.exec(slice);
    const word = signalWord(signal?.[1] ?? '') ?? 'notice';
    const wordAt = first.start + slice.indexOf(signal?.[1] ?? '');
    let from = first.start + (signal?.[0].length ?? 0);
    while (from < first.end && /[ \t]/.test(this.text[from] ?? '')) from++;
    const rest = from < first.end ? [{ start: from, end: first.end }, ...lines.slice(1)] : lines.slice(1);
    const end = lines.at(-1)?.end ?? first.end;
    return {
      kind: 'notice',
      span: { start: first.start, end },
      word,
      wordSpan: { start: wordAt, end: wordAt + word.length },
      blocks: rest.length > 0 ? this.inProse(() => [this.#plainParagraph(rest)]) : [],
      form,
    };
  }

  /** Notices hold no steps. */
  inProse<T>(read: () => T): T {
    const before = this.mode;
    this.mode = 'prose';
    const result = read();
    this.mode = before;
    return result;
  }

  #quote(node: MarkupBox): Block[] {
    const first = node.children[0];
    if (first?.type !== 'paragraph') return node.children.flatMap((child) => this.block(child));
    const blocks = this.paragraph(first.lines);
    const head = blocks[0];
    const rest = node.children.slice(1);
    if (head?.kind !== 'notice' || blocks.length > 1) return [...blocks, ...rest.flatMap((child) => this.block(child))];
    const more = this.inProse(() => this.blocks(rest));
    return [{ ...head, span: place(node), form: 'quote', blocks: [...head.blocks, ...more] }];
  }

  #fence(node: MarkupBox): Block[] {
    const lineStop = /[\r\n]/.exec(this.text.slice(node.start))?.index ?? this.text.length - node.start;
    const line = this.text.slice(node.start, node.start + lineStop);
    const open = NOTICE_OPEN.exec(line);
    const typed = open?.[2] ?? '';
    const wordAt = node.start + line.indexOf(typed, (open?.[1] ?? '').length);
    const wordSpan = { start: wordAt, end: wordAt + typed.length };
    const inner = this.inProse(() => this.blocks(node.children));
    const known = signalWord(typed.replace(/:$/, ''));
    const tail = this.#fenceTail(node.start + line.length - (open?.[3] ?? '').length, node.start + line.trimEnd().length);
    const blocks = [...tail.blocks, ...inner];
    if (!known) {
      const near = nearestSignalWord(typed);
      this.problem({
        rule: 'notice-form',
        span: { start: node.start, end: node.start + line.trimEnd().length },
        message: typed === '' ? 'This notice has no signal word.' : `"${typed}" is no signal word.`,
        actual: typed,
        expected: 'danger, warning, caution or notice',
        ...(near ? { replacement: { span: wordSpan, text: near, title: `Write ${near}` } } : {}),
      });
      if (!near) return blocks;
    }
    const word = known ?? nearestSignalWord(typed) ?? 'notice';
    return [
      {
        kind: 'notice',
        span: place(node),
        word,
        wordSpan,
        ...(tail.attributes ? { attributes: tail.attributes } : {}),
        blocks,
        form: 'fence',
      },
    ];
  }

  /** What follows the word on the fence's line: attributes; text there is kept and reported. */
  #fenceTail(from: number, to: number): { readonly attributes?: Attributes; readonly blocks: Block[] } {
    if (from >= to) return { blocks: [] };
    const attributes = readAttributes(this.text, from, to);
    if (attributes) this.problems.push(...attributeProblems(attributes, 'notice'));
    let at = attributes?.span.end ?? from;
    while (at < to && /[ \t]/.test(this.text[at] ?? '')) at++;
    if (at >= to) return attributes ? { attributes, blocks: [] } : { blocks: [] };
    this.problem({
      rule: 'notice-form',
      span: { start: at, end: to },
      message: 'The text of a notice starts on the line after the signal word.',
      replacement: { span: { start: at, end: at }, text: '\n', title: 'Start a new line' },
    });
    return { ...(attributes ? { attributes } : {}), blocks: [this.#plainParagraph([{ start: at, end: to }])] };
  }

  // ------------------------------------------------------------ tables and lists

  #table(node: MarkupTable): Table {
    const cells = (row: MarkupTable['rows'][number] | undefined): Cell[] =>
      (row?.cells ?? []).map((cell, n) => {
        const align = node.align[n];
        const at = cell.lines[0]?.start ?? cell.start;
        return {
          span: place(cell),
          prose: this.prose(cell.lines, at),
          ...(align === 'left' || align === 'right' || align === 'center' ? { align } : {}),
        };
      });
    return {
      kind: 'table',
      span: place(node),
      head: cells(node.rows[0]),
      rows: node.rows.slice(1).map((row) => ({ span: place(row), cells: cells(row) })),
    };
  }

  #list(node: MarkupList): Block[] {
    return this.mode === 'steps' ? readSteps(this, node) : [node.ordered ? this.#numbered(node) : this.bullets(node.children, place(node))];
  }

  /** A numbered list in prose: its numbers are kept, its items are no steps of any section. */
  #numbered(node: MarkupList): Block {
    return readSteps(this, node)[0] ?? this.bullets(node.children, place(node));
  }

  bullets(items: readonly MarkupItem[], span: { readonly start: number; readonly end: number }): BulletList {
    return {
      kind: 'bullets',
      span,
      items: items.map((item) => {
        const first = item.children[0];
        const lines = first?.type === 'paragraph' ? first.lines : [];
        this.quantityStart(item);
        const prose = this.prose(lines, item.end);
        return { span: place(item), prose, blocks: this.blocks(lines.length > 0 ? item.children.slice(1) : item.children) };
      }),
    };
  }

  /** F7: "- 5 °C" was meant as minus five and lost its sign. A noun after the unit ("- 10 mm bolts") makes it a thing. */
  quantityStart(item: MarkupItem): void {
    const first = item.children[0];
    const line = first?.type === 'paragraph' ? first.lines[0] : undefined;
    if (!line) return;
    const text = this.text.slice(line.start, line.end);
    if (!startsWithQuantity(text)) return;
    const degrees = /^\S+\s*(?:°|º)[CF]?/.test(text);
    const rest = /^[\d.,/\s]+\S+\s*(.*)$/.exec(text)?.[1] ?? '';
    if (!degrees && rest !== '' && !/^(?:[.,;:!?)]|or\b|to\b|and\b|at\b|max|min|per\b|±|–)/.test(rest)) return;
    const marker = this.text[item.start] ?? '';
    this.problem({
      rule: 'labels',
      span: { start: item.start, end: line.end },
      message:
        marker === '-' || marker === '+'
          ? `This line starts with "${marker}" and a value, so it is read as a list item and the sign is lost.`
          : 'This list item starts with a value. If the number before it is part of the value, it was lost.',
      expected: 'the value inside a sentence, such as "at −5 °C"',
    });
  }
}
