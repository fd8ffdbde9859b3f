/** One procedure as it is compiled, for itself or as a callee: its instructions, its open jumps, and where jumps to steps and sections lead. */
import type { Section } from '../../format/index.ts';
import type { LabelledStep } from '../../numbering/index.ts';
import type { Condition } from '../../reading/index.ts';
import { type EndKind, type Instruction, placeOf } from '../code.ts';
import type { FlowPlace, ReadProcedure, ReadStep } from '../model.ts';
import { indexSteps } from './steps-of.ts';

/** One procedure being compiled, as the whole or as a callee. */
export interface Unit {
  readonly tests: Map<ReadStep, { readonly standClear: boolean; readonly test: boolean }>;
  readonly tops: Map<Section, readonly ReadStep[]>;
  readonly places: Map<ReadStep, number>;
  readonly runs: Map<Section, readonly number[]>;
  readonly read: ReadProcedure;
  readonly others: CompileInput['others'];
  readonly sheet: Sheet;
  readonly code: Raw[];
  readonly callers: readonly string[];
  readonly onEnd: ((place: FlowPlace) => void) | undefined;
  readonly byStep: Map<LabelledStep, ReadStep>;
  readonly again: Again;
  scope: Scope;
  /** Jumps that wait for the next instruction. */
  open: Hole[];
  lastMeasured: string | undefined;
  depth: number;
  /** Sections from which a section is being called: to call one of them again is to go in circles. */
  calling: readonly Section[];
}

/** What repeats and calls go back to: a step made once more, another procedure made whole. */
export interface Again {
  readonly step: (unit: Unit, step: ReadStep) => void;
  readonly whole: (unit: Unit) => void;
}

export function newUnit(
  read: ReadProcedure,
  others: CompileInput['others'],
  sheet: Sheet,
  callers: readonly string[],
  onEnd: ((place: FlowPlace) => void) | undefined,
  again: Again,
): Unit {
  const byStep = new Map<LabelledStep, ReadStep>();
  for (const step of read.steps) indexSteps(step, byStep);
  return {
    tests: new Map(),
    tops: new Map(),
    places: new Map(),
    runs: new Map(),
    read,
    others,
    sheet,
    code: sheet.code,
    callers,
    onEnd,
    byStep,
    again,
    scope: newScope(undefined),
    open: [],
    lastMeasured: undefined,
    depth: 0,
    calling: [],
  };
}

export const DEEPEST = 12;

/** Instructions one procedure may grow to with all that it calls. Past this, or past DEEPEST, the program says that it was cut. */
export const LONGEST = 60_000;

/** The instructions as they are made; one for a procedure and all that it calls. */
export interface Sheet {
  readonly code: Raw[];
  /** Something was too long or too deep to be copied in: whatever is found holds, and nothing is proved. */
  cut: boolean;
}

export type Hole = (target: number) => void;

/** An instruction before its jumps are known. */
export type Raw = { -readonly [K in keyof Instruction]: Instruction[K] } & { next?: number; yes?: number; no?: number };

export interface CompileInput {
  readonly procedure: ReadProcedure;
  readonly others: (number: string) => ReadProcedure | undefined;
}

/** Where jumps to steps and sections lead, in one copy of the code. */
interface Scope {
  readonly steps: Map<LabelledStep, number>;
  readonly sections: Map<string, number>;
  readonly waiting: { readonly step?: LabelledStep; readonly section?: string; readonly hole: Hole }[];
  readonly outer: Scope | undefined;
}

function newScope(outer: Scope | undefined): Scope {
  return { steps: new Map(), sections: new Map(), waiting: [], outer };
}

/** Appends an instruction; all open jumps lead to it, and it opens its own. */
export function emit(unit: Unit, instruction: Omit<Raw, 'next'> | Record<string, unknown>): number {
  const at = push(unit, instruction);
  for (const hole of takeOpen(unit)) hole(at);
  const raw = unit.code[at] as Raw;
  unit.open = [(target) => (raw.next = target)];
  return at;
}

export function push(unit: Unit, instruction: Record<string, unknown>): number {
  unit.code.push(instruction as unknown as Raw);
  return unit.code.length - 1;
}

export function takeOpen(unit: Unit): Hole[] {
  const holes = unit.open;
  unit.open = [];
  return holes;
}

export function here(unit: Unit): number {
  return unit.code.length;
}

export function tooMuch(unit: Unit, is: boolean): boolean {
  unit.sheet.cut ||= is;
  return is;
}

export function branchHere(unit: Unit, condition: Condition, place: FlowPlace, note: string): Hole {
  const at = emit(unit, { op: 'branch', place, condition, note });
  const raw = unit.code[at] as Raw;
  unit.open = [(target) => (raw.yes = target)];
  return (target) => (raw.no = target);
}

export function endHere(unit: Unit, end: EndKind, place: FlowPlace): void {
  if (unit.onEnd && (end === 'normal' || end === 'hand-over')) {
    const at = unit.code.length;
    const holes = takeOpen(unit);
    unit.onEnd(place);
    for (const hole of holes) hole(at);
    return;
  }
  emit(unit, { op: 'end', place, end, endsWith: unit.read.head.endsWith ?? '' });
  takeOpen(unit);
}

export function jumpTo(unit: Unit, place: FlowPlace, to: { step?: LabelledStep; section?: string }): void {
  const at = emit(unit, { op: 'jump', place });
  takeOpen(unit);
  const raw = unit.code[at] as Raw;
  unit.scope.waiting.push({ ...to, hole: (target) => (raw.next = target) });
}

export function settleJumps(unit: Unit): void {
  for (const { step, section, hole } of unit.scope.waiting) {
    const target = step ? unit.scope.steps.get(step) : unit.scope.sections.get(section ?? '');
    if (target !== undefined) hole(target);
    else {
      // A dead target is told by its own check; here the walk just ends.
      const at = push(unit, { op: 'end', place: placeOf(unit.read.file, step, { start: 0, end: 0 }), end: 'stop and call', endsWith: '' });
      hole(at);
    }
  }
  unit.scope.waiting.length = 0;
}

export function withSubject(unit: Unit, condition: Condition): Condition {
  if (condition.kind !== 'outcome' || condition.subject !== undefined || unit.lastMeasured === undefined) return condition;
  return { ...condition, subject: unit.lastMeasured };
}

/** Steps compiled again with jump targets of their own; what they do not hold leads to the code around. */
export function copySteps(unit: Unit, steps: readonly ReadStep[]): void {
  const outer = unit.scope;
  unit.scope = newScope(outer);
  for (const step of steps) unit.again.step(unit, step);
  const inner = unit.scope;
  unit.scope = outer;
  for (const jump of inner.waiting) {
    const own = jump.step ? inner.steps.get(jump.step) : undefined;
    if (own !== undefined) jump.hole(own);
    else outer.waiting.push(jump);
  }
}
