/** Finds the front matter of a Markdown file and has it read as YAML. Decoding its fields is registers/. */
import { lineEnd } from './source.ts';
import type { FormatProblem, FrontMatter, SourceText } from './tree.ts';
import { readYamlText } from './yaml.ts';

export interface ReadFront {
  readonly front: FrontMatter | undefined;
  /** Where the body starts. */
  readonly body: number;
  readonly problems: readonly FormatProblem[];
}

const FENCE = /^---[ \t]*$/;

export function readFrontMatter(source: SourceText): ReadFront {
  const line = (n: number): string => source.text.slice(source.lineStarts[n], lineEnd(source, n));
  let first = 0;
  while (first < source.lineStarts.length && /^\s*$/.test(line(first))) first++;
  if (first >= source.lineStarts.length || !FENCE.test(line(first))) {
    const span = { start: 0, end: Math.min(source.text.length, lineEnd(source, 0)) };
    const problem: FormatProblem = {
      rule: 'front-matter',
      span,
      message: 'The file does not start with its front matter.',
      expected: 'a line of three hyphens, the fields, and three hyphens again',
    };
    return { front: undefined, body: 0, problems: [problem] };
  }
  const start = source.lineStarts[first] ?? 0;
  let close = first + 1;
  // A line that starts with one "#" is a comment of YAML; only a section's heading shows that the closing fence was forgotten.
  while (close < source.lineStarts.length && !FENCE.test(line(close)) && !/^#{2,6}\s/.test(line(close))) close++;
  const closed = close < source.lineStarts.length && FENCE.test(line(close));
  // Unclosed: a heading, else the first empty line, ends it, so that the body is not swallowed.
  if (!closed) close = recovery(source, first, line);
  const from = source.lineStarts[first + 1] ?? source.text.length;
  const to = source.lineStarts[close] ?? source.text.length;
  const yaml = readYamlText(source.text.slice(from, Math.max(from, to)), from);
  const end = closed ? lineEnd(source, close) : to;
  const problems = [...yaml.problems];
  if (!closed) {
    problems.unshift({
      rule: 'front-matter',
      span: { start, end: lineEnd(source, first) },
      message: 'The front matter that starts here is never closed.',
      expected: 'a line of three hyphens after the last field',
      replacement: { span: { start: to, end: to }, text: '---\n', title: 'Close the front matter' },
    });
  }
  if (first > 0) {
    problems.unshift({
      rule: 'front-matter',
      span: { start: 0, end: start },
      message: 'Empty lines stand before the front matter; other tools then do not see it.',
      replacement: { span: { start: 0, end: start }, text: '', title: 'Delete the empty lines' },
    });
  }
  return {
    front: { span: { start, end }, root: yaml.root },
    body: closed ? (source.lineStarts[close + 1] ?? source.text.length) : to,
    problems,
  };
}

function recovery(source: SourceText, first: number, line: (n: number) => string): number {
  let n = first + 1;
  while (n < source.lineStarts.length && !/^\s*$/.test(line(n)) && !/^#{1,6}\s/.test(line(n))) n++;
  return n;
}
