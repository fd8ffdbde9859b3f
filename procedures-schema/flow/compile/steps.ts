/** Steps, branches and sentences to instructions, in the order in which they stand. */
import { type Prose, proseSpan, type Section } from '../../format/index.ts';
import { type Action, type Condition, KNOWN_SOURCE, type Reading, type Sentence } from '../../reading/index.ts';
import { placeOf } from '../code.ts';
import type { FlowPlace, ReadChild, ReadStep } from '../model.ts';
import { compileCall, goTo } from './calls.ts';
import { factsOf } from './facts-of.ts';
import { compileRepeat, compileReverse } from './repeats.ts';
import { branchHere, emit, endHere, type Hole, here, LONGEST, takeOpen, tooMuch, type Unit, withSubject } from './unit.ts';

export function compileSection(unit: Unit, section: Section, steps: readonly ReadStep[]): void {
  const at = here(unit);
  if (!unit.scope.sections.has(section.id)) unit.scope.sections.set(section.id, at);
  for (const step of steps) compileStep(unit, step);
}

export function compileStep(unit: Unit, step: ReadStep): void {
  if (tooMuch(unit, unit.code.length > LONGEST)) return;
  const at = here(unit);
  if (!unit.scope.steps.has(step.at)) unit.scope.steps.set(step.at, at);
  emit(unit, { op: 'step', place: placeOf(unit.read.file, step.at, step.at.step.lead.span), at: step.at });
  compileReading(unit, step.lead, step.at.step.lead, step);
  compileChildren(unit, step.children, step);
}

function compileChildren(unit: Unit, children: readonly ReadChild[], step: ReadStep): void {
  for (const child of children) {
    if (child.kind === 'substeps') for (const sub of child.steps) compileStep(unit, sub);
    else if (child.kind === 'objects')
      for (const [index, reading] of child.items.entries()) compileReading(unit, reading, child.proses?.[index], step);
    else if (child.kind === 'prose')
      compileReading(unit, child.reading, child.child.kind === 'paragraph' ? child.child.prose : undefined, step);
    else compileBranches(unit, child, step);
  }
}

/** Bullets with conditions: the first that holds is taken, exactly one. */
function compileBranches(unit: Unit, child: Extract<ReadChild, { kind: 'branches' }>, step: ReadStep): void {
  const out: Hole[] = [];
  let otherwise = false;
  let subject: string | undefined;
  for (const { branch, condition, lead, children } of child.branches) {
    const conditions = branch.otherwise ? [] : conditionsOf(condition);
    otherwise ||= branch.otherwise;
    const skips: Hole[] = [];
    for (const one of conditions) {
      const decided = withSubject(unit, one);
      if (decided.kind === 'outcome') subject = decided.subject;
      skips.push(branchHere(unit, decided, placeOf(unit.read.file, step.at, branch.span), branch.condition.text));
    }
    compileReading(unit, lead, branch.lead, step);
    compileChildren(unit, children, step);
    out.push(...takeOpen(unit));
    unit.open.push(...skips);
  }
  const every = child.branches.every(({ condition }) => condition.when?.every(({ kind }) => kind === 'variant'));
  // Branches by model alone: one of them has to hold on each (F6). Its subject is none.
  if (every) subject = '';
  if (!otherwise && subject !== undefined)
    emit(unit, { op: 'open', place: placeOf(unit.read.file, step.at, child.branches[0]?.branch.span ?? step.at.step.lead.span), subject });
  unit.open.push(...out);
}

/** Sentences in order; a row of "If" sentences is like bullets, but none true falls through. */
function compileReading(unit: Unit, reading: Reading, prose: Prose | undefined, step: ReadStep): void {
  let row: Hole[] = [];
  for (const sentence of reading.sentences) {
    const shared = sharedConditions(sentence);
    if (shared.length === 0) {
      unit.open.push(...row);
      row = [];
      compileSentence(unit, sentence, prose, step);
      continue;
    }
    const skips: Hole[] = [];
    for (const one of shared) {
      const decided = withSubject(unit, one);
      skips.push(branchHere(unit, decided, placeOf(unit.read.file, step.at, spanOf(prose, sentence, step)), decided.text));
    }
    compileSentence(unit, sentence, prose, step, shared.length);
    row.push(...takeOpen(unit));
    unit.open.push(...skips);
  }
  unit.open.push(...row);
}

function compileSentence(unit: Unit, sentence: Sentence, prose: Prose | undefined, step: ReadStep, sharedCount = 0): void {
  if (sentence.status !== 'read') return;
  // "Renew the seal as in [Renew the seal]": the called section does what the words only name.
  const called = sentence.actions.filter((action) => action.kind === 'call');
  for (const action of sentence.actions) {
    if (action.kind !== 'call' && called.some((call) => call.at === action.at)) continue;
    const own = action.when.slice(sharedCount);
    const span = prose ? proseSpan(prose, action.at, action.end) : step.at.step.lead.span;
    const place = placeOf(unit.read.file, step.at, span, action);
    const skips = own.map((condition) => branchHere(unit, withSubject(unit, condition), place, condition.text));
    compileAction(unit, action, place, step, sentence);
    unit.open.push(...skips);
  }
}

function compileAction(unit: Unit, action: Action, place: FlowPlace, step: ReadStep, sentence: Sentence): void {
  switch (action.kind) {
    case 'go-to':
      return goTo(unit, action, place, step);
    case 'repeat':
      return compileRepeat(unit, action, place, step);
    case 'reverse':
      return compileReverse(unit, action, place, step, sentence);
    case 'call':
      compileCall(unit, action, place, step);
      // What the called steps left is the state in which this step ends.
      if (unit.open.length > 0) emit(unit, { op: 'jump', place });
      return;
    case 'continue-with':
      return endHere(unit, 'hand-over', place);
    case 'stop-and-call':
      return endHere(unit, 'stop and call', place);
    case 'end':
      return endHere(unit, 'normal', place);
    case 'refer':
      return;
    case 'use': {
      // A tool put to a part takes a hand there; a tool only named does nothing.
      const facts = factsOf(unit, step, sentence, action);
      if (facts.nearby.length > 0 || action.manner === KNOWN_SOURCE) emit(unit, { op: 'act', place, action, facts });
      return;
    }
    default:
      if (action.kind === 'measure')
        unit.lastMeasured = action.things.find((use) => use.thing.kind === 'measurement')?.thing.name ?? unit.lastMeasured;
      if (action.kind === 'sense')
        unit.lastMeasured = action.things.find((use) => use.thing.kind === 'measurement')?.thing.name ?? unit.lastMeasured;
      emit(unit, { op: 'act', place, action, facts: factsOf(unit, step, sentence, action) });
  }
}

/** Conditions that all actions of a sentence share from the front: an "If" sentence. */
function sharedConditions(sentence: Sentence): readonly Condition[] {
  const [first, ...rest] = sentence.actions;
  if (!first) return [];
  const shared: Condition[] = [];
  for (const [index, condition] of first.when.entries()) {
    if (rest.some((action) => action.when[index]?.text !== condition.text)) break;
    shared.push(condition);
  }
  return shared;
}

/** What a branch's condition was read as; nothing read is a condition of its own that nobody can decide. */
function conditionsOf(reading: Reading): readonly Condition[] {
  return reading.when ?? [{ kind: 'unread', text: reading.sentences.map((sentence) => sentence.text).join(' ') }];
}

function spanOf(prose: Prose | undefined, sentence: Sentence, step: ReadStep) {
  return prose ? proseSpan(prose, sentence.at, sentence.end) : step.at.step.lead.span;
}
