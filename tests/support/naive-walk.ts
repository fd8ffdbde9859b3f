/**
 * The naive checker: walks a random procedure on one machine through its whole state graph, step by step, with a stack for calls and
 * repeats, nothing forgotten, grouped or copied. What actions do and what ends ask is said beside it.
 * Long because calls, repeats and jumps share one stack.
 */
import type { Condition, Variant } from '../../procedures-schema/index.ts';
import { doNaive, type Slip, type World } from './naive-effects.ts';
import { type NaiveEnd, notClosed, notLockedOut, owedAt } from './naive-ends.ts';
import type { NaiveAct, NaiveFinding, NaiveProcedure, NaiveSection, NaiveStep } from './naive-procedure.ts';
import { answersOf, causeOf, copyOf, get, keep, keyOf, type Naive, startOf } from './naive-state.ts';

export interface NaiveResult {
  readonly findings: readonly NaiveFinding[];
  readonly reached: ReadonlySet<string>;
  readonly states: number;
  /** Too many states to walk them all. */
  readonly bounded: boolean;
}

/** Where a walk stands in one list of steps: a section walked on the whole, or one called, or a range repeated. */
interface Frame {
  readonly procedure: NaiveProcedure;
  readonly kind: 'whole' | 'call' | 'repeat';
  readonly section: NaiveSection;
  readonly steps: readonly NaiveStep[];
  readonly at: number;
  /** Which sentence or bullet comes next; -1: the step has not begun. */
  readonly inner: number;
  readonly until?: { readonly condition: Condition; readonly uid: number };
}

interface Place {
  readonly frames: readonly Frame[];
  readonly naive: Naive;
  /** Past an outcome with no way on, or a start that is not there: nothing is accused any more. */
  readonly mute: boolean;
  /** Which procedure of a visit is walked. */
  readonly turn: number;
}

/** A place with the number of steps begun. */
interface Here extends Place {
  readonly steps: number;
}
interface Node extends Here {
  readonly from: Node[];
}

export interface NaiveInput {
  readonly procedure: NaiveProcedure;
  readonly others: readonly NaiveProcedure[];
  readonly world: World;
  readonly outcomes: ReadonlyMap<string, readonly string[]>;
  readonly most: number;
  /** A visit: what is walked after the procedure, in turn; the technician may stop after any. Left out: the procedure alone. */
  readonly then?: readonly NaiveProcedure[];
  /** Whether walks that differ only in who changed what are told apart: dearer, and finds every cause. Left out: yes. */
  readonly blame?: boolean;
}

