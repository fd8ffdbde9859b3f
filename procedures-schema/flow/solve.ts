/**
 * Walks every way through the instructions on one machine, shortest first, each (instruction, state) once, up to a counted bound.
 * Yields breaches with the walk that leads there. Knows no rule: effects and ends ask those.
 */
import type { WalkAnswer } from '../finding.ts';
import type { LabelledStep } from '../numbering/index.ts';
import type { Variant } from '../registers/index.ts';
import { bandOf, reaching, worse } from './band.ts';
import { type Answer, answerKey, doubtsAt, type Edge, type Found, foundFrom, type Report, type Visit, walkOf, waysTo } from './causes.ts';
import type { Instruction, Program } from './code.ts';
import { leftBy, waysOf } from './decide.ts';
import type { Breach, Doing } from './effects/doing.ts';
import { act } from './effects/effects.ts';
import { ALL_OUTCOMES, measuredBy } from './effects/measured.ts';
import { askAtEnd } from './ends.ts';
import type { Band, FlowPlace, Rule } from './model.ts';
import { missingOfLockOut, stillOpen } from './safety.ts';
import { type Slice, wholeSlice } from './slices.ts';
import { keyOf, type Layout, type State, startState } from './state.ts';

export const BOUND = 200_000;

export interface Solved {
  readonly found: readonly Found[];
  readonly states: number;
  readonly transitions: number;
  /** Why not every walk was looked at; undefined: every one was. */
  readonly bounded: string | undefined;
  /** Instructions some walk reached. */
  readonly reached: ReadonlySet<number>;
  /** The worst in which each step is begun, and the worst until its end. */
  readonly bands: ReadonlyMap<LabelledStep, Band>;
  readonly during: ReadonlyMap<LabelledStep, Band>;
  /** What some walk told here answers in two ways (answerKey). */
  readonly doubts: ReadonlySet<string>;
}

export interface SolveInput {
  readonly program: Program;
  readonly layout: Layout;
  readonly start: State;
  readonly variant: Variant;
  readonly doingOf: (instruction: Extract<Instruction, { op: 'act' }>) => Doing;
  readonly possible: (subject: string) => number;
  /** Bits nobody reads any more after an instruction, set to zero so that states meet again. */
  readonly forget: (node: number, state: State) => State;
}

