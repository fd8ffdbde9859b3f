/** A procedure against the machines it is for: groups that walk alike are walked once, breaches of one cause become one violation. Long because grouping, forgetting and merging belong to one question; forgetting is next to be cut out. */
import { foldText, proseSpan } from '../format/index.ts';
import type { LabelledStep } from '../numbering/index.ts';
import { compare, type Limit, limitFor, limitsOf } from '../quantities/index.ts';
import type { Condition, Reading } from '../reading/index.ts';
import type { Machine } from '../registers/index.ts';
import { type Band, worse } from './band.ts';
import type { Instruction, Program } from './code.ts';
import { compile } from './compile.ts';
import { holdsFor } from './decide.ts';
import type { Doing } from './effects.ts';
import { tableOf } from './machine.ts';
import type { FlowInput, FlowPlace, FlowResult, ReadProcedure, ReadStep, Verdict, Violation } from './model.ts';
import { BOUND, type Found, type Solved, solve } from './solve.ts';
import { type Layout, layoutOf, type State, startState } from './state.ts';

export const proofVersion: string = '1';

export function prove(input: FlowInput): FlowResult {
  const { procedure, machines } = input;
  const program = compile({ procedure, others: input.others });
  const unread = unreadIn(procedure);
  const groups = groupsOf(machines, program);
  const solved = groups.map((group) => ({ group, result: solveGroup(input, program, group[0] as Machine) }));
  const all = machines.map((machine) => machine.variant.name);
  const violations = [
    ...merge(solved, all, procedure),
    ...unread,
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
    bands: bandsOf(solved.map((one) => one.result)),
    unreached: violations.filter((one) => one.rule === 'never-reached').flatMap((one) => one.at.step ?? []),
  };
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

function bandsOf(results: readonly Solved[]): FlowResult['bands'] {
  const out = new Map<LabelledStep, Band>();
  for (const { bands } of results) for (const [step, band] of bands) out.set(step, worse(out.get(step), band));
  return out;
}

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
  if (own?.bounded) return { verdict: 'not proved', because: `the bound of ${BOUND} states was reached` };
  return own ? { verdict: 'proved' } : { verdict: 'not proved', because: 'no machine is registered for it' };
}

// ---------------------------------------------------------------- groups

const SHAPES = new WeakMap<Machine, string>();

/** Machines of equal structure on which every variant condition has the same truth. */
function groupsOf(machines: readonly Machine[], program: Program): readonly (readonly Machine[])[] {
  const conditions = new Map<string, Extract<Condition, { kind: 'variant' }>>();
  for (const instruction of program.code)
    if (instruction.op === 'branch' && instruction.condition.kind === 'variant')
      conditions.set(JSON.stringify(instruction.condition), instruction.condition);
  const groups = new Map<string, Machine[]>();
  for (const machine of machines) {
    const shape = SHAPES.get(machine) ?? JSON.stringify({ ...machine, variant: undefined });
    SHAPES.set(machine, shape);
    const key = `${shape}\n${[...conditions.values()].map((condition) => (holdsFor(condition, machine.variant) ? 1 : 0)).join('')}`;
    groups.set(key, [...(groups.get(key) ?? []), machine]);
  }
  return [...groups.values()];
}

function solveGroup(input: FlowInput, program: Program, machine: Machine): Solved {
  const { procedure, registers } = input;
  const tools = new Map(registers.tools.map((tool) => [tool.name, tool]));
  const renews = new Map(registers.replacements.map((one) => [one.name, one.renews]));
  const named = namesIn(program);
  const layout = layoutOf(tableOf(machine), {
    temporaries: named.tools.filter((name) => tools.get(name)?.temporary),
    outcomes: named.outcomes,
    facts: named.facts,
    roles: named.roles,
  });
  const quantities = new Map(procedure.measurements.map((one) => [one.name, one.quantity]));
  return solve({
    program,
    layout,
    start: startState(layout, procedure.head.startsWith),
    variant: machine.variant,
    possible: possibleOf([procedure, ...calledIn(program, input)], machine.variant.model),
    forget: forgetter(program, layout),
    doingOf: ({ action, facts }): Doing => ({
      action,
      facts,
      liveTask: procedure.head.liveTask !== undefined,
      temporary: (tool) => tools.get(tool)?.temporary ?? false,
      toolKind: (tool) => tools.get(tool)?.kind,
      makes: (tool) => tools.get(tool)?.makes,
      renews: (replacement) => renews.get(replacement),
      quantityOf: (measurement) => quantities.get(measurement) ?? '',
    }),
  });
}

