/** The state of a walk: what semantics.md 2 lists and nothing else, one byte a bit. Values are documented beside their names. */
import type { MachineTable } from './machine.ts';

export const POINT = { off: 0, safe: 1 } as const;
/** Stored part of a source. Held is seen from the restraints. */
export const STORED = { charged: 0, gone: 1 } as const;
/**
 * none: never proved or lost; early: proved before all else held; good; used: may have come back; watched: under a standing check;
 * empty: a try-out that could show nothing; metered: by a meter tried before, and to be tried again before it counts;
 * bared: good for every rule, but the earth that kept it is off, so that it is shown as not proved.
 */
export const PROOF = { none: 0, early: 1, good: 2, used: 3, watched: 4, empty: 5, metered: 6, bared: 7 } as const;
/** given: handed over open by the procedure before. */
export const COVER = { found: 0, open: 1, done: 2, given: 3 } as const;
export const PART = { found: 0, out: 1, done: 2 } as const;
export const FASTENER = { found: 0, loose: 1, done: 2, hand: 3 } as const;

export const TAKEN = 128;

export type State = Uint8Array;

const NONE: ReadonlySet<string> = new Set();

/** Where each kind of bit starts in the state. */
export interface Layout {
  readonly table: MachineTable;
  /** The library's lockout profile: electrical energy is tested dead before it is earthed. EN 50110-1 (order from memory). */
  readonly earthLast: boolean;
  readonly point: number;
  /** Roles as bits: 1 the reader, 2 and up the declared roles. */
  readonly lock: number;
  /** By point, what a finding took as right and no step did: roles whose lock it is, and TAKEN for the position. Owed by nobody. */
  readonly taken: number;
  readonly stored: number;
  readonly proof: number;
  /** Read early, by a gauge that is kept in view from then on. */
  readonly inView: number;
  readonly cover: number;
  readonly part: number;
  readonly fastener: number;
  readonly control: number;
  readonly test: number;
  readonly tests: readonly string[];
  readonly temporary: number;
  readonly temporaries: readonly string[];
  /** The meter was tried on a known source. */
  readonly meter: number;
  readonly people: number;
  readonly tools: number;
  readonly told: number;
  /** Declared out of service: the end must leave it safe and locked. */
  readonly declared: number;
  readonly outcome: number;
  readonly outcomes: readonly string[];
  /** Outcomes that the state keeps only within a step: free each time another step asks. */
  readonly loose: ReadonlySet<string>;
  readonly fact: number;
  readonly facts: readonly string[];
  readonly size: number;
  readonly roles: readonly string[];
}

export function layoutOf(
  table: MachineTable,
  named: {
    readonly temporaries: readonly string[];
    readonly outcomes: readonly string[];
    readonly loose?: ReadonlySet<string>;
    readonly facts: readonly string[];
    readonly roles: readonly string[];
  },
  earthLast = false,
): Layout {
  let at = 0;
  const take = (count: number): number => {
    const from = at;
    at += count;
    return from;
  };
  const { machine } = table;
  const tests = [...table.returnTests.keys()];
  const layout = {
    table,
    earthLast,
    point: take(machine.points.length),
    lock: take(machine.points.length),
    taken: take(machine.points.length),
    stored: take(machine.sources.length),
    proof: take(machine.sources.length),
    inView: take(machine.sources.length),
    cover: take(machine.covers.length),
    part: take(machine.parts.length),
    fastener: take(machine.fasteners.length),
    control: take(machine.controls.length),
    test: take(tests.length),
    tests,
    temporary: take(named.temporaries.length),
    temporaries: named.temporaries,
    meter: take(1),
    people: take(1),
    tools: take(1),
    told: take(1),
    declared: take(1),
    outcome: take(named.outcomes.length),
    outcomes: named.outcomes,
    loose: named.loose ?? NONE,
    fact: take(named.facts.length),
    facts: named.facts,
    roles: named.roles,
  };
  return { ...layout, size: at };
}

/** Live, charged, unlocked, unproved, closed; or opened and locked out by the procedure before. */
export function startState(layout: Layout, startsWith: string): State {
  const state = new Uint8Array(layout.size);
  state[layout.people] = 1;
  state[layout.tools] = 1;
  state[layout.told] = 1;
  if (startsWith !== 'opened and locked out') return state;
  const { machine } = layout.table;
  machine.points.forEach((point, index) => {
    state[layout.point + index] = POINT.safe;
    if (point.roles.includes('isolate')) state[layout.lock + index] = 1;
  });
  machine.sources.forEach((source, index) => {
    state[layout.stored + index] = STORED.gone;
    // A hand-over uses up the proof of what can come back, unless it is held (semantics.md 7).
    state[layout.proof + index] = source.canComeBack && source.restrain.length === 0 ? PROOF.used : PROOF.good;
  });
  machine.covers.forEach((_, index) => {
    state[layout.cover + index] = COVER.given;
  });
  state[layout.people] = 0;
  state[layout.tools] = 0;
  state[layout.told] = 0;
  return state;
}

export function keyOf(state: State): string {
  return String.fromCharCode.apply(null, state as unknown as number[]);
}

export function withBit(state: State, at: number, value: number): State {
  if (state[at] === value) return state;
  const next = state.slice();
  next[at] = value;
  return next;
}