/** `slice` says which breaches are told; `most` how many states may be met. */
export function solve(input: SolveInput, slice: Slice = wholeSlice(input.layout), most: number = BOUND): Solved {
  const { program, layout } = input;
  /** By instruction, then by state: the walk meets each pair once. In the order met, shortest first. */
  const seen = program.code.map(() => new Map<string, Visit>());
  const met: Visit[] = [];
  const reports: Report[] = [];
  const reached = new Set<number>();
  const bands = new Map<LabelledStep, Band>();
  const during = new Map<LabelledStep, Band>();
  const rows = reaching(program, layout.table);
  const ends: Visit[] = [];
  const witnesses: Visit[] = [];
  let transitions = 0;
  let bounded = false;
  let level: Visit[] = [];
  let next: Visit[] = [];

  const opened = new Set<string>();

  const go = (visit: Visit, node: number, state: State, given?: WalkAnswer, step = false, unsaid = visit.unsaid, answer?: Answer): void => {
    transitions += 1;
    const edge: Edge = { from: visit, given, answer };
    const after = input.forget(node, state);
    const key = unsaid ? `${keyOf(after)}?` : keyOf(after);
    const own = seen[node];
    // A jump to nowhere ends the walk.
    if (!own) return;
    const known = own.get(key);
    if (known) {
      known.edges.push(edge);
      return;
    }
    if (met.length >= most) {
      bounded = true;
      return;
    }
    const told = answer ? { answer, before: visit.told } : visit.told;
    const made: Visit = { node, state: after, edges: [edge], steps: visit.steps + (step ? 1 : 0), root: false, unsaid, told };
    own.set(key, made);
    met.push(made);
    (step ? next : level).push(made);
  };
  const report = (visit: Visit, breach: Breach, at: FlowPlace): void => {
    if (!visit.unsaid && slice.tells(breach)) reports.push({ visit, breach, at });
  };

  /** How bad it is at a step; the walk that shows it must be one that can be walked. */
  const meetStep = (into: Map<LabelledStep, Band>, at: LabelledStep | undefined, visit: Visit, state: State): void => {
    if (!slice.energy || at === undefined) return;
    const before = into.get(at);
    if (before === 'live') return;
    const after = worse(before, bandOf(layout, state, rows));
    if (after === before) return;
    into.set(at, after);
    witnesses.push(visit);
  };

  /** The start that a procedure asks for; where it is not there, that is told once and taken as there. */
  const enter = (visit: Visit, number: string, startsWith: string, place: FlowPlace, next: number): void => {
    const missing =
      startsWith === 'opened and locked out'
        ? layout.table.sources.map((row) => missingOfLockOut(layout, visit.state, row)).find((one) => one !== undefined)
        : // A call is walked with the state that its caller left, so a machine that is safer than closed needs no word.
          program.visit
          ? stillOpen(layout, visit.state)
          : undefined;
    if (missing === undefined) return go(visit, next, visit.state);
    report(visit, { rule: 'starts-with', thing: number, missing: [missing.words], bits: missing.bits, severity: 'error' }, place);
    // What follows from a start that is not there is that slip again.
    const start = startState(layout, startsWith);
    const answers = layout.facts.length + layout.outcomes.length;
    start.set(visit.state.subarray(layout.outcome, layout.outcome + answers), layout.outcome);
    go(visit, next, start, undefined, false, true);
  };

  const root: Visit = { node: program.entry, state: input.start, edges: [], steps: 0, root: true, unsaid: false, told: undefined };
  level.push(root);
  seen[program.entry]?.set(keyOf(input.start), root);
  met.push(root);
  while (level.length > 0) {
    // The level grows while it is walked: instructions that are no step cost nothing.
    for (let index = 0; index < level.length; index += 1) {
      const visit = level[index] as Visit;
      const instruction = program.code[visit.node];
      if (!instruction) continue;
      reached.add(visit.node);
      const { state } = visit;
      switch (instruction.op) {
        case 'step':
          meetStep(bands, instruction.at, visit, state);
          meetStep(during, instruction.at, visit, state);
          go(visit, instruction.next, state, undefined, true);
          break;
        case 'jump':
          // The end of a call; other jumps change nothing within their step.
          if (instruction.place.action?.kind === 'call') meetStep(during, instruction.place.step, visit, state);
          go(visit, instruction.next, state);
          break;
        case 'act': {
          const done = act(layout, state, input.doingOf(instruction));
          for (const breach of done.breaches) report(visit, breach, instruction.place);
          if (done.state !== state) meetStep(during, instruction.place.step, visit, done.state);
          go(visit, instruction.next, done.state, undefined, false, visit.unsaid, anewBy(instruction, layout));
          break;
        }
        case 'branch': {
          const ways = waysOf(instruction.condition, layout, state, input.variant, input.possible);
          if (ways === 'unmeasured' && instruction.ifKnown) {
            go(visit, instruction.no, state);
            break;
          }
          if (ways === 'unmeasured') {
            const subject = instruction.condition.kind === 'outcome' ? (instruction.condition.subject ?? '') : '';
            report(visit, { rule: 'outcome-unread', thing: subject, missing: [subject], bits: [], severity: 'error' }, instruction.place);
            go(visit, instruction.yes, state, answered(instruction, true));
            go(visit, instruction.no, state, answered(instruction, false));
            break;
          }
          for (const way of ways) {
            go(
              visit,
              way.holds ? instruction.yes : instruction.no,
              way.state,
              answered(instruction, way.holds),
              false,
              visit.unsaid,
              answerOf(instruction, way.holds, input),
            );
          }
          break;
        }
        case 'open': {
          if (instruction.subject === '') {
            const missing = [input.variant.name];
            report(visit, { rule: 'outcome-open', thing: '', missing, bits: [], severity: 'error' }, instruction.place);
            go(visit, instruction.next, state, undefined, false, true);
            break;
          }
          const at = layout.outcomes.indexOf(instruction.subject);
          const left = at < 0 ? 0 : (state[layout.outcome + at] ?? 0) & input.possible(instruction.subject);
          // What was found out steps ago may leave nothing over: then this way is none, and the next search remembers it.
          if (left !== 0 && layout.loose.has(instruction.subject)) opened.add(answerKey('outcome', instruction.subject));
          if (left !== 0)
            report(
              visit,
              { rule: 'outcome-open', thing: instruction.subject, missing: outcomeWords(left), bits: [], severity: 'error' },
              instruction.place,
            );
          go(visit, instruction.next, state, undefined, false, visit.unsaid || left !== 0);
          break;
        }
        case 'enter':
          enter(visit, instruction.number, instruction.startsWith, instruction.place, instruction.next);
          break;
        case 'between': {
          ends.push(visit);
          const { number, startsWith, place } = instruction;
          const away = layout.table.sources.flatMap((row) => missingOfLockOut(layout, state, row) ?? []);
          // Stopped on the way, the machine may be left closed, or locked out; left for good, it is closed.
          if (away.length > 0) for (const breach of askAtEnd(layout, state, 'normal', 'closed')) report(visit, breach, place);
          else if (number === undefined) report(visit, leftLockedOut(layout), place);
          if (number !== undefined) enter(visit, number, startsWith, place, instruction.next);
          break;
        }
        case 'violation':
          report(
            visit,
            { rule: instruction.rule as Rule, thing: instruction.thing, missing: instruction.missing, bits: [], severity: 'error' },
            instruction.place,
          );
          go(visit, instruction.next, state);
          break;
        case 'end':
          ends.push(visit);
          for (const breach of askAtEnd(layout, state, instruction.end, instruction.endsWith)) report(visit, breach, instruction.place);
          break;
      }
    }
    level = next;
    next = [];
  }
  const found = foundFrom(reports, program);
  if (!bounded && slice.whole) found.push(...deadEnds(program, met, ends));
  const doubts = new Set([...opened, ...found.flatMap((one) => one.doubts)]);
  for (const visit of witnesses) for (const key of doubtsAt(visit)) doubts.add(key);
  return { found, states: met.length, transitions, bounded: bounded ? `after ${most} states` : undefined, reached, bands, during, doubts };
}

