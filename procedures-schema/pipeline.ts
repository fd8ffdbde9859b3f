/**
 * Text to findings, on one screen: the stages of one procedure and of a library, in order. Holds no state; `engine.ts` keeps
 * what an edit does not touch.
 */

import { newReadingCache, type ReadingCache, readSteps } from './assemble.ts';
import { eachReading, type LibraryFacts, type ProcedureFacts, runChecks } from './checks/index.ts';
import type { FigureFacts } from './figures/index.ts';
import type { Finding, Severity } from './finding.ts';
import { type FlowInput, type ProvedBefore, prove, proveVisit, type ReadProcedure, type VisitResult } from './flow/index.ts';
import { type BlockCache, type HeadGuess, newBlockCache, readGuide, readProcedure, readYaml } from './format/index.ts';
import { filmFactsOf, isFilmRecord } from './narration/index.ts';
import { labelsOf, resolveTarget, typedReferences } from './numbering/index.ts';
import { READ_LANGUAGE } from './reading/index.ts';
import { Recent } from './recent.ts';
import {
  familiesOf,
  machineOf,
  namesFor,
  type Registers,
  readGuideHead,
  readHead,
  readRegisters,
  type Symptom,
  variantsFor,
} from './registers/index.ts';

/** A text file of a library; `path` is relative to the library, with forward slashes. */
export interface LibraryFile {
  readonly path: string;
  readonly text: string;
}

/** What is shared by all procedures of a library. */
export interface Background {
  readonly registers: Registers;
  readonly registerFiles: LibraryFacts['registerFiles'];
  /** Title of each procedure by document number, for references between files. */
  readonly titles: ReadonlyMap<string, string>;
  readonly caches: { readonly blocks: BlockCache; readonly readings: Recent<string, ReadingCache> };
}

/** Of the names that a sentence may use: each family has its own, and an edit of a register makes new ones. */
const VERSIONS = 12;

/** The first half of a procedure: all that can be said from its own text and the registers. */
export type ReadFacts = Omit<ProcedureFacts, 'flow'>;

export interface LibraryReport {
  readonly facts: LibraryFacts;
  readonly findings: readonly Finding[];
  readonly counts: Readonly<Record<Severity, number>>;
  readonly read: { readonly sentences: number; readonly unread: number };
}

export interface CheckOptions {
  /** Told after each procedure. */
  readonly progress?: (done: number, total: number) => void;
  /** What stands in the figures, by path. */
  readonly figures?: ReadonlyMap<string, FigureFacts>;
  /** Tests only: one check left out. */
  readonly without?: string;
}

export const isProcedure = (path: string): boolean => /^procedures\/.*\.md$/i.test(path);
export const isGuide = (path: string): boolean => /^guides\/.*\.md$/i.test(path);
export const isRegister = (path: string): boolean => path === 'library.yaml' || /^registers\/[^/]*\.ya?ml$/i.test(path);

/** Checks a whole library. `paths` are all files there are, figures included. */
export function checkLibrary(files: readonly LibraryFile[], paths: readonly string[] = [], options: CheckOptions = {}): LibraryReport {
  const sorted = [...files].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  const background = readBackground(sorted);
  const read = sorted.filter((file) => isProcedure(file.path)).map((file) => readFile(file, background));
  const others = byNumber(read);
  const procedures: ProcedureFacts[] = [];
  for (const [index, facts] of read.entries()) {
    procedures.push({ ...facts, flow: proveFile(facts, background.registers, others) });
    options.progress?.(index + 1, read.length);
  }
  const known: Omit<LibraryFacts, 'films'> = {
    registers: background.registers,
    registerFiles: background.registerFiles,
    procedures,
    guides: sorted.filter((file) => isGuide(file.path)).map((file) => readGuideFile(file)),
    visits: background.registers.symptoms.map((symptom) => proveVisitOf(symptom, background.registers, procedures)),
    paths: new Set([...sorted.map((file) => file.path), ...paths]),
    figures: options.figures ?? new Map(),
  };
  const films = sorted.filter(({ path }) => isFilmRecord(path)).map(({ path, text }) => filmFactsOf(path, text, known));
  const facts: LibraryFacts = { ...known, films };
  return report(facts, runChecks(facts, options));
}

/** Stage 1: registers (or those known already, when none changed), and the titles that references between files need. */
export function readBackground(
  files: readonly LibraryFile[],
  caches: Background['caches'] = { blocks: newBlockCache(), readings: new Recent(VERSIONS) },
  known: RegisterFacts = readRegisterFiles(files),
  /** Number and title of files that are not to be read yet. */
  heads: ReadonlyMap<string, HeadGuess> = new Map(),
): Background {
  const { registers, registerFiles } = known;
  const titles = new Map<string, string>();
  for (const file of files) {
    if (!isProcedure(file.path)) continue;
    const head = heads.get(file.path) ?? headAhead(file, registers, caches.blocks);
    if (head.id !== '' && !titles.has(head.id)) titles.set(head.id, head.title);
  }
  return { registers, registerFiles, titles, caches };
}

/** A tree that was read for its title is kept until the file is read: most of a check is reading. */
const AHEAD = new WeakMap<LibraryFile, { readonly blocks: BlockCache; readonly registers: Registers; readonly read: HeadRead }>();

