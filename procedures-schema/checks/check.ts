/**
 * The form of a check. A check looks and yields; the runner stamps id, severity, file, range and the standing why.
 * To add one: add a file here, name it after its id, list it in index.ts.
 */
import type { Draft, Severity } from '../finding.ts';
import type { FormatProblem, Guide, Procedure, SourceText, YamlFile } from '../format/tree.ts';
import type { FlowResult, ReadProcedure } from '../flow/model.ts';
import type { TypedReference } from '../numbering/model.ts';
import type { Machine, Names, ProcedureHead, Registers } from '../registers/model.ts';

/** A schema or decoding problem of library.yaml, a register or front matter, already in words for people. */
export interface SchemaProblem {
  readonly span: { readonly start: number; readonly end: number };
  readonly message: string;
  readonly actual?: string;
  readonly expected?: string;
  readonly path: string;
}

/** All that is known about one procedure file when checks run. */
export interface ProcedureFacts {
  readonly file: string;
  readonly source: SourceText;
  readonly tree: Procedure;
  readonly problems: readonly FormatProblem[];
  readonly schemaProblems: readonly SchemaProblem[];
  readonly head: ProcedureHead;
  readonly names: Names;
  readonly read: ReadProcedure;
  readonly references: readonly TypedReference[];
  readonly machines: readonly Machine[];
  readonly flow: FlowResult;
}

/** All that is known about the library. Cross-file checks read this and the `facts` of other files only by their heads. */
export interface LibraryFacts {
  readonly registers: Registers;
  readonly registerFiles: readonly {
    readonly file: YamlFile;
    readonly problems: readonly FormatProblem[];
    readonly schemaProblems: readonly SchemaProblem[];
  }[];
  readonly procedures: readonly ProcedureFacts[];
  readonly guides: readonly {
    readonly file: string;
    readonly tree: Guide;
    readonly problems: readonly FormatProblem[];
    readonly schemaProblems: readonly SchemaProblem[];
  }[];
  /** Paths present in the library, for figures and the like. */
  readonly paths: ReadonlySet<string>;
}

/** A worked example of a check: shown by `explain`, run by the tests. */
export interface CheckCase {
  readonly name: string;
  /** Files of a small library; a caret line (`^^^^`) under a line marks where the finding must stand, and is taken out before the run. Missing registers come from the common fixture. */
  readonly files: Readonly<Record<string, string>>;
  /** How many findings of this check; 0 for a near miss. */
  readonly finds: number;
}

interface CheckBase {
  /** The file's name. */
  readonly id: string;
  readonly severity: Severity;
  /** What it asks, as a question: "Is every tool that a step uses in the list of tools?" */
  readonly question: string;
  /** Why it matters, and on what authority. */
  readonly why: string;
  readonly source: string;
  readonly cases: readonly CheckCase[];
}
export interface ProcedureCheck extends CheckBase {
  readonly scope: 'procedure';
  readonly run: (facts: ProcedureFacts, library: LibraryFacts) => Iterable<Draft>;
}
export interface LibraryCheck extends CheckBase {
  readonly scope: 'library';
  readonly run: (library: LibraryFacts) => Iterable<Draft>;
}
export type Check = ProcedureCheck | LibraryCheck;
