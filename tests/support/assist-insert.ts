/** What an insertion does to a library: the text with `¦` where the caret goes, and the findings that were not there before. */
import { applyFileEdits, type Insertion, type NewGuide, type NewProcedure, textsOf } from '../../procedures-schema/assist/index.ts';
import { checkLibrary, type LibraryReport } from '../../procedures-schema/index.ts';

export interface Inserted {
  readonly report: LibraryReport;
  readonly text: string;
  /** With the caret mark. */
  readonly shown: string;
  /** "check message" of what is new. */
  readonly fresh: readonly string[];
}

export function inserted(report: LibraryReport, file: string, insertion: Insertion, paths: readonly string[] = []): Inserted {
  if (!insertion.ok) throw new Error(insertion.reason);
  const texts = new Map(textsOf(report.facts));
  const applied = applyFileEdits(insertion.files, texts);
  if (!applied.ok) throw new Error('stale');
  for (const { path, text } of applied.texts) texts.set(path, text);
  const after = library(texts, paths);
  const text = texts.get(file) ?? '';
  return { report: after, text, shown: `${text.slice(0, insertion.caret)}¦${text.slice(insertion.caret)}`, fresh: freshIn(report, after) };
}

export function withNew(report: LibraryReport, made: NewProcedure | NewGuide, paths: readonly string[] = []): Inserted {
  if (!made.ok) throw new Error(made.reason);
  const texts = new Map(textsOf(report.facts));
  texts.set(made.path, made.text);
  const after = library(texts, paths);
  return { report: after, text: made.text, shown: made.text, fresh: freshIn(report, after) };
}

function library(texts: ReadonlyMap<string, string>, paths: readonly string[]): LibraryReport {
  return checkLibrary(
    [...texts].map(([path, text]) => ({ path, text })),
    paths,
  );
}

function freshIn(before: LibraryReport, after: LibraryReport): readonly string[] {
  const said = new Map<string, number>();
  const key = (one: LibraryReport['findings'][number]): string => `${one.check} ${one.message}`;
  for (const finding of before.findings) said.set(key(finding), (said.get(key(finding)) ?? 0) + 1);
  return after.findings
    .filter((finding) => {
      const left = said.get(key(finding)) ?? 0;
      said.set(key(finding), left - 1);
      return left <= 0 && finding.severity !== 'advice';
    })
    .map(key);
}

/** The lines around the caret. */
export function around(shown: string, before = 2, after = 4): string {
  const lines = shown.split('\n');
  const at = lines.findIndex((line) => line.includes('¦'));
  return lines.slice(Math.max(0, at - before), at + after + 1).join('\n');
}
