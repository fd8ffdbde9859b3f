/** Every stretch of running text of a procedure with the step or section it stands in. */
import type { Block, Procedure, Prose, Section, Step, StepChild } from '../format/index.ts';

export interface PlacedProse {
  readonly prose: Prose;
  readonly section?: Section;
  readonly step?: Step;
}

export function eachProse(tree: Procedure): readonly PlacedProse[] {
  const out: PlacedProse[] = [];
  const add = (prose: Prose, section: Section | undefined, step: Step | undefined): void => {
    if (prose.text !== '') out.push({ prose, ...(section ? { section } : {}), ...(step ? { step } : {}) });
  };
  const block = (one: Block, section: Section | undefined, step: Step | undefined): void => {
    switch (one.kind) {
      case 'paragraph':
        add(one.prose, section, step);
        return;
      case 'steps':
        for (const inner of one.steps) readStep(inner, section);
        return;
      case 'bullets':
        for (const item of one.items) {
          add(item.prose, section, step);
          for (const inner of item.blocks) block(inner, section, step);
        }
        return;
      case 'notice':
        for (const inner of one.blocks) block(inner, section, step);
        return;
      case 'table':
        for (const cell of one.head) add(cell.prose, section, step);
        for (const row of one.rows) for (const cell of row.cells) add(cell.prose, section, step);
        return;
      default:
        return;
    }
  };
  const child = (one: StepChild, section: Section | undefined, step: Step): void => {
    if (one.kind === 'substeps') for (const sub of one.steps) readStep(sub, section);
    else if (one.kind === 'objects') {
      for (const item of one.items) add(item.prose, section, step);
    } else if (one.kind === 'branches') {
      for (const branch of one.branches) {
        add(branch.condition, section, step);
        add(branch.lead, section, step);
        for (const inner of branch.children) child(inner, section, step);
      }
    } else block(one, section, step);
  };
  const readStep = (step: Step, section: Section | undefined): void => {
    add(step.lead, section, step);
    for (const one of step.children) child(one, section, step);
  };
  for (const one of tree.preface) block(one, undefined, undefined);
  for (const section of tree.sections) for (const one of section.blocks) block(one, section, undefined);
  return out;
}
