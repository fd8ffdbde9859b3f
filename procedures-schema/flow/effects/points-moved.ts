/** Points put to a position, and what their sources are then: live, let out, held. */
import { electrical, held, isolated, proved } from '../safety.ts';
import { POINT, PROOF, STORED, TAKEN } from '../state.ts';
import { type Effect, pointsOf, tellBreach, thingsOf } from './doing.ts';
import { dropProof, waysToProve } from './proofs.ts';
import { askBeforeLive } from './rule-live.ts';

/** A point with a lock on it does not move: the lock is too early, or comes off too late. */
export function movesLocked(effect: Effect, to: number): void {
  const { layout, state } = effect;
  for (const point of pointsOf(effect)) {
    const own = layout.table.machine.points[point];
    if (own?.plug || state[layout.point + point] === to || (state[layout.lock + point] ?? 0) === 0) continue;
    const on = (state[layout.lock + point] ?? 0) & ~(state[layout.taken + point] ?? 0);
    if (on !== 0)
      tellBreach(effect, 'point-locked', layout.table.pointNames[point] as string, [], [layout.lock + point], undefined, 'error', on);
    state[layout.lock + point] = 0;
    state[layout.taken + point] = (state[layout.taken + point] ?? 0) & TAKEN;
  }
}

/** What is earthed must have been tested dead, where the library asks for that order. */
export function askTested(effect: Effect): void {
  const { layout, state } = effect;
  for (const row of layout.table.sources) {
    const earthing = row.relieve.filter((point) => pointsOf(effect).includes(point) && state[layout.point + point] !== POINT.safe);
    if (!electrical(row) || earthing.length === 0 || !row.provable || proved(layout, state, row)) continue;
    const at = layout.proof + row.index;
    tellBreach(effect, 'earth-untested', row.source.name, waysToProve(row), [at]);
    state[at] = row.source.canComeBack ? PROOF.watched : PROOF.good;
  }
}

export function placePoint(effect: Effect, point: number, to: number): void {
  const { layout, state } = effect;
  state[layout.point + point] = to;
  state[layout.taken + point] = (state[layout.taken + point] ?? 0) & ~TAKEN;
}

/** Relief that is open once the supply is cut empties the source for good. */
export function settleRelief(effect: Effect): void {
  const { layout, state } = effect;
  for (const row of layout.table.sources)
    if (row.relieve.length > 0 && isolated(layout, state, row) && row.relieve.every((point) => state[layout.point + point] === POINT.safe))
      state[layout.stored + row.index] = STORED.gone;
}

export function restorePoints(effect: Effect): void {
  const { layout, state } = effect;
  const points = pointsOf(effect);
  const live = layout.table.sources.filter((row) => row.isolate.some((point) => points.includes(point)) && isolated(layout, state, row));
  for (const row of live) askBeforeLive(effect, row, false);
  movesLocked(effect, POINT.off);
  for (const point of points) {
    placePoint(effect, point, POINT.off);
    // A plug that is in its socket is in nobody's keeping.
    if (layout.table.machine.points[point]?.plug) state[layout.lock + point] = 0;
  }
  for (const row of live) {
    state[layout.stored + row.index] = STORED.charged;
    dropProof(effect, row);
  }
}

/** What was let out is there again, and was not proved gone since. People have to be clear of it as of any energy that comes back. */
export function makeEnergy(effect: Effect): void {
  const { layout, state } = effect;
  const { action } = effect.doing;
  const kinds = [...action.things, ...action.with].flatMap((use) => effect.doing.makes(use.thing.name) ?? []);
  const named = new Set(thingsOf(effect, 'source').map((use) => use.thing.name));
  const rows = layout.table.sources.filter((row) => named.has(row.source.name) || (named.size === 0 && kinds.includes(row.source.kind)));
  if (rows.length > 0 && state[layout.people] === 0) {
    tellBreach(effect, 'R-people', rows[0]?.source.name as string, [], [layout.people]);
    state[layout.people] = 1;
  }
  for (const row of rows) {
    state[layout.stored + row.index] = STORED.charged;
    dropProof(effect, row);
  }
}

export function releasePoints(effect: Effect): void {
  const { layout, state } = effect;
  const points = pointsOf(effect);
  for (const row of layout.table.sources) {
    if (!row.restrain.some((point) => points.includes(point))) continue;
    if (held(layout, state, row)) askBeforeLive(effect, row, false);
    dropProof(effect, row);
  }
  for (const point of points) placePoint(effect, point, POINT.off);
}
