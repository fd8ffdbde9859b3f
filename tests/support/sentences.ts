/**
 * Step sentences of invented equipment with what a technician would read in them: loads the data files, runs the reader on
 * each sentence inside a small procedure, and prints the table. Grading one answer is left to sentence-grade.ts.
 *
 * Source of the sentences: common practice, no source; written for these tests before the reader was, from the contract in reading/action.ts.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Prose } from '../../procedures-schema/format/index.ts';
import { readProcedure, readYaml, walkSteps } from '../../procedures-schema/format/index.ts';
import type { Reading, ReadingContext } from '../../procedures-schema/reading/index.ts';
import { readProse } from '../../procedures-schema/reading/index.ts';
import type { Registers } from '../../procedures-schema/registers/index.ts';
import { familiesOf, namesFor, readHead, readRegisters } from '../../procedures-schema/registers/index.ts';
import { type Grade, type GradedSentence, gradeReading } from './sentence-grade.ts';

type Status = Reading['sentences'][number]['status'];

/** An action as expected: fields left out carry no meaning in that sentence and are not compared. */
export interface ExpectedAction {
  readonly kind: string | readonly string[];
  readonly things?: readonly (string | ExpectedThing)[];
  readonly position?: string;
  readonly with?: readonly string[];
  readonly amounts?: readonly string[];
  readonly stage?: string;
  readonly role?: string;
  readonly result?: string;
  readonly contact?: boolean;
  readonly outside?: boolean;
  readonly target?: Readonly<Record<string, string>>;
  readonly until?: ExpectedCondition;
  /** Left out: the action must be unconditional. "any": whatever the reader makes of it. */
  readonly when?: 'any' | readonly ExpectedCondition[];
  /** A sound reader may leave it out. */
  readonly may?: boolean;
}
export interface ExpectedThing {
  readonly thing: string;
  readonly count?: number;
  readonly all?: boolean;
  readonly place?: string;
  readonly except?: string;
}
/** `any`: a condition must be there and hold this text, of whatever kind. */
export interface ExpectedCondition {
  readonly kind: 'any' | 'outcome' | 'variant' | 'state' | 'fact';
  readonly text?: string;
  readonly subject?: string;
  readonly outcome?: string;
  readonly models?: readonly string[];
  readonly options?: readonly string[];
  readonly serial?: { readonly from?: number; readonly to?: number };
  readonly negated?: boolean;
}
export interface ExpectedSentence {
  readonly status: Status | readonly Status[];
  readonly actions: readonly ExpectedAction[];
}
export interface SentenceCase {
  readonly text: string;
  /** An earlier sentence of the same prose; only what comes after it is graded. */
  readonly before?: string;
  readonly kind?: ReadingContext['kind'];
  readonly expect: readonly ExpectedSentence[];
}
export interface SentenceFile {
  readonly equipment: string;
  readonly registers: Readonly<Record<string, string>>;
  readonly front: string;
  /** Further sections of the procedure that sentences refer to. */
  readonly body: string;
  readonly cases: readonly SentenceCase[];
}

export function loadSentences(folder: string): readonly SentenceFile[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .sort()
    .map((name) => JSON.parse(readFileSync(join(folder, name), 'utf8')) as SentenceFile);
}

/** Problems of the file's own registers and front matter: the corpus must be sound before it may judge. */
export function problemsOf(file: SentenceFile): readonly string[] {
  const { registers, problems } = registersOf(file);
  const { head, tree } = procedureOf(file, 'Wait.', registers);
  return [...problems, ...head.problems.map((p) => `front matter: ${p.message}`), ...tree.problems.map((p) => `${p.rule}: ${p.message}`)];
}

/** The reading of one case, without what comes before it. */
export function readSentence(file: SentenceFile, one: SentenceCase): Reading {
  const { registers } = registersOf(file);
  const whole = one.before === undefined ? one.text : `${one.before} ${one.text}`;
  const { tree, head } = procedureOf(file, whole, registers);
  const reading = readProse(leadOf(tree.tree), {
    names: namesFor(head.head, tree.tree, registers, new Map()),
    families: familiesOf(head.head, registers),
    registers,
    language: 'en',
    kind: one.kind ?? 'lead',
    measurements: head.head.measurements,
    roles: head.head.roles.map((role) => role.name),
  });
  const from = one.before === undefined ? 0 : one.before.replace(/[[\]]/g, '').length;
  return { ...reading, sentences: reading.sentences.filter((sentence) => sentence.at >= from) };
}

export function gradeFile(file: SentenceFile): readonly GradedSentence[] {
  const renews = new Map(registersOf(file).registers.replacements.map((r) => [r.name, r.renews ?? r.name]));
  return file.cases.map((one) => gradeReading(one, readSentence(file, one), renews));
}

const grades: readonly Grade[] = ['exact', 'partial', 'unread', 'wrong'];

/** One row a kind of equipment, one column a grade, and the shares below. `must` leaves out sentences where refusing is also right. */
export function tableOf(rows: readonly { readonly name: string; readonly graded: readonly GradedSentence[] }[]): string {
  const line = (name: string, graded: readonly GradedSentence[]) =>
    [name.padEnd(24), ...grades.map((g) => String(count(graded, g)).padStart(8)), String(graded.length).padStart(8)].join('');
  const all = rows.flatMap((row) => row.graded);
  const must = all.filter((one) => !one.refusalIsRight);
  const share = (part: number, whole: number) => `${((100 * part) / whole).toFixed(1)} %`;
  return [
    [''.padEnd(24), ...grades.map((g) => g.padStart(8)), 'all'.padStart(8)].join(''),
    ...rows.map((row) => line(row.name, row.graded)),
    line('all', all),
    line('of those, must be read', must),
    `exact: ${share(count(all, 'exact'), all.length)}; of those that must be read: ${share(count(must, 'exact'), must.length)}`,
  ].join('\n');
}

export function count(graded: readonly GradedSentence[], grade: Grade): number {
  return graded.filter((one) => one.grade === grade).length;
}

/** The sentences of one grade with what was found, for people who mend the reader. */
export function listOf(graded: readonly GradedSentence[], grade: Grade): string {
  return graded
    .filter((one) => one.grade === grade)
    .map((one) => `${grade}: ${one.text}\n${one.notes.map((note) => `    ${note}`).join('\n')}`)
    .join('\n');
}

const cache = new WeakMap<SentenceFile, { readonly registers: Registers; readonly problems: readonly string[] }>();
function registersOf(file: SentenceFile): { readonly registers: Registers; readonly problems: readonly string[] } {
  const known = cache.get(file);
  if (known !== undefined) return known;
  const read = Object.entries(file.registers).map(([path, text]) => readYaml(path, text));
  const { registers, problems } = readRegisters(read.map((one) => one.tree));
  const found = {
    registers,
    problems: [
      ...read.flatMap((one) => one.problems.map((p) => `${one.tree.source.path}: ${p.message}`)),
      ...[...problems].flatMap(([path, list]) => list.map((p) => `${path}: ${p.message}`)),
    ],
  };
  cache.set(file, found);
  return found;
}

function procedureOf(file: SentenceFile, text: string, registers: Registers) {
  const tree = readProcedure(
    'procedures/sentence.md',
    `---\nrevision: "A"\ndate: 2026-01-15\n${file.front}---\n\n## Sentence\n\n1. ${text}\n\n${file.body}`,
  );
  return { tree, head: readHead(tree.tree, registers) };
}

function leadOf(tree: Parameters<typeof walkSteps>[0]): Prose {
  for (const { step } of walkSteps(tree)) return step.lead;
  throw new Error('the sentence did not become a step');
}