export function walkNaive(input: NaiveInput): NaiveResult {
  const { world } = input;
  const { machine } = world;
  const findings = new Map<string, NaiveFinding>();
  const reached = new Set<string>();
  const nodes = new Map<string, Node>();
  const ended: Node[] = [];
  let level: Node[] = [];
  let next: Node[] = [];
  let bounded = false;

  const visit = (place: Place, from: Node | undefined, cost: 0 | 1): void => {
    const steps = (from?.steps ?? 0) + cost;
    const where = place.frames.map(
      (frame) =>
        `${frame.procedure.number},${frame.kind},${frame.section.title},${frame.steps[0]?.id},${frame.steps.length},${frame.at},${frame.inner},${frame.until?.uid ?? ''}`,
    );
    const key = `${where.join('/')}|${place.mute}|${place.turn}|${keyOf(place.naive, input.blame)}`;
    const known = nodes.get(key);
    if (known) {
      if (from) known.from.push(from);
      return;
    }
    if (nodes.size >= input.most) {
      bounded = true;
      return;
    }
    const node: Node = { ...place, steps, from: from ? [from] : [] };
    nodes.set(key, node);
    (cost === 0 ? level : next).push(node);
  };

  const first = wholeFrame(input.procedure, firstSection(input.procedure));
  visit({ frames: first ? [first] : [], naive: startOf(machine, input.procedure.startsWith), mute: false, turn: 0 }, undefined, 0);
  while (level.length > 0) {
    for (let index = 0; index < level.length; index += 1) expand(level[index] as Node);
    level = next;
    next = [];
  }
  if (!bounded) noWayOut();
  return { findings: [...findings.values()], reached, states: nodes.size, bounded };

  function report(node: Here, rule: string, thing: string, cause: number, at: number): void {
    if (node.mute) return;
    const key = `${rule}|${thing}|${cause}|${at}`;
    if (!findings.has(key)) findings.set(key, { rule, thing, cause, at, length: node.steps });
  }
  function reportAll(node: Here, slips: readonly Slip[]): void {
    for (const { rule, thing, cause } of slips) report(node, rule, thing, cause, 0);
  }

  function expand(node: Node): void {
    const top = node.frames.at(-1);
    if (!top) return ending(node, node, 'normal', input.procedure);
    const below = node.frames.slice(0, -1);
    const go = (frames: readonly Frame[], naive: Naive = node.naive, cost: 0 | 1 = 0, mute = node.mute): void =>
      visit({ frames, naive, mute, turn: node.turn }, node, cost);
    const step = top.steps[top.at];
    if (!step) return offTheEnd(node, top, below, go);
    if (top.inner < 0) {
      reached.add(step.id);
      return go([...below, { ...top, inner: 0 }], node.naive, 1);
    }
    const stay = (inner: number): readonly Frame[] => [...below, { ...top, inner }];
    const { line } = step;
    const after: readonly Frame[] = [...below, { ...top, at: top.at + 1, inner: -1 }];
    if (line.kind === 'sentences') {
      const act = line.acts[top.inner];
      if (!act) return go(after);
      let rowEnd = top.inner + 1;
      if (act.action.when.length > 0) while ((line.acts[rowEnd]?.action.when.length ?? 0) > 0) rowEnd += 1;
      for (const { holds, naive } of decide(node, act.action.when, act.uid))
        if (holds) perform({ ...node, naive }, node, act, stay(rowEnd), step, top);
        else go(stay(top.inner + 1), naive);
      return;
    }
    const branch = line.branches[top.inner];
    if (branch) {
      for (const { holds, naive } of decide(node, [...(branch.when ? [branch.when] : []), ...(branch.and ?? [])], branch.uid))
        if (holds) perform({ ...node, naive }, node, branch.act, stay(line.branches.length + 1), step, top);
        else go(stay(top.inner + 1), naive);
      return;
    }
    if (top.inner > line.branches.length || line.branches.some(({ when }) => when === undefined)) return go(after);
    // 16: no branch was taken.
    const asked = line.branches.flatMap(({ when, and = [] }) => [...(when ? [when] : []), ...and]);
    const last = asked.findLast((when) => when.kind === 'outcome');
    const subject = last?.kind === 'outcome' ? (last.subject as string) : undefined;
    // Branches by model alone: one has to hold on each.
    if (line.branches.every(({ when, and = [] }) => [when, ...and].every((one) => one?.kind === 'variant'))) {
      report(node, 'outcome-open', '', -1, line.branches[0]?.uid as number);
      return go(after, node.naive, 0, true);
    }
    const left = subject !== undefined && outcomesLeft(node.naive, subject).length > 0;
    if (left) report(node, 'outcome-open', subject, -1, line.branches[0]?.uid as number);
    go(after, node.naive, 0, node.mute || left);
  }

  /** A list of steps is walked to its end: the repeat is tested, the call returns, the next section comes. */
  function offTheEnd(node: Node, top: Frame, below: readonly Frame[], go: (frames: readonly Frame[], naive?: Naive) => void): void {
    if (top.kind === 'call') return go(below);
    if (top.kind === 'repeat') {
      if (!top.until) return go(below);
      for (const { holds, naive } of decide(node, [top.until.condition], top.until.uid))
        go(holds ? below : [...below, { ...top, at: 0, inner: -1 }], naive);
      return;
    }
    const { procedure, section } = top;
    const later = procedure.sections.slice(procedure.sections.indexOf(section) + 1).find(({ aside, steps }) => !aside && steps.length > 0);
    if (!later) return below.length === 0 ? ending(node, node, 'normal', procedure) : go(below);
    if (!section.aside && calledIn(procedure).has(later.title))
      report(node, 'falls-into-aside', later.title, -1, titleAt(procedure, later));
    go([...below, wholeFrame(procedure, later) as Frame]);
  }

  function ending(node: Node, here: Here, end: NaiveEnd, procedure: NaiveProcedure): void {
    ended.push(node);
    if (input.then && end !== 'stop and call') return between(node, here, input.then);
    reportAll(here, owedAt(world, here.naive, end, procedure.endsWith));
  }

  /** 4: stopped here, the machine is closed or left locked out; it is never left locked out for good. */
  function between(node: Node, here: Here, then: readonly NaiveProcedure[]): void {
    const { naive, turn, mute } = here;
    const away = machine.sources.some((source) => notLockedOut(world, naive, source) !== undefined);
    const next = then[turn];
    if (away) reportAll(here, owedAt(world, naive, 'normal', 'closed'));
    else if (!next) report(here, 'ends-with', machine.name, -1, 0);
    if (!next) return;
    const first = wholeFrame(next, firstSection(next));
    const frames = first ? [first] : [];
    const missing =
      next.startsWith === 'opened and locked out'
        ? machine.sources.map((source) => notLockedOut(world, naive, source)?.wrong).find((wrong) => wrong !== undefined)
        : notClosed(world, naive);
    if (!missing) return visit({ frames, naive, mute, turn: turn + 1 }, node, 0);
    report(here, 'starts-with', next.number, causeOf(naive, missing), 0);
    visit({ frames, naive: answersOf(naive, startOf(machine, next.startsWith)), mute: true, turn: turn + 1 }, node, 0);
  }

  function perform(place: Here, node: Node, act: NaiveAct, frames: readonly Frame[], step: NaiveStep, top: Frame): void {
    const { action, uid } = act;
    const { naive, mute } = place;
    const { turn } = place;
    const go = (to: readonly Frame[], into: Naive = naive, hush = mute): void =>
      visit({ frames: to, naive: into, mute: hush, turn }, node, 0);
    const target = action.target;
    switch (action.kind) {
      case 'go-to':
        if (target?.kind === 'step-id') return go(jumped(frames, target.id));
        if (target?.kind === 'section')
          return go(jumped(frames, top.procedure.sections.find(({ title }) => title === target.title)?.steps[0]?.id ?? '', true));
        return go(frames);
      case 'stop-and-call':
        return ending(node, place, 'stop and call', top.procedure);
      case 'end':
      case 'continue-with': {
        const whole = frames.findLastIndex(({ kind }) => kind === 'whole');
        if (whole === 0) return ending(node, place, action.kind === 'end' ? 'normal' : 'hand-over', top.procedure);
        return go(frames.slice(0, whole));
      }
      case 'repeat':
        return repeat(place, node, act, frames, step, top);
      case 'call': {
        if (target?.kind === 'document') return callProcedure(place, node, frames, target.number);
        if (target?.kind === 'steps-id') {
          const { steps, section: home } = rangeIn(top.procedure, target.from, target.to);
          if (steps.includes(step)) return go(frames);
          return go([...frames, { procedure: top.procedure, kind: 'call', section: home, steps, at: 0, inner: -1 }]);
        }
        const section = top.procedure.sections.find(({ title }) => target?.kind === 'section' && target.title === title);
        if (!section) return go(frames);
        const own = top.procedure.sections.find(({ steps }) => steps.includes(step));
        const whole = frames.findLastIndex(({ kind }) => kind === 'whole');
        const active = frames.slice(whole).some((frame) => frame.kind !== 'repeat' && frame.section === section);
        if (active || own === section) {
          report(place, 'recursion', section.title, -1, uid);
          return go(frames);
        }
        return go([...frames, { procedure: top.procedure, kind: 'call', section, steps: section.steps, at: 0, inner: -1 }]);
      }
      default: {
        const section = top.procedure.sections.find(({ steps }) => steps.includes(step)) as NaiveSection;
        const from = section.steps.findIndex(({ id }) => id === (step.of ?? step.id));
        const test = section.steps.findIndex((one, at) => at >= from && actsOf(one).some((other) => other.action.kind === 'test-run'));
        const clear = test >= 0 && section.steps.slice(from, test + 1).some(({ standClear }) => standClear);
        const { words, nearby = [], asked = false } = act;
        const live = top.procedure.live ?? false;
        const done = doNaive(world, naive, action, { uid, words, nearby, asked, live, testAhead: test >= 0, standClear: clear });
        reportAll(place, done.slips);
        go(frames, done.naive);
      }
    }
  }

  /** 17: go to A; falling off B tests c. Whoever comes with c already measured and right does not begin. */
  function repeat(place: Here, node: Node, act: NaiveAct, frames: readonly Frame[], step: NaiveStep, top: Frame): void {
    const { target, until } = act.action;
    if (target?.kind !== 'steps-id') return visit({ ...place, frames }, node, 0);
    const { steps, section } = rangeIn(top.procedure, target.from, target.to);
    const subject = until?.kind === 'outcome' ? until.subject : undefined;
    if (subject !== undefined && !steps.some((one) => measuresIn(top.procedure, one, subject, 0)))
      report(place, 'repeat-unmeasured', subject, -1, act.uid);
    if (steps.includes(step)) {
      // A range that holds its own repeat is a jump back.
      const back = jumped(frames, target.from);
      if (!until) return visit({ ...place, frames: back }, node, 0);
      for (const { holds, naive } of decide(place, [until], act.uid))
        visit({ naive, mute: place.mute, turn: place.turn, frames: holds ? frames : back }, node, 0);
      return;
    }
    const frame: Frame = {
      procedure: top.procedure,
      kind: 'repeat',
      section,
      steps,
      at: 0,
      inner: -1,
      ...(until ? { until: { condition: until, uid: act.uid } } : {}),
    };
    const known = subject !== undefined && get(place.naive, `outcome ${subject}`) !== '';
    if (!known || !until) return visit({ ...place, frames: [...frames, frame] }, node, 0);
    for (const { holds, naive } of decide(place, [until], act.uid))
      visit({ naive, mute: place.mute, turn: place.turn, frames: holds ? frames : [...frames, frame] }, node, 0);
  }

  function callProcedure(place: Here, node: Node, frames: readonly Frame[], number: string): void {
    const other = input.others.find((one) => one.number === number);
    const section = other && firstSection(other);
    if (!other || !section) return visit({ ...place, frames }, node, 0);
    // A closed start is asked of visits only: a call is walked with the state that its caller left, and judged by it.
    const missing =
      other.startsWith === 'closed'
        ? undefined
        : machine.sources.map((source) => notLockedOut(world, place.naive, source)?.wrong).find((wrong) => wrong !== undefined);
    const entered = [...frames, wholeFrame(other, section) as Frame];
    if (!missing) return visit({ ...place, frames: entered }, node, 0);
    report(place, 'starts-with', number, causeOf(place.naive, missing), 0);
    visit({ naive: answersOf(place.naive, startOf(machine, other.startsWith)), mute: true, turn: place.turn, frames: entered }, node, 0);
  }
  /** Which ways conditions may go, all of which must hold; facts and outcomes are kept in the state. 15. */
  function decide(node: Here, conditions: readonly Condition[], uid: number): readonly { holds: boolean; naive: Naive }[] {
    const out: { holds: boolean; naive: Naive }[] = [];
    let open: Naive[] = [node.naive];
    for (const condition of conditions) {
      const on: Naive[] = [];
      for (const naive of open)
        for (const way of one({ ...node, naive }, condition, uid))
          if (way.holds) on.push(way.naive);
          else out.push(way);
      open = on;
    }
    return [...open.map((naive) => ({ holds: true, naive })), ...out];
  }

  function one(node: Here, condition: Condition, uid: number): readonly { holds: boolean; naive: Naive }[] {
    const { naive } = node;
    const withBit = (bit: string, value: string): Naive => {
      const after = copyOf(naive);
      keep(after, bit, value);
      return after;
    };
    switch (condition.kind) {
      case 'variant':
        return [{ holds: holdsOn(condition, machine.variant) !== condition.negated, naive }];
      case 'fact': {
        const bit = `fact ${condition.key}`;
        const told = get(naive, bit);
        if (told !== '') return [{ holds: (told === 'yes') !== condition.negated, naive }];
        return [
          { holds: !condition.negated, naive: withBit(bit, 'yes') },
          { holds: condition.negated, naive: withBit(bit, 'no') },
        ];
      }
      case 'state': {
        const bit = `${condition.thing.kind} ${condition.thing.name}`;
        const known = stateNow(naive, condition);
        if (known !== undefined) return [{ holds: known !== condition.negated, naive }];
        if (condition.thing.kind !== 'cover' || !machine.covers.some(({ name }) => name === condition.thing.name))
          return [
            { holds: true, naive },
            { holds: false, naive },
          ];
        const open = ['open', 'given'].includes(get(naive, bit));
        return [{ holds: (condition.state === 'open' ? open : !open) !== condition.negated, naive }];
      }
      case 'outcome': {
        const { subject } = condition;
        if (subject === undefined)
          return [
            { holds: true, naive },
            { holds: false, naive },
          ];
        const left = outcomesLeft(naive, subject);
        if (left.length === 0) {
          report(node, 'outcome-unread', subject, -1, uid);
          return [
            { holds: true, naive },
            { holds: false, naive },
          ];
        }
        const wanted = condition.outcome === 'not-within' ? ['under', 'over'] : [condition.outcome as string];
        const yes = left.filter((outcome) => wanted.includes(outcome));
        const no = left.filter((outcome) => !wanted.includes(outcome));
        return [
          ...(yes.length > 0 ? [{ holds: true, naive: withBit(`outcome ${subject}`, yes.join(',')) }] : []),
          ...(no.length > 0 ? [{ holds: false, naive: withBit(`outcome ${subject}`, no.join(',')) }] : []),
        ];
      }
      default:
        return [
          { holds: true, naive },
          { holds: false, naive },
        ];
    }
  }

  /** Of a point, a part or a fastener; a cover is asked for by itself. */
  function stateNow(naive: Naive, { thing, state }: Extract<Condition, { kind: 'state' }>): boolean | undefined {
    const value = get(naive, `${thing.kind} ${thing.name}`);
    if (thing.kind === 'point') {
      const uses = machine.sources.flatMap((source) => [...source.isolate, ...source.relieve, ...source.restrain]);
      const safe = uses.find(({ point }) => point === thing.name)?.safe;
      return safe === undefined ? undefined : (value === 'safe') === (safe === state);
    }
    if (thing.kind === 'part' && ['in', 'on', 'shut', 'out', 'off', 'open'].includes(state))
      return (value === 'out') === ['out', 'off', 'open'].includes(state);
    return thing.kind === 'fastener' ? value === 'loose' : undefined;
  }

  function outcomesLeft(naive: Naive, subject: string): readonly string[] {
    const value = get(naive, `outcome ${subject}`);
    if (value === '') return [];
    return value === 'fresh' ? (input.outcomes.get(subject) ?? []) : value.split(',');
  }

  /** 18: a state from which no end can be reached. */
  function noWayOut(): void {
    const out = new Set<Node>(ended);
    const queue = [...out];
    for (let node = queue.pop(); node; node = queue.pop())
      for (const before of node.from)
        if (!out.has(before)) {
          out.add(before);
          queue.push(before);
        }
    const lost = [...nodes.values()].filter((node) => !node.mute && !out.has(node));
    if (lost.length === 0) return;
    const length = Math.min(...lost.map(({ steps }) => steps));
    findings.set('no-way-out', { rule: 'no-way-out', thing: '', cause: -1, at: 0, length });
  }
}

