/** The fixes that findings at a place offer, as edits bound to the texts they were made for. The findings are made by checks/. */
import type { LibraryFacts } from '../checks/index.ts';
import type { Finding, Span } from '../finding.ts';
import type { QuickFix } from './model.ts';
import { fileEdits, textsOf } from './proposals.ts';

/** Fixes of findings that touch the span, errors before warnings before advice. */
export function quickFixesAt(path: string, span: Span, findings: readonly Finding[], library: LibraryFacts): readonly QuickFix[] {
  const texts = textsOf(library);
  const rank = { error: 0, warning: 1, advice: 2 };
  return findings
    .filter(({ file, span: own }) => file === path && own.start <= span.end && span.start <= own.end)
    .flatMap(({ fix, check, severity }) => (fix ? [{ title: fix.title, check, severity, files: fileEdits(fix.edits, texts) }] : []))
    .sort((a, b) => rank[a.severity] - rank[b.severity]);
}
