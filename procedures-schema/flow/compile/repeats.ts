/** Repeats and reverse order: steps copied to where they are done again. */
import { foldText } from '../../format/index.ts';
import type { Action, Condition, Sentence } from '../../reading/index.ts';
import { inverseOf } from '../inverse.ts';
import type { FlowPlace, ReadChild, ReadStep } from '../model.ts';
import { factsOf } from './facts-of.ts';
import { rangeOf, sectionOf, stepBefore, topSteps } from './sections-of.ts';
import { actionsOf, belowOf, contains, ownActions } from './steps-of.ts';
import { copySteps, DEEPEST, emit, type Hole, here, jumpTo, type Raw, takeOpen, type Unit, withSubject } from './unit.ts';

function measures(action: Action, subject: string): boolean {
  return (
    action.things.some((use) => foldText(use.thing.name) === foldText(subject)) &&
    ['measure', 'sense', 'observe', 'prove', 'test-run', 'handle'].includes(action.kind)
  );
}

/** Whether a step reads a measurement, or has branches by what was read. */
function goesByOutcome(step: ReadStep): boolean {
  const reads = actionsOf(step).some(
    ({ kind, things }) => (kind === 'measure' || kind === 'sense') && things.some(({ thing }) => thing.kind === 'measurement'),
  );
  const byOutcome = (child: ReadChild): boolean =>
    child.kind === 'branches' && child.branches.some(({ condition }) => condition.when?.some(({ kind }) => kind === 'outcome'));
  return reads || step.children.some(byOutcome);
}

/** "Repeat steps 4 to 7." and not a word of what for: neither "for the other wheel" nor "twice". */
function saysNoMore(step: ReadStep, repeat: Action): boolean {
  const own = step.at.step.lead.text.slice(repeat.at, repeat.end).toLowerCase();
  const ids = repeat.target ? Object.values(repeat.target).map((one) => String(one).toLowerCase()) : [];
  const words = own
    .split(/[^a-z0-9-]+/)
    .filter((word) => word !== '' && !ids.includes(word) && !/^(?:repeat|from|steps?|section|to|and|then|again|\d+)$/.test(word));
  return words.length === 0;
}

function wordsOf(action: Action): string {
  const things = action.things.map((use) => use.thing.name).join(', ');
  return things === '' ? action.kind : `${action.kind} ${things}`;
}

/** Repeat A to B until c: a copy of A to B, then c is tested; while it does not hold the copy is walked again. */
export function compileRepeat(unit: Unit, action: Action, place: FlowPlace, step: ReadStep): void {
  if (!action.target) return;
  const resolved = unit.read.resolve(action.target, step.at);
  const from = resolved.kind === 'range' ? resolved.from : resolved.kind === 'step' ? resolved.step : undefined;
  // "Repeat from step 4": from there to the step before this one.
  const before = action.manner === 'from' ? stepBefore(unit, step) : undefined;
  const to = resolved.kind === 'range' ? resolved.to : from && before && before.order >= from.order ? before : from;
  const steps =
    from && to
      ? rangeOf(unit, from, to)
      : resolved.kind === 'section' && resolved.document === undefined
        ? topSteps(unit, resolved.section)
        : [];
  if (steps.length === 0) return;
  const until = action.until && withSubject(unit, action.until);
  if (until?.kind === 'outcome' && until.subject !== undefined) {
    const held = steps.some(
      (one) => actionsOf(one).some((other) => measures(other, until.subject as string)) || callsMeasure(unit, one, until.subject as string),
    );
    if (!held) emit(unit, { op: 'violation', place, rule: 'repeat-unmeasured', thing: until.subject, missing: [until.subject] });
  }
  // What is repeated goes by what is read, and nothing says when it is enough.
  if (!action.until && saysNoMore(step, action) && steps.some(goesByOutcome))
    emit(unit, { op: 'violation', place, rule: 'repeat-unmeasured', thing: '', missing: [] });
  if (unit.depth >= DEEPEST || steps.some((one) => one === step || contains(one, step))) {
    // A range that holds its own repeat is a jump back; the condition leaves it.
    const skip = until ? branchOut(unit, until, place) : undefined;
    if (from) jumpTo(unit, place, { step: from });
    if (skip) unit.open.push(skip);
    return;
  }
  unit.depth += 1;
  // Whoever comes to the repeat with the value already right does not begin it.
  let ready: Hole | undefined;
  if (until?.kind === 'outcome' && until.subject !== undefined) {
    const at = emit(unit, { op: 'branch', place, condition: until, note: until.text, ifKnown: true });
    const raw = unit.code[at] as Raw;
    unit.open = [(target) => (raw.no = target)];
    ready = (target) => (raw.yes = target);
  }
  const start = here(unit);
  copySteps(unit, steps);
  if (until) {
    const leave = branchOut(unit, until, place);
    const back = emit(unit, { op: 'jump', place });
    takeOpen(unit);
    (unit.code[back] as Raw).next = start;
    unit.open.push(leave);
  }
  if (ready) unit.open.push(ready);
  unit.depth -= 1;
}

/** A branch whose yes is the way out; code goes on where it does not hold. */
function branchOut(unit: Unit, condition: Condition, place: FlowPlace): Hole {
  const at = emit(unit, { op: 'branch', place, condition, note: condition.text });
  const raw = unit.code[at] as Raw;
  unit.open = [(target) => (raw.no = target)];
  return (target) => (raw.yes = target);
}

function callsMeasure(unit: Unit, step: ReadStep, subject: string, depth = 0): boolean {
  if (depth > 4) return false;
  return actionsOf(step).some((action) => {
    if (action.kind !== 'call' || !action.target) return false;
    const section = sectionOf(unit, action.target, step.at);
    if (!section) return true; // another procedure may measure it
    return topSteps(unit, section).some(
      (one) => actionsOf(one).some((other) => measures(other, subject)) || callsMeasure(unit, one, subject, depth + 1),
    );
  });
}

export function compileReverse(unit: Unit, action: Action, place: FlowPlace, step: ReadStep, sentence: Sentence): void {
  const resolved = action.target ? unit.read.resolve(action.target, step.at) : undefined;
  const steps =
    resolved?.kind === 'range'
      ? rangeOf(unit, resolved.from, resolved.to)
      : resolved?.kind === 'step'
        ? [unit.byStep.get(resolved.step)].filter((one) => one !== undefined)
        : resolved?.kind === 'section' && resolved.document === undefined
          ? topSteps(unit, resolved.section)
          : [];
  if (steps.length === 0) {
    emit(unit, { op: 'violation', place, rule: 'reverse-unsaid', thing: sentence.text, missing: [] });
    return;
  }
  const done = steps.flatMap((one) => [...belowOf(one), one].sort((a, b) => a.at.order - b.at.order).flatMap(ownActions));
  for (const one of [...done].reverse()) {
    const inverse = inverseOf(one);
    if (inverse === 'none') emit(unit, { op: 'violation', place, rule: 'reverse-unsaid', thing: wordsOf(one), missing: [] });
    else if (inverse !== 'nothing')
      emit(unit, { op: 'act', place: { ...place, action: inverse }, action: inverse, facts: factsOf(unit, step, sentence, inverse) });
  }
}
