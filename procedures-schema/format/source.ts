/** Raw text to SourceText and offsets to lines and columns. Leaves what the text says to the readers. */
import type { Position, Range, Span } from '../finding.ts';
import { Recent } from '../recent.ts';
import type { FormatProblem, SourceText } from './tree.ts';

const BOM = 0xfeff;

export function sourceOf(path: string, raw: string): SourceText {
  const bom = raw.charCodeAt(0) === BOM;
  const text = bom ? raw.slice(1) : raw;
  return new Source(path, text, bom);
}

/** In a long library nobody asks twice where the lines of most texts begin. */
const STARTS = Recent.ofObjects<SourceText, readonly number[]>(200);

class Source implements SourceText {
  readonly path: string;
  readonly text: string;
  readonly bom: boolean;

  constructor(path: string, text: string, bom: boolean) {
    this.path = path;
    this.text = text;
    this.bom = bom;
  }

  get lineStarts(): readonly number[] {
    let starts = STARTS.get(this);
    if (starts === undefined) {
      starts = lineStartsOf(this.text);
      STARTS.set(this, starts);
    }
    return starts;
  }
}

/** A line ends at LF, CRLF or a lone CR, as in CommonMark. */
function lineStartsOf(text: string): number[] {
  const starts = [0];
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 10 || (code === 13 && text.charCodeAt(at + 1) !== 10)) starts.push(at + 1);
  }
  return starts;
}

/** End of line `line` (from 0) without its line ending. */
export function lineEnd(source: SourceText, line: number): number {
  const next = source.lineStarts[line + 1];
  if (next === undefined) return source.text.length;
  const last = source.text.charCodeAt(next - 1);
  return last === 10 && source.text.charCodeAt(next - 2) === 13 ? next - 2 : next - 1;
}

/** Index from 0 of the line that holds `offset`. */
export function lineAt(source: SourceText, offset: number): number {
  let low = 0;
  let high = source.lineStarts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((source.lineStarts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}

export function positionAt(source: SourceText, offset: number): Position {
  const inside = Math.max(0, Math.min(offset, source.text.length));
  const line = lineAt(source, inside);
  return { line: line + 1, column: inside - (source.lineStarts[line] ?? 0) + 1, offset: inside };
}

export function rangeOf(source: SourceText, span: Span): Range {
  return { start: positionAt(source, span.start), end: positionAt(source, span.end) };
}

/** F1: characters that no writer typed on purpose. One problem a kind, at the first place. */
export function textDamage(source: SourceText): FormatProblem[] {
  const problems: FormatProblem[] = [];
  const first = (pattern: RegExp, message: string): void => {
    const found = pattern.exec(source.text);
    if (!found) return;
    problems.push({ rule: 'text-damage', span: { start: found.index, end: found.index + found[0].length }, message });
  };
  first(
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the damage looked for
    /\u0000/,
    'The file holds a NUL character here. It was probably not saved as text; delete the character or save the file again as UTF-8.',
  );
  first(
    /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/,
    'Half of a character stands here (a lone surrogate). Delete it and type the character again.',
  );
  first(/\ufffd/, 'A character was lost here when the file was saved in another encoding. Type it again.');
  first(
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the damage looked for
    /[\u0001-\u0008\u000b\u000c\u000e-\u001f\u007f]/,
    'An invisible control character stands here. Delete it.',
  );
  return problems;
}