/** Tools, measurements, roles of the program; facts that are asked in two places and so must be remembered. */
function namesIn(program: Program): { tools: string[]; outcomes: string[]; facts: string[]; roles: string[] } {
  const tools = new Set<string>();
  const outcomes = new Set<string>();
  const roles = new Set<string>();
  const facts = new Map<string, Set<string>>();
  for (const instruction of program.code) {
    if (instruction.op === 'act') {
      for (const use of instruction.action.things) if (use.thing.kind === 'tool') tools.add(use.thing.name);
      for (const use of instruction.action.things) if (use.thing.kind === 'measurement') outcomes.add(use.thing.name);
      if (instruction.action.role !== undefined) roles.add(instruction.action.role);
    }
    if (instruction.op === 'branch') {
      const { condition } = instruction;
      if (condition.kind === 'outcome' && condition.subject !== undefined) outcomes.add(condition.subject);
      if (condition.kind === 'fact')
        facts.set(condition.key, (facts.get(condition.key) ?? new Set()).add(`${instruction.place.file}:${instruction.place.span.start}`));
    }
  }
  return {
    tools: [...tools],
    outcomes: [...outcomes],
    roles: [...roles],
    facts: [...facts].filter(([, places]) => places.size > 1).map(([key]) => key),
  };
}

