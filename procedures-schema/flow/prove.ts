/** A procedure against the machines it is for: groups that walk alike are walked once, breaches of one cause become one violation. */
import { proseSpan } from '../format/index.ts';
import type { Reading } from '../reading/index.ts';
import type { Machine, Registers } from '../registers/index.ts';
import { worstOf } from './band.ts';
import type { Program } from './code.ts';
import { compile } from './compile/compile.ts';
import { groupsOf } from './groups.ts';
import { hungOn, type Unread } from './hangs.ts';
import { merge } from './merge.ts';
import type { FlowResult, ReadProcedure, ReadStep, Verdict, Violation } from './model.ts';
import type { ProvedBefore } from './proved-before.ts';
import { search } from './remember.ts';
import { aroundOf, outcomesOn, settingOf } from './setting.ts';
import type { Solved } from './solve.ts';

export interface FlowInput {
  readonly procedure: ReadProcedure;
  readonly machines: readonly Machine[];
  readonly registers: Registers;
  /** Other procedures by document number, for calls and hand-overs. */
  readonly others: (number: string) => ReadProcedure | undefined;
  /** States met before the walk is cut in slices (remember.ts); tests cut at once with 0. */
  readonly whole?: number;
  /** What was proved of an earlier state of the same procedure; brought up to date. */
  readonly before?: ProvedBefore;
}

export function prove(input: FlowInput): FlowResult {
  const { procedure, machines } = input;
  const program = compile({ procedure, others: input.others });
  const setting = { procedures: [procedure], registers: input.registers, others: input.others };
  const unread = unreadIn(procedure);
  const groups = groupsOf(machines, program, outcomesOn(setting, program));
  const around = input.before && aroundOf(setting, program, procedure.head.startsWith);
  // A message may name the first machine of its group.
  const keyed = [...groups].map(([alike, group]) => ({ group, key: `${alike}\n${JSON.stringify(group[0]?.variant)}\n${around}` }));
  const known = input.before?.recall(
    program,
    keyed.map(({ key }) => key),
  );
  const solved = keyed.map(({ group, key }) => ({
    group,
    key,
    result:
      known?.get(key) ??
      search(program, (remembered) => settingOf(setting, program, group[0] as Machine, procedure.head.startsWith, remembered), input.whole),
  }));
  input.before?.keep(program, new Map(solved.map(({ key, result }) => [key, result])));
  const all = machines.map((machine) => machine.variant.name);
  const violations = [
    ...hungOn(unread, merge(solved, all, { file: procedure.file, span: procedure.head.idSpan }), machines),
    ...unreached(
      program,
      solved.map((one) => one.result),
      procedure,
    ),
    ...requires(input),
  ];
  const verdicts = machines.map(({ variant }) => {
    const own = solved.find((one) => one.group.some((machine) => machine.variant === variant))?.result;
    return { variant: variant.name, ...verdictOf(own, unread.length, violations, variant.name) };
  });
  return {
    verdicts,
    violations,
    explored: { states: sum(solved.map((one) => one.result.states)), transitions: sum(solved.map((one) => one.result.transitions)) },
    bands: worstOf(solved.map((one) => one.result.bands)),
    during: worstOf(solved.map((one) => one.result.during)),
    unreached: violations.filter((one) => one.rule === 'never-reached').flatMap((one) => one.at.step ?? []),
  };
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

function verdictOf(
  own: Solved | undefined,
  unread: number,
  violations: readonly Violation[],
  variant: string,
): { verdict: Verdict; because?: string } {
  const refuted = violations.some(
    (one) =>
      one.severity === 'error' &&
      one.rule !== 'unread' &&
      one.rule !== 'bound' &&
      (one.variants.length === 0 || one.variants.includes(variant)),
  );
  if (refuted) return { verdict: 'refuted' };
  if (unread > 0) return { verdict: 'not proved', because: `${unread} sentence${unread === 1 ? '' : 's'} could not be read` };
  if (own?.bounded !== undefined) return { verdict: 'not proved', because: `the proof stopped ${own.bounded}` };
  return own ? { verdict: 'proved' } : { verdict: 'not proved', because: 'no machine is registered for it' };
}

// ---------------------------------------------------------------- violations

function unreadIn(procedure: ReadProcedure): Unread[] {
  const out: Unread[] = [];
  const look = (step: ReadStep, reading: Reading, prose: Parameters<typeof proseSpan>[0] | undefined): void => {
    for (const sentence of reading.sentences) {
      if (sentence.status !== 'unread') continue;
      const span = prose ? proseSpan(prose, sentence.at, sentence.end) : step.at.step.lead.span;
      const violation: Violation = {
        rule: 'unread',
        thing: sentence.text,
        at: { file: procedure.file, step: step.at, span },
        walk: [],
        variants: [],
        later: 0,
        severity: 'error',
        missing: sentence.why === undefined ? [] : [sentence.why],
      };
      out.push({ violation, sentence, step });
    }
  };
  const below = (step: ReadStep, children: ReadStep['children']): void => {
    for (const child of children) {
      if (child.kind === 'substeps') for (const sub of child.steps) visit(sub);
      else if (child.kind === 'objects') for (const [index, reading] of child.items.entries()) look(step, reading, child.proses?.[index]);
      else if (child.kind === 'prose') look(step, child.reading, child.child.kind === 'paragraph' ? child.child.prose : undefined);
      else
        for (const branch of child.branches) {
          look(step, branch.lead, branch.branch.lead);
          below(step, branch.children);
        }
    }
  };
  const visit = (step: ReadStep): void => {
    look(step, step.lead, step.at.step.lead);
    below(step, step.children);
  };
  for (const step of procedure.steps) visit(step);
  return out;
}

function unreached(program: Program, results: readonly Solved[], procedure: ReadProcedure): Violation[] {
  if (results.length === 0 || results.some((result) => result.bounded !== undefined)) return [];
  const reached = new Set<unknown>();
  for (const result of results)
    for (const node of result.reached) {
      const instruction = program.code[node];
      if (instruction?.op === 'step') reached.add(instruction.at);
    }
  // Only the first step of a stretch that nobody comes to.
  let before = true;
  const out: Violation[] = [];
  for (const step of program.steps) {
    const there = reached.has(step);
    if (!there && before)
      out.push({
        rule: 'never-reached',
        thing: step.fullLabel,
        at: { file: procedure.file, step, span: step.step.lead.span },
        walk: [],
        variants: [],
        later: 0,
        severity: 'warning',
        missing: [],
      });
    before = there;
  }
  return out;
}

function requires({ procedure, others }: FlowInput): Violation[] {
  return procedure.head.requires.flatMap(({ name, span }): Violation[] => {
    const other = others(name);
    const ends = other?.head.endsWith ?? 'closed';
    const starts = procedure.head.startsWith;
    const meets = starts === 'opened and locked out' ? ends === 'opened and locked out' : ends === 'closed';
    if (!other || meets) return [];
    return [
      {
        rule: 'requires',
        thing: name,
        at: { file: procedure.file, span },
        walk: [],
        variants: [],
        later: 0,
        severity: 'error',
        missing: [starts],
      },
    ];
  });
}
