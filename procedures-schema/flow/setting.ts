/** What the search is given for one machine: layout of the state, start, what a measurement can come out as, what actions need to know. */
import { foldText } from '../format/index.ts';
import { compare, decimalMarkOf, type Limit, limitFor, limitModels, limitsOf } from '../quantities/index.ts';
import type { Machine, Registers, Variant } from '../registers/index.ts';
import { answerKey } from './causes.ts';
import type { Program } from './code.ts';
import type { Doing } from './effects/doing.ts';
import { forgetter } from './forget.ts';
import { tableOf } from './machine.ts';
import type { ReadProcedure } from './model.ts';
import type { SolveInput } from './solve.ts';
import { layoutOf, startState } from './state.ts';

/** `procedures` are those walked, in order; what they call is found from the program. */
export interface SettingInput {
  readonly procedures: readonly ReadProcedure[];
  readonly registers: Registers;
  readonly others: (number: string) => ReadProcedure | undefined;
}

/** `remembered` is what the state holds of facts and outcomes (answerKey); left out, all of it. */
export function settingOf(
  input: SettingInput,
  program: Program,
  machine: Machine,
  startsWith: string,
  remembered?: ReadonlySet<string>,
): SolveInput {
  const { registers } = input;
  const walked = [...input.procedures, ...calledIn(program, input)];
  const tools = new Map(registers.tools.map((tool) => [tool.name, tool]));
  const renews = new Map(registers.replacements.map((one) => [one.name, one.renews]));
  const named = namesIn(program);
  const layout = layoutOf(
    tableOf(machine),
    {
      temporaries: named.tools.filter((name) => tools.get(name)?.temporary),
      outcomes: named.outcomes,
      facts: named.facts.filter((key) => remembered?.has(answerKey('fact', key)) ?? true),
      loose: new Set(named.outcomes.filter((name) => remembered !== undefined && !remembered.has(answerKey('outcome', name)))),
      roles: named.roles,
    },
    registers.house.lockoutProfile === 'electrical',
  );
  const quantities = new Map(walked.flatMap((read) => read.measurements.map((one) => [one.name, one.quantity])));
  const uppers = new Map(walked.flatMap((read) => read.measurements.map((one) => [one.name, one.upper])));
  const live = new Set(walked.filter((read) => read.head.liveTask !== undefined).map((read) => read.file));
  const doing = new Map<unknown, Doing>();
  const known = {
    temporary: (tool: string) => tools.get(tool)?.temporary ?? false,
    toolKind: (tool: string) => tools.get(tool)?.kind,
    makes: (tool: string) => tools.get(tool)?.makes,
    renews: (replacement: string) => renews.get(replacement),
    quantityOf: (measurement: string) => quantities.get(measurement) ?? '',
    upperOf: (measurement: string) => uppers.get(measurement),
  };
  return {
    program,
    layout,
    start: startState(layout, startsWith),
    variant: machine.variant,
    possible: possibleOf(walked, machine.variant, registers),
    forget: forgetter(program, layout),
    doingOf: (instruction): Doing => {
      // Asked for every state that meets the instruction.
      const made = doing.get(instruction);
      if (made) return made;
      const { action, facts, place } = instruction;
      // Field by field: spreading costs more than all the rest of it.
      const { temporary, toolKind, makes, renews: renewed, quantityOf, upperOf } = known;
      const own = { temporary, toolKind, makes, renews: renewed, quantityOf, upperOf, action, facts, liveTask: live.has(place.file) };
      doing.set(instruction, own);
      return own;
    },
  };
}

/** What the setting takes from elsewhere than program and machine, in words: two that say the same give the same setting. */
export function aroundOf(input: SettingInput, program: Program, startsWith: string): string {
  const { tools, replacements, house } = input.registers;
  const walked = [...input.procedures, ...calledIn(program, input)].map(({ file, measurements, head }) => [
    file,
    head.liveTask !== undefined,
    measurements.map(({ name, quantity, upper }) => [name, quantity, upper]),
  ]);
  return JSON.stringify([
    startsWith,
    walked,
    house.lockoutProfile,
    tools.map(({ name, kind, temporary, makes }) => [name, kind, temporary, makes]),
    replacements.map(({ name, renews }) => [name, renews]),
  ]);
}