/** What the state does not hold is free each time it is asked; the walk remembers how it was answered. */
const answered = ({ note }: Extract<Instruction, { op: 'branch' }>, yes: boolean): WalkAnswer => ({
  asked: note.replace(/[.,:;]+$/, ''),
  yes,
});

function answerOf({ condition }: Extract<Instruction, { op: 'branch' }>, holds: boolean, input: SolveInput): Answer | undefined {
  const { layout, possible } = input;
  if (condition.kind === 'fact' && !layout.facts.includes(condition.key))
    return { keys: [answerKey('fact', condition.key)], left: holds !== condition.negated ? 1 : 2, anew: false };
  if (condition.kind === 'outcome' && condition.subject !== undefined && layout.loose.has(condition.subject))
    return {
      keys: [answerKey('outcome', condition.subject)],
      left: leftBy(condition.outcome, holds) & possible(condition.subject),
      anew: false,
    };
  return undefined;
}

/** Measured again, it may come out in any way. */
function anewBy({ action }: Extract<Instruction, { op: 'act' }>, layout: Layout): Answer | undefined {
  if (layout.loose.size === 0) return undefined;
  const keys = measuredBy(action).flatMap((name) => (layout.loose.has(name) ? [answerKey('outcome', name)] : []));
  return keys.length === 0 ? undefined : { keys, left: ALL_OUTCOMES, anew: true };
}

/** The last procedure of a visit leaves the machine locked out, and none closes it. */
function leftLockedOut(layout: Layout): Breach {
  return {
    rule: 'ends-with',
    thing: layout.table.machine.name,
    missing: ['the machine is left opened and locked out'],
    bits: [],
    severity: 'error',
  };
}

/** Rule 18: a state met from which no end can be reached. One violation, for the walk that is lost first. */
function deadEnds(program: Program, visits: Iterable<Visit>, ends: readonly Visit[]): Found[] {
  const out = new Set(ends);
  const queue = [...ends];
  for (let visit = queue.pop(); visit; visit = queue.pop())
    for (const { from } of visit.edges)
      if (!out.has(from)) {
        out.add(from);
        queue.push(from);
      }
  let lost: Visit | undefined;
  // Visits come shortest first.
  for (const visit of visits)
    if (!visit.unsaid && !out.has(visit)) {
      lost = visit;
      break;
    }
  const instruction = lost && program.code[lost.node];
  if (!lost || !instruction) return [];
  return [
    {
      breach: { rule: 'no-way-out', thing: instruction.place.step?.fullLabel ?? '', missing: [], bits: [], severity: 'error' },
      at: instruction.place,
      cause: undefined,
      // A step that is not begun yet is not on the walk.
      walk: walkOf(waysTo(lost).slice(0, instruction.op === 'step' ? -1 : undefined), program),
      length: lost.steps,
      doubts: doubtsAt(lost),
    },
  ];
}

function outcomeWords(bits: number): string[] {
  return [
    [1, 'under the limit'],
    [2, 'within the limits'],
    [4, 'over the limit'],
    [8, 'pass'],
    [16, 'fail'],
  ].flatMap(([bit, words]) => ((bits & (bit as number)) !== 0 ? [words as string] : []));
}
