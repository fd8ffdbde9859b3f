/** Checks one file or front matter against its schema: problems in words, in the order of the text. */
import type { Span } from '../finding.ts';
import type { YamlNode } from '../format/index.ts';
import { type SchemaName, violationsOf } from '../schemas/index.ts';
import { plainFor } from './plain.ts';
import type { SchemaProblem } from './problem.ts';
import { wordViolation } from './wording.ts';

/** `fallback` is pointed at where the file says nothing to point at. */
export function schemaProblems(name: SchemaName, root: YamlNode | undefined, fallback: Span): readonly SchemaProblem[] {
  const data = root === undefined ? {} : plainFor(name, root);
  const out: SchemaProblem[] = [];
  for (const violation of violationsOf(name, data)) {
    const worded = wordViolation(name, root, violation, fallback);
    // Two branches of a schema may object to one thing.
    if (worded && !out.some((other) => other.span.start === worded.span.start && other.message === worded.message)) out.push(worded);
  }
  return sortProblems(out);
}

export function sortProblems(problems: readonly SchemaProblem[]): readonly SchemaProblem[] {
  return [...problems].sort((a, b) => a.span.start - b.span.start || (a.message < b.message ? -1 : a.message > b.message ? 1 : 0));
}