const firstSection = (procedure: NaiveProcedure): NaiveSection | undefined =>
  procedure.sections.find(({ aside, steps }) => !aside && steps.length > 0);

/** On models, options and serial ranges. */
export function holdsOn({ models, options, serial }: Extract<Condition, { kind: 'variant' }>, variant: Variant): boolean {
  if (models.length > 0 && !models.includes(variant.model)) return false;
  if (options.length > 0 && !options.some((name) => variant.options.includes(name))) return false;
  if (!serial || !variant.serial) return true;
  const { from = 0, to = Number.POSITIVE_INFINITY } = variant.serial;
  return from >= (serial.from ?? 0) && to <= (serial.to ?? Number.POSITIVE_INFINITY);
}

/** Steps from one to another, in the order of the text. */
function rangeIn(procedure: NaiveProcedure, a: string, b: string): { steps: readonly NaiveStep[]; section: NaiveSection } {
  const all = procedure.sections.flatMap((one) => one.steps);
  const [from, to] = [a, b].map((id) => all.findIndex((one) => one.id === id)) as [number, number];
  const section = procedure.sections.find(({ steps }) => steps.some(({ id }) => id === a)) as NaiveSection;
  return { steps: all.slice(Math.min(from, to), Math.max(from, to) + 1), section };
}

