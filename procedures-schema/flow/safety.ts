/** Safe(source) and its parts, from the state alone: isolated, locked, relieved or held, proved. semantics.md 5. */

import type { SourceRow } from './machine.ts';
import { COVER, type Layout, POINT, PROOF, STORED, type State } from './state.ts';

export function isolated(layout: Layout, state: State, row: SourceRow): boolean {
  return row.isolate.every((point) => state[layout.point + point] === POINT.safe);
}

/** Every lockable isolating point has a lock of the role, or the plug is in the worker's keeping. */
export function locked(layout: Layout, state: State, row: SourceRow, role: number): boolean {
  return row.isolate.every((point) => {
    const own = layout.table.machine.points[point];
    if (!own?.lockable || own.plug) return true;
    return ((state[layout.lock + point] ?? 0) & role) !== 0;
  });
}

export function relieved(layout: Layout, state: State, row: SourceRow): boolean {
  if (!row.source.stored) return true;
  if (state[layout.stored + row.index] === STORED.gone) return true;
  const all = (points: readonly number[]): boolean =>
    points.length > 0 && points.every((point) => state[layout.point + point] === POINT.safe);
  return all(row.relieve) || all(row.restrain);
}

/** Held by pins or blocks: then it cannot come back. */
export function held(layout: Layout, state: State, row: SourceRow): boolean {
  return row.restrain.length > 0 && row.restrain.every((point) => state[layout.point + point] === POINT.safe);
}

export function proved(layout: Layout, state: State, row: SourceRow): boolean {
  if (!row.provable) return true;
  const proof = state[layout.proof + row.index];
  return proof === PROOF.good || proof === PROOF.watched || proof === PROOF.bared;
}

/** The same, and nothing that kept it was taken away since: for what is shown, not for what is found. */
export function stillKept(layout: Layout, state: State, row: SourceRow): boolean {
  return proved(layout, state, row) && !(row.provable && state[layout.proof + row.index] === PROOF.bared);
}

/** All of Safe but the proof, by anybody's lock. */
export function safeButProof(layout: Layout, state: State, row: SourceRow): boolean {
  return isolated(layout, state, row) && locked(layout, state, row, 255) && relieved(layout, state, row);
}

/** Energy that is earthed rather than let out. */
export function electrical({ source }: SourceRow): boolean {
  return source.kind === 'electrical' || source.kind === 'capacitor';
}

/** All that has to hold before a proof shows anything. Where the earth comes last, the test comes before it. */
export function readyToProve(layout: Layout, state: State, row: SourceRow): boolean {
  if (!layout.earthLast || !electrical(row) || row.relieve.length === 0) return safeButProof(layout, state, row);
  return isolated(layout, state, row) && locked(layout, state, row, 255);
}

/** What is missing of a state, in words, and the bits that are wrong. */
export interface Missing {
  readonly words: string;
  readonly bits: readonly number[];
}

/** Bits of lockable isolating points without a lock of these roles. */
export function bareLocks(layout: Layout, state: State, row: SourceRow, roles: number): number[] {
  return row.isolate
    .filter((point) => {
      const own = layout.table.machine.points[point];
      return own?.lockable && !own.plug && ((state[layout.lock + point] ?? 0) & roles) === 0;
    })
    .map((point) => layout.lock + point);
}

/** What is missing of "opened and locked out", for one source, in words; undefined: nothing. A proof that was good and is used up was made. */
export function missingOfLockOut(layout: Layout, state: State, row: SourceRow): Missing | undefined {
  const { name } = row.source;
  const proof = state[layout.proof + row.index];
  const off = (points: readonly number[]): number[] =>
    points.map((point) => layout.point + point).filter((bit) => state[bit] !== POINT.safe);
  if (!isolated(layout, state, row)) return { words: `the ${name} is not isolated`, bits: off(row.isolate) };
  if (!locked(layout, state, row, 255)) return { words: `the ${name} is not locked`, bits: bareLocks(layout, state, row, 255) };
  if (!relieved(layout, state, row))
    return {
      words: `what the ${name} stores is neither let out nor held`,
      bits: [layout.stored + row.index, ...off([...row.relieve, ...row.restrain])],
    };
  if (!proved(layout, state, row) && proof !== PROOF.used)
    return { words: `the ${name} is not proved dead`, bits: [layout.proof + row.index] };
  return undefined;
}

/** What keeps a machine from being closed and ready, in words; undefined: nothing. */
export function stillOpen(layout: Layout, state: State): Missing | undefined {
  const { coverNames, pointNames } = layout.table;
  const cover = coverNames.findIndex((_, index) => [COVER.open, COVER.given].some((value) => value === state[layout.cover + index]));
  if (cover >= 0) return { words: `the ${coverNames[cover]} is off`, bits: [layout.cover + cover] };
  const point = pointNames.findIndex((_, index) => state[layout.point + index] === POINT.safe);
  if (point >= 0) return { words: `the ${pointNames[point]} is still in its safe position`, bits: [layout.point + point] };
  return undefined;
}
