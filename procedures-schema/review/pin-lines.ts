/** What a remark can be pinned to: the steps of a procedure; of a guide its foreword, its parts and the documents that it binds in. */
import type { Margin, MarginLine } from '../assist/index.ts';
import type { Span } from '../finding.ts';
import { type Block, positionAt } from '../format/index.ts';
import type { GuideFacts } from './signed.ts';

export interface PinLine {
  /** What the remark is pinned to, and finds again. */
  readonly words: string;
  /** "Check 4"; of a guide the title of the part. Empty: in the foreword. */
  readonly label: string;
  readonly line: number;
  readonly span: Span;
}

/** The words of a step, as they were read. */
export const wordsOfLine = (line: MarginLine): string => line.readings.map(({ text }) => text).join(' ');

export const linesOfSteps = (lines: Margin['lines']): readonly PinLine[] =>
  lines.map((step) => ({ words: wordsOfLine(step), label: step.fullLabel, line: step.line, span: step.span }));

export function linesOfGuide({ tree }: GuideFacts): readonly PinLine[] {
  const made = (words: string, label: string, span: Span): PinLine => ({
    words,
    label,
    line: positionAt(tree.source, span.start).line,
    span,
  });
  return [
    ...runsOf(tree.foreword).map(({ text, span }) => made(text, '', span)),
    ...tree.parts.flatMap(({ title, blocks, entries, span }) => {
      const bound = new Map(entries.map((entry) => [entry.span.start, entry.document]));
      const lineEnd = tree.source.text.indexOf('\n', span.start);
      const heading = { start: span.start, end: lineEnd === -1 ? span.end : lineEnd };
      return [made(title, title, heading), ...runsOf(blocks).map((run) => made(bound.get(run.span.start) ?? run.text, title, run.span))];
    }),
  ];
}

export interface Run {
  readonly text: string;
  readonly span: Span;
  /** The signal word of the notice that it stands in. */
  readonly notice?: string;
}

/** Paragraphs and lines of lists, in the order of the text. */
export function runsOf(blocks: readonly Block[]): readonly Run[] {
  return blocks.flatMap((block) => {
    if (block.kind === 'paragraph') return [{ text: block.prose.text, span: block.span }];
    if (block.kind === 'bullets')
      return block.items.flatMap((item) => [{ text: item.prose.text, span: item.span }, ...runsOf(item.blocks)]);
    return block.kind === 'notice' ? runsOf(block.blocks).map((run) => ({ ...run, notice: block.word })) : [];
  });
}
