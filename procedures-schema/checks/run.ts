/** Runs the checks and stamps what they yield. Knows no check by name. */
import type { Draft, Finding } from '../finding.ts';
import { rangeOf, type SourceText } from '../format/index.ts';
import type { Check, LibraryFacts, ProcedureFacts } from './check.ts';

/** All findings of one procedure. */
export function runProcedureChecks(checks: readonly Check[], facts: ProcedureFacts, library: LibraryFacts): Finding[] {
  const out: Finding[] = [];
  for (const check of checks) {
    if (check.scope !== 'procedure') continue;
    for (const draft of check.run(facts, library)) out.push(stamp(check, draft, sourceOf(draft.file, facts, library)));
  }
  return out.sort(inOrder);
}

/** Findings that need the library: registers, guides, procedures against each other. */
export function runLibraryChecks(checks: readonly Check[], library: LibraryFacts): Finding[] {
  const out: Finding[] = [];
  for (const check of checks) {
    if (check.scope !== 'library') continue;
    for (const draft of check.run(library)) out.push(stamp(check, draft, sourceOf(draft.file, undefined, library)));
  }
  return out.sort(inOrder);
}

export function runAll(checks: readonly Check[], library: LibraryFacts): Finding[] {
  const out = runLibraryChecks(checks, library);
  for (const facts of library.procedures) out.push(...runProcedureChecks(checks, facts, library));
  return out.sort(inOrder);
}

function sourceOf(file: string, facts: ProcedureFacts | undefined, library: LibraryFacts): SourceText | undefined {
  if (facts?.file === file) return facts.source;
  return (
    library.procedures.find((other) => other.file === file)?.source ??
    library.registerFiles.find((other) => other.file.source.path === file)?.file.source ??
    library.guides.find((other) => other.file === file)?.tree.source
  );
}

const NOWHERE = { line: 1, column: 1, offset: 0 };

function stamp(check: Check, draft: Draft, source: SourceText | undefined): Finding {
  return {
    check: check.id,
    severity: draft.severity ?? check.severity,
    file: draft.file,
    span: draft.span,
    range: source ? rangeOf(source, draft.span) : { start: NOWHERE, end: NOWHERE },
    message: draft.message,
    why: draft.why ?? check.why,
    ...(draft.actual === undefined ? {} : { actual: draft.actual }),
    ...(draft.expected === undefined ? {} : { expected: draft.expected }),
    ...(draft.fix === undefined ? {} : { fix: draft.fix }),
    related: draft.related ?? [],
    steps: draft.steps ?? [],
    variants: draft.variants ?? [],
    walk: draft.walk ?? [],
  };
}

/** By file, then place, then check: the order in which a reader meets them. */
function inOrder(a: Finding, b: Finding): number {
  if (a.file !== b.file) return a.file < b.file ? -1 : 1;
  if (a.span.start !== b.span.start) return a.span.start - b.span.start;
  if (a.check !== b.check) return a.check < b.check ? -1 : 1;
  return a.message < b.message ? -1 : a.message > b.message ? 1 : 0;
}
