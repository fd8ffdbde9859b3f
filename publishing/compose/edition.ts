/** What of a procedure applies to one model. Labels never change with the edition; what does not apply is left out. */
import type { Branch, ListedName, Machine, ReadChild, Reading, ReadStep, Step } from '../../procedures-schema/index.ts';
import { holdsFor } from '../../procedures-schema/index.ts';
import type { Scope } from './scope.ts';

/** Machines printed: all of the procedure, or those of the model of this edition. */
export const machinesOf = (scope: Scope): readonly Machine[] =>
  scope.facts.machines.filter((machine) => scope.input.model === undefined || machine.variant.model === scope.input.model);

/** The models printed, in order. */
export function modelsOf(scope: Scope): readonly string[] {
  return [...new Set(machinesOf(scope).map((machine) => machine.variant.model))];
}

export const listedFor = (entry: ListedName, scope: Scope): boolean =>
  scope.input.model === undefined || entry.models === undefined || entry.models.some((model) => sameName(model, scope.input.model ?? ''));

const sameName = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

export interface Applies {
  readonly step: (step: Step) => boolean;
  readonly branch: (branch: Branch) => boolean;
}

/** For a whole procedure everything applies; for one model, what some variant of that model can walk. */
export function appliesIn(scope: Scope): Applies {
  if (scope.input.model === undefined) return { step: () => true, branch: () => true };
  const machines = machinesOf(scope);
  const left = new Set<Step | Branch>();
  const anyHolds = (when: Reading['when']): boolean =>
    machines.some((machine) => (when ?? []).every((one) => one.kind !== 'variant' || holdsFor(one, machine.variant)));
  const visit = (step: ReadStep): void => {
    const actions = step.lead.sentences.flatMap((sentence) => sentence.actions);
    if (actions.length > 0 && actions.every((action) => !anyHolds(action.when))) left.add(step.at.step);
    step.children.forEach(visitChild);
  };
  const visitChild = (child: ReadChild): void => {
    if (child.kind === 'substeps') child.steps.forEach(visit);
    if (child.kind !== 'branches') return;
    for (const { branch, condition, children } of child.branches) {
      if (!anyHolds(condition.when)) left.add(branch);
      children.forEach(visitChild);
    }
  };
  scope.facts.read.steps.forEach(visit);
  return { step: (step) => !left.has(step), branch: (branch) => !left.has(branch) };
}
