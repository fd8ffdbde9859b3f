/** What print and checklist share: the document asked for, and whether anything stands in the way of publishing it. */
import type { Finding, LibraryFacts, ProcedureFacts } from '../procedures-schema/index.ts';
import { noEdition } from '../publishing/index.ts';
import { CannotRun } from './command.ts';
import { ownPath } from './files.ts';
import type { Io } from './io.ts';
import type { Checked } from './library.ts';
import { nearest } from './nearest.ts';
import { refusalReport } from './report/text.ts';

export type Guide = LibraryFacts['guides'][number];

/** By document number, upper and lower case not told apart, or by path, as it stands in the library or in front of it. */
export const procedureNamed = (checked: Checked, typed: string, io: Io): ProcedureFacts | undefined =>
  theOne(checked, checked.facts.procedures, typed, io);

export const guideNamed = (checked: Checked, typed: string, io: Io): Guide | undefined => theOne(checked, checked.facts.guides, typed, io);

function theOne<One extends Guide | ProcedureFacts>({ disk }: Checked, documents: readonly One[], typed: string, io: Io): One | undefined {
  const own = ownPath({ cwd: io.cwd, library: disk.root }, typed);
  const found = documents.find(({ file }) => file === typed || file === own);
  if (found !== undefined) return found;
  const exact = documents.filter(({ head }) => head.id === typed);
  const [first, ...others] = exact.length > 0 ? exact : documents.filter(({ head }) => head.id.toLowerCase() === typed.toLowerCase());
  if (first !== undefined && others.length > 0)
    throw new CannotRun(
      `More than one document has the number ${first.head.id}. Give the path of the one you mean: ${[first, ...others].map(({ file }) => file).join(', ')}.`,
    );
  return first;
}

export function notThere(facts: LibraryFacts, typed: string, kinds: 'procedure' | 'guide or procedure'): CannotRun {
  const procedures = facts.procedures.map(({ head }) => head.id);
  const known = (kinds === 'procedure' ? procedures : [...facts.guides.map(({ head }) => head.id), ...procedures]).filter(
    (id) => id !== '',
  );
  const near = nearest(typed, known);
  return new CannotRun(
    `No ${kinds} has the number "${typed}".${near ? ` Did you mean ${near}?` : ''} There are: ${known.join(', ') || 'none'}.`,
  );
}

/** A document that is not for the model asked for has no edition: nothing of it is written, draft or not. */
export function mustHaveEdition(document: Guide | ProcedureFacts, library: LibraryFacts, model: string | undefined): void {
  const refused = noEdition(document, { library, ...(model === undefined ? {} : { model }) });
  if (refused !== undefined) throw new CannotRun(refused);
}

/**
 * Errors in the document itself, in what it is made from (registers) and in what it holds block it. Warnings do not.
 * `files` are the files of the document.
 */
export function blocking(checked: Checked, files: ReadonlySet<string>): readonly Finding[] {
  return standInTheWay(checked.findings, files);
}

export const standInTheWay = (findings: readonly Finding[], files: ReadonlySet<string>): readonly Finding[] =>
  findings.filter((finding) => finding.severity === 'error' && (files.has(finding.file) || !isDocument(finding.file)));

const isDocument = (file: string): boolean => /^(procedures|guides)\//.test(file);

/** Says what blocks, what was not written for it, and how a draft can still be had. */
export function refuse(checked: Checked, found: readonly Finding[], what: string, to: string, io: Io): void {
  const stand = found.length === 1 ? 'an error stands' : `${found.length} errors stand`;
  const counts = { error: found.length, warning: 0, advice: 0 };
  const end = `${what} is not published: ${stand} in the way. Nothing was written to ${to}. With --draft it is written all the same, marked "DRAFT: NOT FOR FIELD USE".`;
  io.err(refusalReport({ ...checked, findings: found, counts }, end, io));
}