function wholeFrame(procedure: NaiveProcedure, section: NaiveSection | undefined): Frame | undefined {
  return section && { procedure, kind: 'whole', section, steps: section.steps, at: 0, inner: -1 };
}

/** Frames after a jump: the innermost repeat or call that holds the step, else the procedure on the whole. A section is only on the whole. */
function jumped(frames: readonly Frame[], id: string, section = false): readonly Frame[] {
  for (let depth = frames.length - 1; depth >= 0; depth -= 1) {
    const frame = frames[depth] as Frame;
    const at = frame.steps.findIndex((one) => one.id === id);
    const below = frames.slice(0, depth);
    if (frame.kind !== 'whole' && at >= 0 && !section) return [...below, { ...frame, at, inner: -1 }];
    if (frame.kind !== 'whole') continue;
    const home = frame.procedure.sections.find(({ steps }) => steps.some((one) => one.id === id)) as NaiveSection;
    return [...below, { ...(wholeFrame(frame.procedure, home) as Frame), at: home.steps.findIndex((one) => one.id === id) }];
  }
  return [];
}

export function actsOf(step: NaiveStep): readonly NaiveAct[] {
  return step.line.kind === 'sentences' ? step.line.acts : step.line.branches.map(({ act }) => act);
}

function calledIn(procedure: NaiveProcedure): ReadonlySet<string> {
  const all = procedure.sections.flatMap(({ steps }) => steps.flatMap(actsOf));
  return new Set(
    all.flatMap(({ action: { kind, target } }) => (kind === 'call' && target?.kind === 'section' ? [target.title as string] : [])),
  );
}

/** 17: the measurement of c lies between A and B, or in what is called there. */
function measuresIn(procedure: NaiveProcedure, step: NaiveStep, subject: string, depth: number): boolean {
  return actsOf(step).some(({ action }) => {
    if (action.kind === 'call' && depth < 5) {
      const { target } = action;
      if (target?.kind === 'document') return true;
      const section = procedure.sections.find(({ title }) => target?.kind === 'section' && title === target.title);
      return section?.steps.some((one) => measuresIn(procedure, one, subject, depth + 1)) ?? false;
    }
    return ['measure', 'sense'].includes(action.kind) && action.things.some(({ thing }) => thing.name === subject);
  });
}

/** A number for the title of a section, where a finding stands that belongs to no action. */
export function titleAt(procedure: NaiveProcedure, section: NaiveSection): number {
  return 5_000_000 + procedure.sections.indexOf(section);
}
