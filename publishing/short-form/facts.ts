/** What the lines of a short form need to know of the readings: which models a step is for, who initials it, which values are read twice. */
import type {
  Action,
  ActionKind,
  Branch,
  Measurement,
  ReadChild,
  Reading,
  ReadStep,
  Step,
  StepChild,
} from '../../procedures-schema/index.ts';
import { readTwice, type Scope } from '../compose/index.ts';

export interface StepFacts {
  readonly lead: ReadonlyMap<Step, Reading>;
  readonly branches: ReadonlyMap<Branch, { readonly condition: Reading; readonly lead: Reading }>;
  /** What was read in paragraphs and lists below a step. */
  readonly prose: ReadonlyMap<StepChild, Reading>;
  /** Measured until it passes, or at more than one step. */
  readonly twice: ReadonlySet<string>;
}

export function stepFacts(scope: Scope): StepFacts {
  const lead = new Map<Step, Reading>();
  const branches = new Map<Branch, { readonly condition: Reading; readonly lead: Reading }>();
  const prose = new Map<StepChild, Reading>();
  const visit = (step: ReadStep): void => {
    lead.set(step.at.step, step.lead);
    step.children.forEach(child);
  };
  const child = (one: ReadChild): void => {
    if (one.kind === 'prose') prose.set(one.child, one.reading);
    if (one.kind === 'substeps') one.steps.forEach(visit);
    if (one.kind !== 'branches') return;
    for (const { branch, condition, lead: said, children } of one.branches) {
      branches.set(branch, { condition, lead: said });
      children.forEach(child);
    }
  };
  scope.facts.read.steps.forEach(visit);
  return { lead, branches, prose, twice: readTwice(scope) };
}

/** Steps on which somebody's life hangs: done by whoever puts initials to them. */
const signed: ReadonlySet<ActionKind> = new Set([
  'isolate',
  'lock',
  'relieve',
  'restrain',
  'try-out',
  'prove',
  'unlock',
  'unrelieve',
  'release',
  'restore',
  'out-of-service',
]);

/** The role that initials; empty for the reader; undefined where a tick will do. */
export function initialsOf(reading: Reading | undefined): string | undefined {
  const actions = (reading?.sentences ?? []).flatMap((sentence) => sentence.actions).filter((action) => signed.has(action.kind));
  return actions.length === 0 ? undefined : (actions.find((action) => action.role !== undefined)?.role ?? '');
}

/** Models named by a condition on every action; and whether the models say all of it. */
export function modelsNamed(reading: Reading | undefined): readonly string[] {
  const actions: readonly Action[] = (reading?.sentences ?? []).flatMap((sentence) => sentence.actions);
  const named = actions.map((action) => action.when.flatMap((one) => (one.kind === 'variant' && !one.negated ? one.models : [])));
  return named.length > 0 && named.every((models) => models.length > 0) ? [...new Set(named.flat())] : [];
}

/** A branch taken by model: its models, and whether nothing else is asked. */
export function branchModels(condition: Reading | undefined): { readonly models: readonly string[]; readonly whole: boolean } {
  const when = condition?.when ?? [];
  const variants = when.filter((one) => one.kind === 'variant');
  const models = variants.flatMap((one) => (one.negated ? [] : one.models));
  const whole =
    when.length === 1 &&
    variants.length === 1 &&
    models.length > 0 &&
    variants.every((one) => !one.negated && one.serial === undefined && one.options.length === 0);
  return { models, whole };
}

/** What makes a condition true, and what it is an answer to. */
export interface Judged {
  readonly name: string;
  readonly outcome: 'pass' | 'fail';
  readonly seen: string;
}

/**
 * What is judged at a step and decides at once between its two ways on: each way says what is seen where it is taken, and the box that is ticked
 * for the one is the answer too.
 */
export function judgedBelow(
  branches: readonly Branch[],
  measured: readonly Measurement[],
  facts: StepFacts,
): { readonly measurement: Measurement; readonly says: ReadonlyMap<Branch, Judged> } | undefined {
  const [measurement, ...more] = measured.filter(({ sensed }) => sensed !== undefined);
  if (measurement?.sensed === undefined || more.length > 0 || branches.length !== 2) return undefined;
  const says = new Map<Branch, Judged>();
  for (const branch of branches) {
    const [only, ...others] = facts.branches.get(branch)?.condition.when ?? [];
    if (branch.otherwise || only?.kind !== 'outcome' || others.length > 0) return undefined;
    if (only.outcome !== 'pass' && only.outcome !== 'fail') return undefined;
    if (only.subject !== undefined && only.subject !== measurement.name) return undefined;
    says.set(branch, { name: measurement.name, outcome: only.outcome, seen: measurement.sensed[only.outcome] });
  }
  return new Set([...says.values()].map(({ outcome }) => outcome)).size === 2 ? { measurement, says } : undefined;
}
