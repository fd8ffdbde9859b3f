/**
 * A library kept checked while it is edited: takes edits as values, does again only what an edit touches, and gives the findings
 * that changed. Holds texts and results in memory; reads and writes nothing.
 */
import { checkBetweenFiles, checkProcedure, type LibraryFacts, type ProcedureFacts } from './checks/index.ts';
import type { Finding } from './finding.ts';
import {
  type Background,
  byNumber,
  isGuide,
  isProcedure,
  isRegister,
  type LibraryFile,
  type LibraryReport,
  proveFile,
  proveVisitOf,
  type ReadFacts,
  readBackground,
  readFile,
  readGuideFile,
  report,
} from './pipeline.ts';
import type { Registers, Symptom } from './registers/index.ts';

/** A file as it is now, or gone. Paths that are no library text (figures) carry no text. */
export type Change =
  | { readonly path: string; readonly text: string }
  | { readonly path: string; readonly present: true }
  | { readonly path: string; readonly gone: true };

/** Findings by file, for the files whose findings may have changed; the rest stand. */
export interface Delta {
  readonly findings: ReadonlyMap<string, readonly Finding[]>;
  /** Findings between files: registers, guides, numbers. Always whole. */
  readonly between: readonly Finding[];
}

export interface Engine {
  /** Applies all changes as one edit. */
  apply(changes: readonly Change[]): Delta;
  report(): LibraryReport;
}

export function newEngine(): Engine {
  return new LibraryEngine();
}

class LibraryEngine implements Engine {
  private readonly texts = new Map<string, string>();
  private readonly paths = new Set<string>();
  private background: Background | undefined;
  private readonly read = new Map<string, ReadFacts>();
  private readonly procedures = new Map<string, ProcedureFacts>();
  private readonly findings = new Map<string, readonly Finding[]>();
  private guides: LibraryFacts['guides'] = [];
  private between: readonly Finding[] = [];
  private visits = new Map<Symptom, { readonly flows: readonly unknown[]; readonly result: LibraryFacts['visits'][number] }>();
  private facts: LibraryFacts | undefined;

  apply(changes: readonly Change[]): Delta {
    const touched = new Set<string>();
    let all = this.background === undefined;
    let registers = all;
    let pathsChanged = false;
    for (const change of changes) {
      if ('gone' in change) {
        this.texts.delete(change.path);
        pathsChanged = this.paths.delete(change.path) || pathsChanged;
      } else {
        if ('text' in change) this.texts.set(change.path, change.text);
        pathsChanged = pathsChanged || !this.paths.has(change.path);
        this.paths.add(change.path);
      }
      touched.add(change.path);
      // A register may change what any sentence means; a new or lost procedure where any reference leads.
      if (isRegister(change.path)) registers = true;
      if (isRegister(change.path) || ('gone' in change && isProcedure(change.path))) all = true;
    }
    const again = all ? this.readAll(registers) : this.readTouched(touched);
    this.guides = [...this.texts.keys()]
      .filter(isGuide)
      .sort(inOrder)
      .map((path) => this.guideOf(path, touched));
    this.proveAndCheck(again, all || pathsChanged);
    const delta = new Map<string, readonly Finding[]>();
    for (const path of again) delta.set(path, this.findings.get(path) ?? []);
    for (const path of touched) if (!this.texts.has(path)) delta.set(path, []);
    return { findings: delta, between: this.between };
  }

  report(): LibraryReport {
    const facts = this.facts as LibraryFacts;
    const findings = [...this.between, ...[...this.findings.values()].flat()].sort(
      (a, b) => inOrder(a.file, b.file) || a.span.start - b.span.start || inOrder(a.check, b.check) || inOrder(a.message, b.message),
    );
    return report(facts, findings);
  }

  /** Reads every procedure; unchanged blocks and sentences come from the caches. */
  private readAll(registersChanged: boolean): string[] {
    const files: LibraryFile[] = [...this.texts].map(([path, text]) => ({ path, text })).sort((a, b) => inOrder(a.path, b.path));
    this.background = readBackground(files, this.background?.caches, registersChanged ? undefined : this.background);
    this.read.clear();
    this.procedures.clear();
    this.findings.clear();
    const paths = files.map((file) => file.path).filter(isProcedure);
    for (const path of paths) this.read.set(path, this.readOne(path));
    return paths;
  }

  /** Reads the procedures that were touched, and says which must be proved again: those, and all that call them. */
  private readTouched(touched: ReadonlySet<string>): string[] {
    const again = new Set<string>();
    for (const path of [...touched].sort(inOrder)) {
      if (!isProcedure(path)) continue;
      const before = this.read.get(path);
      const after = this.readOne(path);
      // Number and title are what other files refer to; when they change, references anywhere may.
      if (before === undefined || before.head.id !== after.head.id || before.head.title !== after.head.title) return this.readAll(false);
      this.read.set(path, after);
      again.add(path);
      for (const [other, facts] of this.read) if (other !== path && callsNumber(facts, after.head.id)) again.add(other);
    }
    return [...again].sort(inOrder);
  }

  private readOne(path: string): ReadFacts {
    return readFile({ path, text: this.texts.get(path) ?? '' }, this.background as Background);
  }

  /** A visit is walked again when one of its procedures was proved again, or the registers are others. */
  private visitsOf(registers: Registers): LibraryFacts['visits'] {
    const procedures = [...this.procedures.keys()].sort(inOrder).map((path) => this.procedures.get(path) as ProcedureFacts);
    const before = this.visits;
    this.visits = new Map();
    return registers.symptoms.map((symptom) => {
      const own = symptom.procedures.map(({ number }) => procedures.find(({ head }) => head.id === number)?.flow);
      const known = before.get(symptom);
      const result =
        known && known.flows.length === own.length && own.every((flow, index) => flow === known.flows[index])
          ? known.result
          : proveVisitOf(symptom, registers, procedures);
      this.visits.set(symptom, { flows: own, result });
      return result;
    });
  }

  private guideOf(path: string, touched: ReadonlySet<string>): LibraryFacts['guides'][number] {
    const before = this.guides.find((guide) => guide.file === path);
    return before && !touched.has(path) ? before : readGuideFile({ path, text: this.texts.get(path) ?? '' });
  }

  private proveAndCheck(again: readonly string[], checkAll: boolean): void {
    const background = this.background as Background;
    const others = byNumber([...this.read.keys()].sort(inOrder).map((path) => this.read.get(path) as ReadFacts));
    for (const path of again) {
      const facts = this.read.get(path) as ReadFacts;
      this.procedures.set(path, { ...facts, flow: proveFile(facts, background.registers, others) });
    }
    const facts: LibraryFacts = {
      registers: background.registers,
      registerFiles: background.registerFiles,
      procedures: [...this.procedures.keys()].sort(inOrder).map((path) => this.procedures.get(path) as ProcedureFacts),
      guides: this.guides,
      visits: this.visitsOf(background.registers),
      paths: this.paths,
    };
    this.facts = facts;
    for (const path of checkAll ? this.procedures.keys() : again)
      this.findings.set(path, checkProcedure(this.procedures.get(path) as ProcedureFacts, facts));
    this.between = checkBetweenFiles(facts);
  }
}

/** Whether a procedure's words send the reader to that number. Substring search errs on the side of proving once more. */
function callsNumber(facts: ReadFacts, number: string): boolean {
  return number !== '' && facts.source.text.includes(number);
}

function inOrder(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
