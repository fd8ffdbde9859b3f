/** What stands below a step, and what a step and all below it order. */
import type { LabelledStep } from '../../numbering/index.ts';
import type { Action, Reading } from '../../reading/index.ts';
import type { ReadChild, ReadStep } from '../model.ts';

export function indexSteps(step: ReadStep, into: Map<LabelledStep, ReadStep>): void {
  into.set(step.at, step);
  for (const below of belowOf(step)) into.set(below.at, below);
}

/** All substeps below a step, those in branches too. */
export function belowOf(step: ReadStep): readonly ReadStep[] {
  return step.children.length === 0 ? NONE : childSteps(step.children);
}

const NONE: readonly ReadStep[] = [];

function childSteps(children: readonly ReadChild[]): ReadStep[] {
  return children.flatMap((child) => {
    if (child.kind === 'substeps') return child.steps.flatMap((sub) => [sub, ...belowOf(sub)]);
    if (child.kind === 'branches') return child.branches.flatMap((branch) => childSteps(branch.children));
    return [];
  });
}

export function contains(step: ReadStep, other: ReadStep): boolean {
  return belowOf(step).includes(other);
}

/** Actions of a step and all below it. */
export function actionsOf(step: ReadStep): readonly Action[] {
  const known = ACTIONS.get(step);
  if (known) return known;
  const made = [...ownActions(step), ...belowOf(step).flatMap(ownActions)];
  ACTIONS.set(step, made);
  return made;
}

/** Asked of every step of a section for each action in it. */
const ACTIONS = new WeakMap<ReadStep, readonly Action[]>();

export function ownActions(step: ReadStep): Action[] {
  return [step.lead, ...readingsIn(step.children)].flatMap((reading) => reading.sentences.flatMap((sentence) => [...sentence.actions]));
}

function readingsIn(children: readonly ReadChild[]): Reading[] {
  return children.flatMap((child): Reading[] => {
    if (child.kind === 'objects') return [...child.items];
    if (child.kind === 'prose') return [child.reading];
    if (child.kind === 'branches') return child.branches.flatMap((branch) => [branch.lead, ...readingsIn(branch.children)]);
    return [];
  });
}