/** Which outcomes a measurement can have on a model: pass and fail where it is sensed, no "under" without a lower limit above zero. */
function possibleOf(procedures: readonly ReadProcedure[], model: string): (subject: string) => number {
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
      const { limits } = limitsOf(
        measurement,
        table,
        procedure.head.models.map(({ name }) => name),
      );
      // A model whose row is missing is told by a check; here it is taken as its neighbours, so that one slip is one finding.
      const limit = limitFor(limits, model) ?? limits[0];
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

function calledIn(program: Program, input: FlowInput): readonly ReadProcedure[] {
  const numbers = new Set(program.code.flatMap((instruction) => (instruction.op === 'enter' ? [instruction.number] : [])));
  return [...numbers].flatMap((number) => input.others(number) ?? []);
}

function tableIn(procedure: ReadProcedure, id: string) {
  for (const section of procedure.sections) for (const block of section.blocks) if (block.kind === 'table' && block.id === id) return block;
  for (const { step } of procedure.labels.steps)
    for (const child of step.children) if (child.kind === 'table' && child.id === id) return child;
  return undefined;
}

// ---------------------------------------------------------------- forgetting

/** Outcomes and facts that no instruction ahead reads are set to zero: walks that differ only in them meet again. */
function forgetter(program: Program, layout: Layout): (node: number, state: State) => State {
  const total = layout.outcomes.length + layout.facts.length;
  if (total === 0 || total > 30) return (_, state) => state;
  const live = new Uint32Array(program.code.length);
  const reads = (instruction: Instruction): number => {
    if (instruction.op === 'open') return bitOf(layout.outcomes.indexOf(instruction.subject));
    if (instruction.op !== 'branch') return 0;
    const { condition } = instruction;
    if (condition.kind === 'outcome' && condition.subject !== undefined) return bitOf(layout.outcomes.indexOf(condition.subject));
    if (condition.kind === 'fact') {
      const at = layout.facts.indexOf(condition.key);
      return at < 0 ? 0 : 1 << (layout.outcomes.length + at);
    }
    return 0;
  };
  const writes = (instruction: Instruction): number => {
    if (instruction.op !== 'act') return 0;
    return instruction.action.things.reduce(
      (bits, use) => bits | (use.thing.kind === 'measurement' ? bitOf(layout.outcomes.indexOf(use.thing.name)) : 0),
      0,
    );
  };
  for (let again = true; again; ) {
    again = false;
    for (let node = program.code.length - 1; node >= 0; node -= 1) {
      const instruction = program.code[node] as Instruction;
      const after = nextOf(instruction).reduce((bits, next) => bits | (live[next] ?? 0), 0);
      const value = ((after & ~writes(instruction)) | reads(instruction)) >>> 0;
      if (live[node] !== value) {
        live[node] = value;
        again = true;
      }
    }
  }
  return (node, state) => {
    const wanted = live[node] ?? 0;
    let out = state;
    for (let index = 0; index < total; index += 1) {
      const at = index < layout.outcomes.length ? layout.outcome + index : layout.fact + index - layout.outcomes.length;
      if ((wanted & (1 << index)) === 0 && out[at] !== 0) {
        if (out === state) out = state.slice();
        out[at] = 0;
      }
    }
    return out;
  };
}

const bitOf = (at: number): number => (at < 0 ? 0 : 1 << at);

function nextOf(instruction: Instruction): readonly number[] {
  if (instruction.op === 'end') return [];
  if (instruction.op === 'branch') return [instruction.yes, instruction.no];
  return [instruction.next];
}

// ---------------------------------------------------------------- violations

/** One violation a cause: rule, thing, the step that made it so. All variants and the count of later places come along. */
function merge(
  solved: readonly { group: readonly Machine[]; result: Solved }[],
  all: readonly string[],
  procedure: ReadProcedure,
): Violation[] {
  const byCause = new Map<string, { first: Found; variants: Set<string>; places: Set<string> }>();
  for (const { group, result } of solved) {
    for (const found of result.found) {
      const key = `${found.breach.rule}\n${found.breach.thing}\n${found.breach.zone ?? ''}\n${placeKey(found.cause)}${found.breach.bits.length === 0 ? placeKey(found.at) : ''}`;
      const known = byCause.get(key);
      const entry = known ?? { first: found, variants: new Set<string>(), places: new Set<string>() };
      if (
        known &&
        (found.length < known.first.length ||
          (found.length === known.first.length && (found.at.step?.order ?? 0) < (known.first.at.step?.order ?? 0)))
      )
        entry.first = found;
      for (const machine of group) entry.variants.add(machine.variant.name);
      entry.places.add(placeKey(found.at));
      byCause.set(key, entry);
    }
    if (result.bounded) {
      const at: FlowPlace = { file: procedure.file, span: procedure.head.idSpan };
      byCause.set(`bound`, {
        first: {
          breach: { rule: 'bound', thing: String(BOUND), missing: [], bits: [], severity: 'warning' },
          at,
          cause: undefined,
          walk: [],
          length: 0,
        },
        variants: new Set(group.map((machine) => machine.variant.name)),
        places: new Set(),
      });
    }
  }
  return [...byCause.values()].map(({ first, variants, places }): Violation => {
    const { breach, at, cause, walk } = first;
    return {
      rule: breach.rule,
      thing: breach.thing,
      at,
      walk,
      variants: variants.size === all.length ? [] : all.filter((name) => variants.has(name)),
      later: Math.max(0, places.size - 1),
      severity: breach.severity,
      missing: breach.missing,
      ...(breach.zone === undefined ? {} : { zone: breach.zone }),
      ...(cause ? { cause } : {}),
    };
  });
}

function placeKey(place: FlowPlace | undefined): string {
  return place ? `${place.file}:${place.span.start}` : 'start';
}

function unreadIn(procedure: ReadProcedure): Violation[] {
  const out: Violation[] = [];
  const look = (step: ReadStep, reading: Reading, prose: Parameters<typeof proseSpan>[0] | undefined): void => {
    for (const sentence of reading.sentences) {
      if (sentence.status !== 'unread') continue;
      const span = prose ? proseSpan(prose, sentence.at, sentence.end) : step.at.step.lead.span;
      out.push({
        rule: 'unread',
        thing: sentence.text,
        at: { file: procedure.file, step: step.at, span },
        walk: [],
        variants: [],
        later: 0,
        severity: 'error',
        missing: sentence.why === undefined ? [] : [sentence.why],
      });
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
  if (results.length === 0 || results.some((result) => result.bounded)) return [];
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
