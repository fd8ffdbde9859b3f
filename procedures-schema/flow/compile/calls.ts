/** Jumps, and calls of sections, steps and other procedures, copied to where they are called. */
import type { Action } from '../../reading/index.ts';
import type { FlowPlace, ReadStep } from '../model.ts';
import { rangeOf, topSteps } from './sections-of.ts';
import { contains } from './steps-of.ts';
import {
  copySteps,
  DEEPEST,
  emit,
  endHere,
  type Hole,
  jumpTo,
  LONGEST,
  newUnit,
  push,
  type Raw,
  takeOpen,
  tooMuch,
  type Unit,
} from './unit.ts';

export function goTo(unit: Unit, action: Action, place: FlowPlace, step: ReadStep): void {
  const target = action.target;
  if (!target) return;
  const resolved = unit.read.resolve(target, step.at);
  if (resolved.kind === 'step') return jumpTo(unit, place, { step: resolved.step });
  if (resolved.kind === 'range') return jumpTo(unit, place, { step: resolved.from });
  if (resolved.kind === 'section' && resolved.document === undefined) return jumpTo(unit, place, { section: resolved.section.id });
  if (resolved.kind === 'section' || resolved.kind === 'document') return endHere(unit, 'hand-over', place);
}

export function compileCall(unit: Unit, action: Action, place: FlowPlace, step: ReadStep): void {
  if (!action.target) return;
  const resolved = unit.read.resolve(action.target, step.at);
  if (resolved.kind === 'section' && resolved.document === undefined) {
    const { section } = resolved;
    if (unit.depth >= DEEPEST || section === step.at.section || unit.calling.includes(section)) {
      emit(unit, { op: 'violation', place, rule: 'recursion', thing: section.title, missing: [] });
      return;
    }
    unit.depth += 1;
    const before = unit.lastMeasured;
    const { calling } = unit;
    unit.calling = [...calling, step.at.section];
    copySteps(unit, topSteps(unit, section));
    unit.calling = calling;
    unit.lastMeasured = before ?? unit.lastMeasured;
    unit.depth -= 1;
    return;
  }
  if (resolved.kind === 'step' || resolved.kind === 'range') {
    if (tooMuch(unit, unit.depth >= DEEPEST)) return;
    unit.depth += 1;
    const steps = resolved.kind === 'step' ? rangeOf(unit, resolved.step, resolved.step) : rangeOf(unit, resolved.from, resolved.to);
    if (!steps.some((one) => one === step || contains(one, step))) copySteps(unit, steps);
    unit.depth -= 1;
    return;
  }
  const number = resolved.kind === 'document' ? resolved.number : resolved.kind === 'section' ? resolved.document : undefined;
  if (number !== undefined) callProcedure(unit, number, place);
}

function callProcedure(unit: Unit, number: string, place: FlowPlace): void {
  const callers = [...unit.callers, unit.read.head.id];
  if (callers.includes(number)) {
    emit(unit, { op: 'violation', place, rule: 'recursion', thing: number, missing: [] });
    return;
  }
  const other = unit.others(number);
  if (!other || tooMuch(unit, callers.length >= DEEPEST || unit.code.length > LONGEST)) return;
  emit(unit, { op: 'enter', place, number, startsWith: other.head.startsWith });
  const ends: Hole[] = [];
  const before = takeOpen(unit);
  const onEnd = (at: FlowPlace): void => {
    const raw = unit.code[push(unit, { op: 'jump', place: at })] as Raw;
    ends.push((target) => (raw.next = target));
  };
  const called = newUnit(other, unit.others, unit.sheet, callers, onEnd, unit.again);
  for (const hole of before) hole(unit.code.length);
  unit.again.whole(called);
  unit.open.push(...ends);
}
