/** Whoever adjusts because of a reading reads again: M6. That both ways out of the limits have a branch is outcome-answered. */
import type { ReadStep } from '../flow/index.ts';
import type { LabelledStep } from '../numbering/index.ts';
import type { Action } from '../reading/index.ts';
import type { ProcedureCheck, ProcedureFacts } from './check.ts';
import { type ActionPlace, eachAction } from './visit.ts';

const front =
  'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}';
const branches =
  '#. {#read} Measure the [scraper gap] with the [feeler gauge].\n   - If it is within the limits, go on with [step #on].\n   - If it is under or over the limits, adjust the [scraper].';
const ADJUSTS: readonly Action['kind'][] = ['adjust', 'loosen', 'tighten', 'move', 'call'];

export const adjustedAgain: ProcedureCheck = {
  id: 'adjusted-again',
  scope: 'procedure',
  severity: 'warning',
  question: 'Is a value read again after something was adjusted because of it?',
  why: 'An adjustment that nobody measures is a guess.',
  source: 'rule M6: common practice, no source',
  cases: [
    { name: 'adjusted and closed up', finds: 1, front, work: `${branches}\n#. {#on} Clean the [scraper].` },
    {
      name: 'repeated until it is right',
      finds: 0,
      front,
      work: `${branches}\n#. Repeat [step #read] until the [scraper gap] is within the limits.\n#. {#on} Clean the [scraper].`,
    },
    {
      name: 'repeated once, and adjusted again at its end',
      finds: 1,
      front,
      work: `${branches}\n#. Repeat [step #read].\n#. {#on} Clean the [scraper].`,
    },
    {
      name: 'sent back to the reading',
      finds: 0,
      front,
      work: `${branches.replace('adjust the [scraper].', 'adjust the [scraper] and go to [step #read].')}\n#. {#on} Clean the [scraper].`,
    },
  ],
  *run(facts) {
    const places = eachAction(facts.read);
    for (const { at, branch } of branchesOf(facts.read.steps)) {
      const asked = branch.condition.when?.find((one) => one.kind === 'outcome' && ['under', 'over', 'not-within'].includes(one.outcome));
      if (asked?.kind !== 'outcome') continue;
      const done = branch.lead.sentences.flatMap((sentence) => sentence.actions);
      if (!done.some((action) => ADJUSTS.includes(action.kind))) continue;
      const subject = asked.subject ?? lastRead(places, at);
      if (subject === undefined || readAgain(facts, places, at, done, subject)) continue;
      yield {
        file: facts.file,
        span: branch.branch.lead.span,
        message: `Step ${at.fullLabel} adjusts because of ${subject}, and nothing reads ${subject} again.`,
        actual: branch.branch.lead.text,
        expected: `"Repeat ... until ${subject} is within the limits", or a way back to the step that reads it`,
        steps: [at.fullLabel],
      };
    }
  },
};

type ReadBranch = Extract<ReadStep['children'][number], { kind: 'branches' }>['branches'][number];

function* branchesOf(steps: readonly ReadStep[]): Iterable<{ readonly at: LabelledStep; readonly branch: ReadBranch }> {
  for (const { at, children } of steps)
    for (const child of children) {
      if (child.kind === 'substeps') yield* branchesOf(child.steps);
      if (child.kind === 'branches') for (const branch of child.branches) yield { at, branch };
    }
}

const lastRead = (places: readonly ActionPlace[], at: LabelledStep): string | undefined =>
  places
    .filter(({ step, action }) => step.order <= at.order && (action.kind === 'measure' || action.kind === 'sense'))
    .flatMap(({ action }) => action.things.filter(({ thing }) => thing.kind === 'measurement').map(({ thing }) => thing.name))
    .at(-1);

/** In the branch, later in the section, or in what is called. */
function readAgain(
  facts: ProcedureFacts,
  places: readonly ActionPlace[],
  at: LabelledStep,
  done: readonly Action[],
  subject: string,
): boolean {
  const reads = (action: Action): boolean =>
    (action.kind === 'measure' || action.kind === 'sense' || action.kind === 'observe') &&
    action.things.some(({ thing }) => thing.name === subject);
  const later = places.filter(({ step }) => step.section === at.section && step.order > at.order);
  if (
    later.some(
      ({ action, step }) =>
        reads(action) ||
        (action.until?.kind === 'outcome' && (action.until.subject ?? subject) === subject) ||
        (action.kind === 'repeat' && (action.until !== undefined || !holds(facts, action, step, at))),
    )
  )
    return true;
  for (const action of done) {
    if (reads(action)) return true;
    if (action.target === undefined) continue;
    const to = facts.read.resolve(action.target, at);
    if (to.kind === 'document') return true;
    if (to.kind === 'step' && (to.step.order <= at.order || placesFrom(places, to.step).some(({ action: other }) => reads(other))))
      return true;
    if (
      to.kind === 'range' ||
      (to.kind === 'section' &&
        places.some(({ step, action: other }) => step.section === to.section && (reads(other) || other.kind === 'repeat')))
    )
      return true;
  }
  return false;
}

/** A repeat without "until" that holds the step adjusts once more at its end, and then nothing reads. */
function holds(facts: ProcedureFacts, repeat: Action, from: LabelledStep, at: LabelledStep): boolean {
  if (repeat.target === undefined) return false;
  const to = facts.read.resolve(repeat.target, from);
  if (to.kind === 'range') return to.from.order <= at.order && at.order <= to.to.order;
  if (to.kind === 'step') return to.step === at || (repeat.manner === 'from' && to.step.order <= at.order);
  return to.kind === 'section' && to.section === at.section;
}

const placesFrom = (places: readonly ActionPlace[], from: LabelledStep): readonly ActionPlace[] =>
  places.filter(({ step }) => step.section === from.section && step.order >= from.order);
