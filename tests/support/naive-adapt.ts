/** A random procedure as the proof wants it: tree, labels and readings made by hand, each action at a place that tells its number. */
import {
  type Branch,
  emptyProse,
  type LabelledStep,
  type Labels,
  type ProcedureFacts,
  type Prose,
  type Reading,
  type ReadProcedure,
  type ReadStep,
  type Resolved,
  type Section,
  type Sentence,
  type Step,
  type Target,
} from '../../procedures-schema/index.ts';
import type { NaiveAct, NaiveProcedure, NaiveStep } from './naive-procedure.ts';
import { titleAt } from './naive-walk.ts';

/** Every number fits: the prose of a step is as long as the file, and a place in it is a place in the source. */
const LENGTH = 10_000_000;
const text = ' '.repeat(16);
const prose: Prose = { ...emptyProse(0), text, segments: [{ at: 0, source: 0, length: LENGTH }] };
const long = {
  ...prose,
  get text() {
    return LONG;
  },
};
const LONG = { length: LENGTH } as unknown as string;

export function adapt(procedure: NaiveProcedure, facts: ProcedureFacts): ReadProcedure {
  const sections = procedure.sections.map((section, index): Section => {
    const at = titleAt(procedure, section);
    return {
      kind: 'section',
      span: { start: at, end: at + 1 },
      level: 2,
      title: section.title,
      titleSpan: { start: at, end: at + 1 },
      id: `section-${index}`,
      aside: section.aside,
      prose: false,
      blocks: [],
    };
  });
  const labelled = new Map<string, LabelledStep>();
  const steps: ReadStep[] = [];
  for (const [index, section] of procedure.sections.entries())
    for (const [number, step] of section.steps.entries()) {
      const at = labelledStep(step, sections[index] as Section, number, steps.length);
      labelled.set(step.id, at);
      steps.push(readStep(step, at));
    }
  const all = [...labelled.values()];
  const labels: Labels = { steps: all, byStep: new Map(all.map((one) => [one.step, one])), byId: labelled };
  const resolve = (target: Target): Resolved => {
    const dead: Resolved = { kind: 'dead', why: 'none' };
    if (target.kind === 'step-id') return found(labelled.get(target.id), (step) => ({ kind: 'step', step }), dead);
    if (target.kind === 'steps-id') {
      const to = labelled.get(target.to);
      return found(labelled.get(target.from), (from) => (to ? { kind: 'range', from, to } : dead), dead);
    }
    if (target.kind === 'section')
      return found(
        sections.find(({ title }) => title === target.title),
        (section) => ({ kind: 'section', section }),
        dead,
      );
    return target.kind === 'document' ? { kind: 'document', number: target.number } : dead;
  };
  return {
    file: procedure.number,
    head: { ...facts.head, id: procedure.number, startsWith: procedure.startsWith, endsWith: procedure.endsWith },
    sections,
    labels,
    steps,
    measurements: facts.read.measurements,
    resolve,
  };
}

function found<T>(value: T | undefined, then: (value: T) => Resolved, otherwise: Resolved): Resolved {
  return value === undefined ? otherwise : then(value);
}

function labelledStep(step: NaiveStep, section: Section, number: number, order: number): LabelledStep {
  const at = 6_000_000 + order;
  const span = { start: at, end: at + 1 };
  const made = { kind: 'step', span, lead: { ...long, span }, children: [] } as unknown as Step;
  return {
    step: made,
    section,
    label: `${number + 1}`,
    fullLabel: `${section.title} ${number + 1} (${step.id})`,
    path: [number + 1],
    order,
  };
}

function readStep(step: NaiveStep, at: LabelledStep): ReadStep {
  const notices = step.standClear ? [{ word: 'warning', text: 'Stand clear.', standClear: true, span: at.step.span }] : [];
  if (step.line.kind === 'sentences') return { at, lead: readingOf(step.line.acts), notices, children: [] };
  const branches = step.line.branches.map(({ uid, when, act }) => {
    const branch = {
      kind: 'branch',
      span: { start: placed(uid), end: placed(uid) + 1 },
      condition: { ...prose, text: when?.text ?? '' },
      otherwise: when === undefined,
      lead: long,
      children: [],
    } as unknown as Branch;
    return { branch, condition: { sentences: [], ...(when ? { when: [when] } : {}) }, lead: readingOf([act]), children: [] };
  });
  return { at, lead: readingOf([]), notices, children: [{ kind: 'branches', branches }] };
}

function readingOf(acts: readonly NaiveAct[]): Reading {
  return {
    sentences: acts.map(({ uid, action, words }): Sentence => {
      const at = placed(uid);
      return {
        status: 'read',
        text: words,
        at,
        end: at + 5,
        actions: [{ ...action, at, end: at + 5 }],
        unknown: [],
        ambiguous: [],
        mentions: [],
      };
    }),
  };
}

/** Where the action of a number stands. */
export const placed = (uid: number): number => uid * 10;