function headAhead(file: LibraryFile, registers: Registers, blocks: BlockCache): HeadGuess {
  const read = headRead(file, registers, blocks);
  AHEAD.set(file, { blocks, registers, read });
  return read.head.head;
}

function readNow(file: LibraryFile, registers: Registers, blocks: BlockCache): HeadRead {
  const ahead = AHEAD.get(file);
  AHEAD.delete(file);
  return ahead?.blocks === blocks && ahead.registers === registers ? ahead.read : headRead(file, registers, blocks);
}

interface HeadRead {
  readonly procedure: ReturnType<typeof readProcedure>;
  readonly head: ReturnType<typeof readHead>;
}

function headRead(file: LibraryFile, registers: Registers, blocks: BlockCache): HeadRead {
  const procedure = readProcedure(file.path, file.text, blocks);
  return { procedure, head: readHead(procedure.tree, registers) };
}

export type RegisterFacts = Pick<Background, 'registers' | 'registerFiles'>;

function readRegisterFiles(files: readonly LibraryFile[]): RegisterFacts {
  const yaml = files.filter((file) => isRegister(file.path)).map((file) => readYaml(file.path, file.text));
  const { registers, problems } = readRegisters(yaml.map((file) => file.tree));
  const registerFiles = yaml.map(({ tree, problems: form }) => ({
    file: tree,
    problems: form,
    schemaProblems: problems.get(tree.source.path) ?? [],
  }));
  return { registers, registerFiles };
}

/** Stages 2 to 6 of one procedure: tree, head, names, labels, readings, references. Order matters: each uses those before it. */
export function readFile(file: LibraryFile, background: Background): ReadFacts {
  const { registers, titles, caches } = background;
  const { procedure, head: ownHead } = readNow(file, registers, caches.blocks);
  const { tree, problems } = procedure;
  const { head, problems: schemaProblems } = ownHead;
  const names = namesFor(head, tree, registers, titles);
  const labels = labelsOf(tree, registers.house.numbering);
  const families = familiesOf(head, registers);
  const cache: ReadingCache = caches.readings.get(names.version) ?? newReadingCache();
  caches.readings.set(names.version, cache);
  const standing = {
    names,
    families,
    registers,
    language: READ_LANGUAGE,
    measurements: head.measurements,
    roles: head.roles.map((role) => role.name),
  };
  const steps = readSteps(tree, labels, standing, cache);
  const title = (number: string): string | undefined => titles.get(number);
  const read: ReadProcedure = {
    file: file.path,
    head,
    sections: tree.sections,
    labels,
    steps,
    measurements: head.measurements,
    resolve: (target, from) => resolveTarget(target, from, tree, labels, title),
  };
  const machines = variantsFor(head, registers).map((variant) => machineOf(variant, registers));
  const references = typedReferences(tree, labels, steps);
  return { file: file.path, source: tree.source, tree, problems, schemaProblems, head, names, read, references, machines };
}

/** Stage 7: the proof, which may walk into other procedures. */
export function proveFile(
  facts: ReadFacts,
  registers: Registers,
  others: Pick<ReadonlyMap<string, ReadFacts>, 'get'>,
  before?: ProvedBefore,
): ProcedureFacts['flow'] {
  const input: FlowInput = {
    procedure: facts.read,
    machines: facts.machines,
    registers,
    others: (number) => others.get(number)?.read,
    ...(before === undefined ? {} : { before }),
  };
  return prove(input);
}

/** Stage 8: the visits, which walk several procedures in turn. */
export function proveVisitOf(symptom: Symptom, registers: Registers, procedures: readonly ProcedureFacts[]): VisitResult {
  const find = (number: string): ProcedureFacts | undefined => procedures.find(({ head }) => head.id === number);
  const own = symptom.procedures.flatMap(({ number }) => find(number) ?? []);
  return proveVisit({
    symptom,
    registers,
    others: (number) => find(number)?.read,
    machinesOf: (read) => find(read.head.id)?.machines ?? [],
    known: own.flatMap(({ flow }) => flow.violations.flatMap((one) => [one, ...(one.hangs ?? [])])),
  });
}

export function readGuideFile(file: LibraryFile): LibraryFacts['guides'][number] {
  const { tree, problems } = readGuide(file.path, file.text);
  const { head, problems: schemaProblems } = readGuideHead(tree);
  return { file: file.path, tree, head, problems, schemaProblems };
}

export function byNumber(read: readonly ReadFacts[]): Map<string, ReadFacts> {
  const out = new Map<string, ReadFacts>();
  for (const facts of read) if (facts.head.id !== '' && !out.has(facts.head.id)) out.set(facts.head.id, facts);
  return out;
}

/** Stage 9: counts, and how much was read. */
export function report(facts: LibraryFacts, findings: readonly Finding[]): LibraryReport {
  const counts = { error: 0, warning: 0, advice: 0 };
  for (const finding of findings) counts[finding.severity] += 1;
  let sentences = 0;
  let unread = 0;
  for (const procedure of facts.procedures)
    for (const { reading } of eachReading(procedure.read))
      for (const sentence of reading.sentences) {
        sentences += 1;
        if (sentence.status === 'unread') unread += 1;
      }
  return { facts, findings, counts, read: { sentences, unread } };
}
