/**
 * The naive checker over a library as it was read: each procedure alone, those that call it, and the visits that come through it, on
 * every machine. Says what it finds and where it gave up. It decides whether a slip that no rule tells is a slip at all.
 */
import {
  decimalMarkOf,
  type LibraryReport,
  type Limit,
  limitFor,
  limitModels,
  limitsOf,
  type Machine,
  type ProcedureFacts,
  type Symptom,
  type Variant,
} from '../../procedures-schema/index.ts';
import type { World } from './naive-effects.ts';
import type { NaiveProcedure } from './naive-procedure.ts';
import { naiveOf } from './naive-read.ts';
import { holdsOn, walkNaive } from './naive-walk.ts';

export interface NaiveVerdict {
  /** Rule and thing, each once. */
  readonly found: readonly string[];
  /** Walks with more states than were looked at. */
  readonly gaveUp: readonly string[];
}

const MOST = 400_000;

/** All walks that come through a file: empty lists mean that nothing is wrong on any. */
export function naiveOn(report: LibraryReport, file: string): NaiveVerdict {
  const { procedures, registers } = report.facts;
  const flat = new Map(procedures.map((facts) => [facts.head.id, naiveOf(facts.read)]));
  const others = [...flat.values()];
  const own = procedures.find((facts) => facts.file === file);
  if (!own) return { found: [], gaveUp: [file] };
  const calling = procedures.filter((facts) => facts === own || callsOf(flat.get(facts.head.id)).has(own.head.id));
  const found = new Set<string>();
  const gaveUp = new Set<string>();
  /** Machines of the same build that no condition tells apart are walked once. */
  const walked = new Set<string>();
  const walk = (machine: Machine, facts: readonly ProcedureFacts[], visit: boolean): void => {
    const [first, ...then] = facts.map(({ head }) => flat.get(head.id) as NaiveProcedure);
    if (!first) return;
    const outcomes = outcomesOf(report, procedures, machine.variant);
    const told = variantsIn(others).map((one) => holdsOn(one, machine.variant));
    const build = JSON.stringify([{ ...machine, variant: undefined }, facts.map(({ head }) => head.id), visit, told, [...outcomes]]);
    if (walked.has(build)) return;
    walked.add(build);
    const world = worldOf(report, machine);
    const result = walkNaive({ procedure: first, others, world, outcomes, most: MOST, blame: false, ...(visit ? { then } : {}) });
    for (const { rule, thing } of result.findings) found.add(`${rule} ${thing}`);
    if (result.bounded) gaveUp.add(`${facts.map(({ head }) => head.id).join(', ')} on ${machine.variant.name}`);
  };
  for (const facts of calling) for (const machine of facts.machines) walk(machine, [facts], false);
  for (const symptom of registers.symptoms)
    for (const { machine, facts } of visitsOf(symptom, procedures)) if (facts.includes(own)) walk(machine, facts, true);
  return { found: [...found].sort(), gaveUp: [...gaveUp] };
}

const actsIn = (procedure: NaiveProcedure) =>
  procedure.sections.flatMap(({ steps }) =>
    steps.flatMap(({ line }) => (line.kind === 'sentences' ? line.acts : line.branches.map(({ act }) => act))),
  );

/** Every condition by model, option or serial number. */
function variantsIn(procedures: readonly NaiveProcedure[]) {
  const bullets = procedures.flatMap(({ sections }) =>
    sections.flatMap(({ steps }) => steps.flatMap(({ line }) => (line.kind === 'bullets' ? line.branches : []))),
  );
  const all = [
    ...procedures.flatMap((one) => actsIn(one).flatMap(({ action }) => action.when)),
    ...bullets.flatMap(({ when, and = [] }) => [...(when ? [when] : []), ...and]),
  ];
  return all.flatMap((one) => (one.kind === 'variant' ? [one] : []));
}

function callsOf(procedure: NaiveProcedure | undefined): ReadonlySet<string> {
  const acts = procedure ? actsIn(procedure) : [];
  return new Set(acts.flatMap(({ action: { target } }) => (target?.kind === 'document' ? [target.number] : [])));
}

/** Which procedures a symptom leads a machine through, in turn. */
function visitsOf(symptom: Symptom, procedures: readonly ProcedureFacts[]): { machine: Machine; facts: readonly ProcedureFacts[] }[] {
  const entries = symptom.procedures.flatMap((entry) => {
    const facts = procedures.find(({ head }) => head.id === entry.number);
    return facts ? [{ entry, facts }] : [];
  });
  const machines = new Map(entries.flatMap(({ facts }) => facts.machines.map((machine) => [machine.variant.name, machine] as const)));
  return [...machines.values()].map((machine) => {
    const { name, model, options } = machine.variant;
    const own = entries.filter(
      ({ entry, facts }) =>
        facts.machines.some(({ variant }) => variant.name === name) &&
        (!entry.models || entry.models.includes(model)) &&
        (!entry.options || entry.options.some((option) => options.includes(option))),
    );
    return { machine, facts: own.map(({ facts }) => facts) };
  });
}

function worldOf(report: LibraryReport, machine: Machine): World {
  const { tools, replacements } = report.facts.registers;
  return {
    machine,
    earthLast: report.facts.registers.house.lockoutProfile === 'electrical',
    temporary: tools.filter(({ temporary }) => temporary).map(({ name }) => name),
    roles: report.facts.procedures.flatMap(({ head }) => head.roles.map(({ name }) => name)),
    kindOf: (name) => tools.find((tool) => tool.name === name)?.kind,
    makes: (name) => tools.find((tool) => tool.name === name)?.makes,
    renews: (name) => replacements.find((one) => one.name === name)?.renews,
  };
}

/** What each measurement can come out as on a machine: nothing is under nought, nothing over a limit that is not set. */
function outcomesOf(
  report: LibraryReport,
  procedures: readonly ProcedureFacts[],
  variant: Variant,
): ReadonlyMap<string, readonly string[]> {
  const { registers } = report.facts;
  const out = new Map<string, readonly string[]>();
  for (const { read } of procedures)
    for (const one of read.measurements) {
      const blocks = read.sections.flatMap(({ blocks }) => blocks);
      const below = read.labels.steps.flatMap(({ step }) => step.children);
      const tables = [...blocks, ...below].flatMap((block) => (block.kind === 'table' ? [block] : []));
      const table = tables.find(({ id }) => id === one.table);
      const { limits } = limitsOf(one, table, limitModels(read.head, registers), decimalMarkOf(registers.house.language));
      out.set(one.name, one.sensed ? ['pass', 'fail'] : waysOf(limitFor(limits, variant) ?? limits[0]));
    }
  return out;
}

function waysOf(limit: Limit | undefined): readonly string[] {
  if (!limit) return ['under', 'within', 'over'];
  const { lower, upper } = limit;
  return [...(lower && lower.value.n !== 0n ? ['under'] : []), 'within', ...(upper ? ['over'] : [])];
}
