/** Steps of a section and of a file in reading order. Labels are numbering/. */
import type { Branch, Procedure, Section, Step, StepChild } from './tree.ts';

/** All lists of a section as one sequence, top level (F5). */
export function stepsOf(section: Section): readonly Step[] {
  if (section.prose) return [];
  return section.blocks.flatMap((block) => (block.kind === 'steps' ? block.steps : []));
}

export interface WalkedStep {
  readonly section: Section;
  readonly step: Step;
  readonly parent?: Step;
  /** The bullet of the parent it stands in; `branchIndex` counts all branch bullets of the parent. */
  readonly branch?: Branch;
  readonly branchIndex?: number;
}

/** Every step in document order, a step before its substeps, steps inside branches included. */
export function* walkSteps(tree: Procedure): Generator<WalkedStep> {
  for (const section of tree.sections) {
    for (const step of stepsOf(section)) yield* walkStep(section, step, {});
  }
}

function* walkStep(section: Section, step: Step, place: Omit<WalkedStep, 'section' | 'step'>): Generator<WalkedStep> {
  yield { section, step, ...place };
  let bullet = 0;
  for (const child of step.children) {
    if (child.kind === 'substeps') for (const sub of child.steps) yield* walkStep(section, sub, { parent: step });
    else if (child.kind === 'branches') {
      for (const branch of child.branches) yield* walkChildren(section, step, branch.children, branch, bullet++);
    }
  }
}

function* walkChildren(
  section: Section,
  parent: Step,
  children: readonly StepChild[],
  branch: Branch | undefined,
  branchIndex: number | undefined,
): Generator<WalkedStep> {
  const place = { parent, ...(branch ? { branch } : {}), ...(branchIndex === undefined ? {} : { branchIndex }) };
  for (const child of children) {
    if (child.kind === 'substeps') for (const step of child.steps) yield* walkStep(section, step, place);
    else if (child.kind === 'branches')
      for (const inner of child.branches) yield* walkChildren(section, parent, inner.children, branch, branchIndex);
  }
}
