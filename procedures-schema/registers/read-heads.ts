/** Front matter of procedures and guides: decoded, and checked against its schema. Missing front matter is told by reading the form. */
import type { Span } from '../finding.ts';
import { type FrontMatter, type Guide, type Procedure, yamlGet } from '../format/index.ts';
import { decodeGuideHead, decodeHead } from './head.ts';
import type { GuideHead, ProcedureHead, Registers } from './model.ts';
import { paperProblems } from './paper.ts';
import type { SchemaProblem } from './problem.ts';
import { schemaProblems, sortProblems } from './schema-problems.ts';

export function readHead(tree: Procedure, _registers?: Registers): { head: ProcedureHead; problems: readonly SchemaProblem[] } {
  return { head: decodeHead(tree), problems: frontProblems('procedure', tree.front, tree.source.text) };
}

export function readGuideHead(tree: Guide): { head: GuideHead; problems: readonly SchemaProblem[] } {
  return { head: decodeGuideHead(tree), problems: frontProblems('guide', tree.front, tree.source.text) };
}

function frontProblems(name: 'procedure' | 'guide', front: FrontMatter | undefined, text: string): readonly SchemaProblem[] {
  if (!front) return [];
  const fence: Span = { start: front.span.start, end: Math.min(front.span.end, front.span.start + 3) };
  // Broken YAML is told by reading the form; "the front matter has no id" on top of it would be noise.
  const between = text.slice(front.span.start, front.span.end).replace(/^-{3,}|-{3,}\s*$/g, '');
  if (front.root === undefined && between.trim() !== '') return [];
  return sortProblems([...schemaProblems(name, front.root, fence), ...dateProblems(front), ...paperProblems(yamlGet(front.root, 'paper'))]);
}

const LENGTHS = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** The schema asks for the form of a date; that there is such a day is asked here. */
function dateProblems({ root }: FrontMatter): SchemaProblem[] {
  const node = yamlGet(root, 'date');
  const parts = node?.kind === 'scalar' ? /^(\d{4})-(\d{2})-(\d{2})$/.exec(node.text.trim()) : null;
  if (!node || !parts) return [];
  const [year, month, day] = parts.slice(1).map(Number) as [number, number, number];
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const length = month === 2 && !leap ? 28 : LENGTHS[month - 1];
  if (length === undefined || day <= length) return [];
  return [
    {
      span: node.span,
      message: `There is no day ${parts[0]}: that month has ${length} days.`,
      actual: parts[0],
      expected: `a day up to ${parts[1]}-${parts[2]}-${length}`,
      path: 'date',
    },
  ];
}
