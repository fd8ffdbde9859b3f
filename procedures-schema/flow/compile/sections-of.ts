/** Where steps stand in the procedure being compiled: steps of a section, ranges, what follows what, and which sections are called. */
import type { Section } from '../../format/index.ts';
import type { LabelledStep } from '../../numbering/index.ts';
import type { Target } from '../../reading/index.ts';
import type { ReadStep } from '../model.ts';
import { actionsOf, belowOf } from './steps-of.ts';
import type { Unit } from './unit.ts';

export function topSteps(unit: Unit, section: Section): readonly ReadStep[] {
  const known = unit.tops.get(section);
  if (known) return known;
  const made = unit.read.steps.filter((step) => step.at.section === section);
  unit.tops.set(section, made);
  return made;
}

/** Which top step of its section holds a step; -1: none. */
export function topOf(unit: Unit, step: ReadStep): number {
  if (unit.places.size === 0)
    for (const section of unit.read.sections)
      for (const [index, top] of topSteps(unit, section).entries()) for (const one of [top, ...belowOf(top)]) unit.places.set(one, index);
  return unit.places.get(step) ?? -1;
}

/** Top steps of a section that a test run stands in or under. */
export function testRuns(unit: Unit, section: Section): readonly number[] {
  const known = unit.runs.get(section);
  if (known) return known;
  const made = topSteps(unit, section).flatMap((one, index) => (actionsOf(one).some(({ kind }) => kind === 'test-run') ? [index] : []));
  unit.runs.set(section, made);
  return made;
}

export function rangeOf(unit: Unit, from: LabelledStep, to: LabelledStep): readonly ReadStep[] {
  const [low, high] = from.order <= to.order ? [from, to] : [to, from];
  const all = [...unit.byStep.values()].filter(({ at }) => at.order >= low.order && at.order <= high.order);
  // A parent brings its substeps along.
  const held = new Set(all);
  const covered = new Set<ReadStep>();
  for (const step of all) for (const below of belowOf(step)) if (held.has(below)) covered.add(below);
  const last = high.order;
  return all.filter((step) => !covered.has(step) && step.at.order <= last).sort((a, b) => a.at.order - b.at.order);
}

export function stepBefore(unit: Unit, step: ReadStep): LabelledStep | undefined {
  return topSteps(unit, step.at.section)[topOf(unit, step) - 1]?.at;
}

export function sectionOf(unit: Unit, target: Target, from: LabelledStep): Section | undefined {
  const resolved = unit.read.resolve(target, from);
  return resolved.kind === 'section' && resolved.document === undefined ? resolved.section : undefined;
}

/** Sections of this file that are called ("as in"), which must be asides. */
export function calledSections(unit: Unit): Set<string> {
  const out = new Set<string>();
  for (const step of unit.byStep.values())
    for (const action of actionsOf(step))
      if (action.kind === 'call' && action.target?.kind === 'section' && action.target.document === undefined) {
        const section = sectionOf(unit, action.target, step.at);
        if (section) out.add(section.id);
      }
  return out;
}

export function lastNormalStep(unit: Unit): LabelledStep | undefined {
  const normal = unit.read.steps.filter((step) => !step.at.section.aside);
  return normal.at(-1)?.at;
}

export function sectionAfter(unit: Unit, section: Section): Section | undefined {
  const at = unit.read.sections.indexOf(section);
  return unit.read.sections.slice(at + 1).find((later) => !later.prose && !later.aside && topSteps(unit, later).length > 0);
}