/** What the readings of the program can come out as on a machine, as a key: machines with the same one are walked alike. */
export function outcomesOn(input: SettingInput, program: Program): (machine: Machine) => string {
  const walked = [...input.procedures, ...calledIn(program, input)];
  const { outcomes } = namesIn(program);
  return ({ variant }) => {
    const possible = possibleOf(walked, variant, input.registers);
    return outcomes.map(possible).join(' ');
  };
}

/** Tools, measurements, roles and facts of the program. A fact is free once, then fixed; one that nobody asks again is forgotten. */
function namesIn(program: Program): { tools: string[]; outcomes: string[]; facts: string[]; roles: string[] } {
  const tools = new Set<string>();
  const outcomes = new Set<string>();
  const roles = new Set<string>();
  const facts = new Set<string>();
  for (const instruction of program.code) {
    if (instruction.op === 'act') {
      for (const use of instruction.action.things) if (use.thing.kind === 'tool') tools.add(use.thing.name);
      for (const use of instruction.action.things) if (use.thing.kind === 'measurement') outcomes.add(use.thing.name);
      if (instruction.action.role !== undefined) roles.add(instruction.action.role);
    }
    if (instruction.op === 'branch') {
      const { condition } = instruction;
      if (condition.kind === 'outcome' && condition.subject !== undefined) outcomes.add(condition.subject);
      if (condition.kind === 'fact') facts.add(condition.key);
    }
  }
  return {
    tools: [...tools],
    outcomes: [...outcomes],
    roles: [...roles],
    facts: [...facts],
  };
}

/** Which outcomes a measurement can have on a machine: pass and fail where it is sensed, no "under" without a lower limit above zero. */
function possibleOf(procedures: readonly ReadProcedure[], variant: Variant, registers: Registers): (subject: string) => number {
  const cache = new Map<string, number>();
  return (subject) => {
    const known = cache.get(subject);
    if (known !== undefined) return known;
    const procedure = procedures.find((one) => one.measurements.some((measurement) => foldText(measurement.name) === foldText(subject)));
    const measurement = procedure?.measurements.find((one) => foldText(one.name) === foldText(subject));
    let bits = 31;
    if (measurement?.sensed) bits = 24;
    else if (measurement && procedure) {
      const table = measurement.table === undefined ? undefined : tableIn(procedure, measurement.table);
      const models = limitModels(procedure.head, registers);
      const { limits } = limitsOf(measurement, table, models, decimalMarkOf(registers.house.language));
      // A model whose row is missing is told by a check; here it is taken as its neighbours, so that one slip is one finding.
      const limit = limitFor(limits, variant) ?? limits[0];
      bits = limit ? outcomesOf(limit) : 7;
    }
    cache.set(subject, bits);
    return bits;
  };
}

/** Nothing is under nought where nought is the least there is. Limits the wrong way round are read the right way round; a check tells them. */
function outcomesOf({ lower, upper }: Limit): number {
  const inverted = lower !== undefined && upper !== undefined && compare(lower.value, upper.value) > 0;
  const low = inverted ? upper : lower;
  return 2 | (low !== undefined && low.value.n !== 0n ? 1 : 0) | (upper === undefined ? 0 : 4);
}

function calledIn(program: Program, input: SettingInput): readonly ReadProcedure[] {
  const numbers = new Set(program.code.flatMap((instruction) => (instruction.op === 'enter' ? [instruction.number] : [])));
  return [...numbers].flatMap((number) => input.others(number) ?? []);
}

function tableIn(procedure: ReadProcedure, id: string) {
  for (const section of procedure.sections) for (const block of section.blocks) if (block.kind === 'table' && block.id === id) return block;
  for (const { step } of procedure.labels.steps)
    for (const child of step.children) if (child.kind === 'table' && child.id === id) return child;
  return undefined;
}
