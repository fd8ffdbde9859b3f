/**
 * The form of a check. A check looks and yields; the runner stamps id, severity, file, range and the standing why.
 * To add one: add a file here, name it after its id, list it in index.ts.
 */

import type { FigureFacts } from '../figures/index.ts';
import type { Draft, Severity } from '../finding.ts';
import type { FlowResult, ReadProcedure, VisitResult } from '../flow/index.ts';
import type { FormatProblem, Guide, Procedure, SourceText, YamlFile } from '../format/index.ts';
import type { TypedReference } from '../numbering/index.ts';
import type { GuideHead, Machine, Names, ProcedureHead, Registers, SchemaProblem } from '../registers/index.ts';

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
    readonly head: GuideHead;
    readonly problems: readonly FormatProblem[];
    readonly schemaProblems: readonly SchemaProblem[];
  }[];
  readonly films: readonly FilmFacts[];
  /** Each symptom's procedures walked in turn. */
  readonly visits: readonly VisitResult[];
  /** Paths present in the library, for figures and the like. */
  readonly paths: ReadonlySet<string>;
  /** What stands in the figures, by path; of one that is not here nothing is known yet. */
  readonly figures: ReadonlyMap<string, FigureFacts>;
}

/** A film of a procedure, by its record in the library, held against the procedure as it is now. Reckoned by `narration`, which checks may not call. */
export interface FilmFacts {
  readonly file: YamlFile;
  readonly problems: readonly FormatProblem[];
  /** Number of the film; empty where the record does not tell. */
  readonly number: string;
  readonly procedure: string;
  readonly model?: string;
  /** Path of its captions. */
  readonly captions?: string;
  /** What is missing in the record or beside it, in sentences. */
  readonly wrong: readonly string[];
  /** no procedure, no model: what it shows is not in the library. unread: its record cannot be compared. */
  readonly standing: 'fits' | 'changed' | 'no procedure' | 'no model' | 'unread';
  /** Titles of the chapters that are to be made again, by the most that must be done in them. */
  readonly again: Readonly<Record<'film' | 'voice' | 'caption', readonly string[]>>;
  /** How many passages were filmed that the text no longer has, and how many stand elsewhere in it now. */
  readonly gone: number;
  readonly moved: number;
}

/**
 * A worked example of a check: shown by `explain`, run by the tests. It says only how it differs from the fixture library, a small
 * machine with a safe procedure (tests/support/cases.ts), so that a reader sees what matters. In every text a line of carets
 * (`^^^^`) under a line marks where the finding must start, and is taken out before the run; `#.` at the start of a line is
 * numbered by its place.
 */
export interface CheckCase {
  readonly name: string;
  /** How many findings of this check; 0 for a near miss. */
  readonly finds: number;
  /** Front matter lines that replace or add to the fixture's, by key; `-key` takes one out. */
  readonly front?: string;
  /** Steps put where the fixture's machine is safe and open. */
  readonly work?: string;
  /** Lines of the fixture's procedure that hold the first text are replaced by the second; '' takes them out. */
  readonly change?: readonly (readonly [string, string])[];
  /** Lines of the fixture's equipment register, likewise. */
  readonly equipment?: readonly (readonly [string, string])[];
  /** All sections, instead of the fixture's; lines `@SAFE`, `@WORK` and `@CLOSE` stand for the fixture's own and for `work`. */
  readonly body?: string;
  /** Whole files, added or replacing the fixture's, by path; of a picture each letter is a byte. */
  readonly files?: Readonly<Record<string, string>>;
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
  /** Looks for other files by their numbers: says nothing while one that is named has not been read. */
  readonly acrossFiles?: true;
  readonly run: (facts: ProcedureFacts, library: LibraryFacts) => Iterable<Draft>;
}
export interface LibraryCheck extends CheckBase {
  readonly scope: 'library';
  readonly run: (library: LibraryFacts) => Iterable<Draft>;
}
export type Check = ProcedureCheck | LibraryCheck;
