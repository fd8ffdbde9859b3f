/** Register files and front matter as text in, problems and names as text out. Only this helper calls the readers of registers/. */
import { type Procedure, positionAt, readGuide, readProcedure, readYaml, type SourceText } from '../../procedures-schema/format/index.ts';
import {
  foldWords,
  type Machine,
  machineOf,
  type Names,
  namesFor,
  type ProcedureHead,
  type Registers,
  readGuideHead,
  readHead,
  readRegisters,
  type SchemaProblem,
  variantsFor,
} from '../../procedures-schema/registers/index.ts';

export type Files = Readonly<Record<string, string>>;

export function registersOf(files: Files): Registers {
  return readAll(files).registers;
}

/** `4:7 message -> what would be right`, in the order of the text; a file's name before the line where there are several files. */
export function problemsIn(files: Files): readonly string[] {
  const { trees, problems } = readAll(files);
  const several = Object.keys(files).length > 1;
  return trees.flatMap((tree) => {
    const lines = (problems.get(tree.source.path) ?? []).map((problem) => lineOf(tree.source, problem));
    return several ? lines.map((line) => `${tree.source.path}:${line}`) : lines;
  });
}

function readAll(files: Files) {
  const trees = Object.entries(files).map(([path, text]) => readYaml(path, text).tree);
  return { trees, ...readRegisters(trees) };
}

function lineOf(source: SourceText, { span, message, expected }: SchemaProblem): string {
  const { line, column } = positionAt(source, span.start);
  return `${line}:${column} ${message}${expected === undefined ? '' : ` -> ${expected}`}`;
}

function procedureWith(front: string, body = '## Work\n\n1. Wait.\n'): Procedure {
  return readProcedure('procedures/p.md', `---\n${front.trimEnd()}\n---\n\n${body}`).tree;
}

/** Lines count from the first field: the fence above it is line 0. */
export function headProblems(front: string): readonly string[] {
  const tree = procedureWith(front);
  return readHead(tree).problems.map((problem) => shifted(lineOf(tree.source, problem)));
}

export function guideProblems(front: string): readonly string[] {
  const { tree } = readGuide('guides/g.md', `---\n${front.trimEnd()}\n---\n\n## Part\n`);
  return readGuideHead(tree).problems.map((problem) => shifted(lineOf(tree.source, problem)));
}

const shifted = (line: string): string => line.replace(/^\d+/, (digits) => String(Number(digits) - 1));

export function headOf(front: string): ProcedureHead {
  return readHead(procedureWith(front)).head;
}

export function namesOf(files: Files, front: string, body?: string, procedures: readonly string[] = []): Names {
  const tree = procedureWith(front, body);
  return namesFor(readHead(tree).head, tree, registersOf(files), new Map(procedures.map((number) => [number, number])));
}

/** Every name found in a sentence, left to right, longest first: `guard screws (fastener)`; `+` marks a plural, `|` parts several things. */
export function found(names: Names, sentence: string): readonly string[] {
  const words = foldWords(sentence).map(({ word }) => word);
  const out: string[] = [];
  for (let at = 0; at < words.length; ) {
    const match = names.match(words, at);
    if (match) out.push(`${match.things.map((thing) => `${thing.name} (${thing.kind})`).join(' | ')}${match.plural ? ' +' : ''}`);
    at += match?.length ?? 1;
  }
  return out;
}

export function machinesOf(files: Files, front: string): readonly Machine[] {
  const registers = registersOf(files);
  return variantsFor(headOf(front), registers).map((variant) => machineOf(variant, registers));
}
