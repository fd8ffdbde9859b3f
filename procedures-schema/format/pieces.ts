/** Body text to top blocks, piece by piece: outline, parse, read, move into place, join. Sections are made in procedure.ts. */
import { PieceReader, type TopBlock } from './block-reader.ts';
import { cutUp, endingOf } from './cut-up.ts';
import { parseBlocks } from './markdown.ts';
import { nameTables } from './name-tables.ts';
import { type Mode, type Outline, outlineOf } from './outline.ts';
import type { BlockCache, Piece } from './piece-cache.ts';
import { type FileNames, NO_NAMES, needsFileNames } from './reference-form.ts';
import { shifted } from './shift.ts';
import type { Block, FormatProblem, SourceText } from './tree.ts';

export interface Body {
  readonly blocks: readonly TopBlock[];
  readonly problems: readonly FormatProblem[];
}

export function readBody(
  source: SourceText,
  from: number,
  kind: 'procedure' | 'guide',
  names: FileNames,
  cache: BlockCache | undefined,
): Body {
  const outline = outlineOf(source, from, source.text.length, kind);
  const problems: FormatProblem[] = [...outline.problems];
  const blocks: TopBlock[] = [];
  const pieces = cutUp(outline.lines.length, outline.cuts, (first, to, mode) => readPiece(source, outline, first, to, mode, names, cache));
  for (const piece of pieces) {
    append(source, blocks, piece.blocks);
    problems.push(...piece.problems);
  }
  return { blocks: nameTables(blocks), problems };
}

function readPiece(
  source: SourceText,
  outline: Outline,
  from: number,
  to: number,
  mode: Mode,
  names: FileNames,
  cache: BlockCache | undefined,
): Piece {
  const lines = outline.lines.slice(from, to);
  const base = lines[0]?.base ?? source.text.length;
  const end = outline.lines[to]?.base ?? source.text.length;
  const text = source.text.slice(base, end);
  const own = needsFileNames(text) ? names : NO_NAMES;
  const read = (): Piece => {
    const markup = parseBlocks(lines, base);
    const reader = new PieceReader(text, mode, own);
    const blocks = reader.top(markup);
    return { blocks, problems: reader.problems, ...endingOf(markup) };
  };
  const given = lines.map((line) => `${line.indent - line.lead}:${line.text}`).join('\n');
  const scope = own === NO_NAMES ? '' : `${[...names.ids].join(' ')}\u0001${[...names.titles].join('\u0001')}`;
  if (!cache) return moved(read(), base);
  return cache.piece(`${mode}\u0000${scope}\u0000${text}\u0000${given}`, source.path, base, read);
}

function moved(piece: Piece, by: number): Piece {
  return { ...piece, blocks: shifted(piece.blocks, by), problems: shifted(piece.problems, by) };
}

/** Lists cut between two items become one again where CommonMark would have read one. */
function append(source: SourceText, blocks: TopBlock[], more: readonly TopBlock[]): void {
  more.forEach((block, n) => {
    const last = blocks.at(-1);
    const joint = n === 0 && last ? join(source, last, block) : undefined;
    if (joint) blocks[blocks.length - 1] = joint;
    else blocks.push(block);
  });
}

function join(source: SourceText, a: TopBlock, b: TopBlock): Block | undefined {
  if (a.kind === 'steps' && b.kind === 'steps' && delimiter(source, a.span.start) === delimiter(source, b.span.start)) {
    return { kind: 'steps', span: { start: a.span.start, end: b.span.end }, steps: [...a.steps, ...b.steps] };
  }
  if (a.kind === 'bullets' && b.kind === 'bullets' && source.text[a.span.start] === source.text[b.span.start]) {
    return { kind: 'bullets', span: { start: a.span.start, end: b.span.end }, items: [...a.items, ...b.items] };
  }
  return undefined;
}

function delimiter(source: SourceText, at: number): string {
  return /^[^.):]*([.):])/.exec(source.text.slice(at, at + 24))?.[1] ?? '';
}
