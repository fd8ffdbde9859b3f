/** Computes the label of every step over all variants (F5, house style). What typed labels say is not looked at here. */
import { type Procedure, type Section, type Step, stepsOf, type WalkedStep, walkSteps } from '../format/index.ts';
import type { NumberingStyle } from '../registers/index.ts';
import { subLabel, topLabel } from './label-text.ts';
import type { LabelledStep, Labels } from './model.ts';

export function labelsOf(tree: Procedure, style: NumberingStyle): Labels {
  return labelSequence(walkSteps(tree), tree.sections, style);
}

/**
 * The same over any sequence of steps in document order: a step left out or put in changes the labels after it.
 * All substeps of a step are one sequence, whatever bullet they stand in, so that a label is never given twice.
 */
export function labelSequence(walk: Iterable<WalkedStep>, sections: readonly Section[], style: NumberingStyle): Labels {
  const numbers = sectionNumbers(sections);
  const drafts: Draft[] = [];
  const byStep = new Map<Step, Draft>();
  const counts = new Map<Step | Section | undefined, number>();
  const inBullet = new Map<string, number>();
  for (const { section, step, parent, branchIndex } of walk) {
    const above = parent ? byStep.get(parent) : undefined;
    const sequence = above ? above.step : style.sections === 'continue' && style.steps !== 'decimal' ? undefined : section;
    const ordinal = (counts.get(sequence) ?? 0) + 1;
    counts.set(sequence, ordinal);
    const path = above ? [...above.path, ordinal] : [ordinal];
    const label = above ? subLabel(style, path.length - 1, above.label, ordinal) : topLabel(style, numbers.get(section) ?? 1, ordinal);
    const draft: Draft = { step, section, label, path, ...(above ? { above } : {}), order: drafts.length };
    if (branchIndex !== undefined && above) {
      draft.branch = branchIndex;
      const bullet = `${above.order}:${branchIndex}`;
      draft.restart = (inBullet.get(bullet) ?? 0) + 1;
      inBullet.set(bullet, draft.restart);
    }
    drafts.push(draft);
    byStep.set(step, draft);
  }
  return finish(drafts);
}

interface Draft {
  readonly step: Step;
  readonly section: Section;
  readonly label: string;
  readonly path: readonly number[];
  readonly above?: Draft;
  readonly order: number;
  branch?: number;
  restart?: number;
}

function sectionNumbers(sections: readonly Section[]): Map<Section, number> {
  const numbers = new Map<Section, number>();
  for (const section of sections) if (stepsOf(section).length > 0) numbers.set(section, numbers.size + 1);
  return numbers;
}

function finish(drafts: readonly Draft[]): Labels {
  const sectionsWith = new Map<string, Set<Section>>();
  for (const { label, section } of drafts) {
    const known = sectionsWith.get(label);
    if (known) known.add(section);
    else sectionsWith.set(label, new Set([section]));
  }
  const steps: LabelledStep[] = [];
  const byStep = new Map<Step, LabelledStep>();
  const byId = new Map<string, LabelledStep>();
  for (const { step, section, label, path, above, order, branch, restart } of drafts) {
    const parent = above ? byStep.get(above.step) : undefined;
    const shared = (sectionsWith.get(label)?.size ?? 0) > 1;
    const labelled: LabelledStep = {
      step,
      section,
      label,
      fullLabel: shared ? `${section.title} ${label}` : label,
      path,
      order,
      ...(parent ? { parent } : {}),
      ...(branch === undefined ? {} : { branch }),
      ...(restart === undefined ? {} : { restart }),
    };
    steps.push(labelled);
    byStep.set(step, labelled);
    if (step.id !== undefined && !byId.has(step.id)) byId.set(step.id, labelled);
  }
  return { steps, byStep, byId };
}
