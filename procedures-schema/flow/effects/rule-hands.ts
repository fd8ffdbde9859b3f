/** Rule H, asked before a hand goes to something: isolated, locked, relieved, proved. semantics.md 9. */
import { type ActionKind, HANDS_AT_WORK } from '../../reading/index.ts';
import type { SourceRow } from '../machine.ts';
import { isolated, locked, proved, relieved, safeButProof } from '../safety.ts';
import { COVER, POINT, PROOF, STORED, TAKEN } from '../state.ts';
import { type Doing, type Effect, tellBreach, thingsOf } from './doing.ts';
import { waysToProve, wearProof } from './proofs.ts';

const CONTACT: readonly ActionKind[] = [...HANDS_AT_WORK, 'measure', 'sense', 'prove', 'put-in', 'take-out'];

/** Whether a hand goes to what the sentence names. A machine that is moved from its panel names things too, and nobody touches them. */
export function handsIn({ action, facts }: Pick<Doing, 'action' | 'facts'>): boolean {
  const reaching = (action.kind === 'use' || action.kind === 'take-tools') && facts.nearby.length > 0;
  return !action.outside && (reaching || (action.contact && CONTACT.includes(action.kind)));
}

export function askHands(effect: Effect): void {
  const { action } = effect.doing;
  const dangers = new Map<SourceRow, string>();
  for (const thing of [...action.things.map((use) => use.thing), ...effect.doing.facts.nearby]) {
    const name = thing.kind === 'replacement' ? (effect.doing.renews(thing.name) ?? thing.name) : thing.name;
    const kind = thing.kind === 'replacement' ? 'part' : thing.kind;
    const danger = thing.kind === 'measurement' ? undefined : effect.layout.table.dangerTo(kind, name);
    for (const row of danger?.sources ?? []) if (!dangers.has(row)) dangers.set(row, danger?.zone ?? '');
    if (thing.kind === 'measurement') for (const { row, zone } of exposedZones(effect)) if (!dangers.has(row)) dangers.set(row, zone);
  }
  if (dangers.size === 0) return;
  for (const [row, zone] of dangers) askSafe(effect, row, zone);
  effect.state[effect.layout.people] = 0;
  effect.state[effect.layout.tools] = 0;
  for (const [row] of dangers) wearProof(effect, row);
}

/** Zones with a cover off: where a hand goes that measures something whose place is not named. */
function exposedZones(effect: Effect): { row: SourceRow; zone: string }[] {
  const { table } = effect.layout;
  return table.machine.zones
    .filter((zone) => zone.behind.some((cover) => effect.state[effect.layout.cover + (table.covers.get(cover) ?? 255)] === COVER.open))
    .flatMap((zone) => zone.endangeredBy.flatMap((name) => table.sourceOf.get(name) ?? []).map((row) => ({ row, zone: zone.name })));
}

function askSafe(effect: Effect, row: SourceRow, zone: string): void {
  const { layout, state, doing } = effect;
  const { source } = row;
  const { action } = doing;
  const names = (points: readonly number[]): string[] => points.map((point) => layout.table.pointNames[point] as string);
  if (doing.liveTask && (action.kind === 'measure' || action.kind === 'prove' || action.kind === 'sense')) return;
  if (!isolated(layout, state, row)) {
    const open = row.isolate.filter((point) => state[layout.point + point] !== POINT.safe);
    tellBreach(
      effect,
      'H-isolated',
      source.name,
      names(open),
      open.map((point) => layout.point + point),
      zone,
    );
    takeAsSafe(effect, row);
    return;
  }
  if (!locked(layout, state, row, effect.role)) {
    const open = row.isolate.filter(
      (point) => layout.table.machine.points[point]?.lockable && ((state[layout.lock + point] ?? 0) & effect.role) === 0,
    );
    tellBreach(
      effect,
      'H-locked',
      source.name,
      names(open),
      open.map((point) => layout.lock + point),
      zone,
      'error',
      effect.role,
      open.every((point) => (state[layout.lock + point] ?? 0) !== 0),
    );
    takeAsSafe(effect, row);
    return;
  }
  if (!relieved(layout, state, row)) {
    const ways = [...names(row.relieve), ...names(row.restrain)];
    const missing = ways.length > 0 ? [ways.join(' or ')] : [`a wait of ${source.settles ?? 'its time'}`];
    tellBreach(
      effect,
      'H-relieved',
      source.name,
      missing,
      [
        layout.stored + row.index,
        ...[...row.relieve, ...row.restrain].map((point) => layout.point + point).filter((bit) => state[bit] !== POINT.safe),
      ],
      zone,
    );
    takeAsSafe(effect, row);
    return;
  }
  // Measuring with the meter that proves it is the proof.
  const meter = action.with.some((use) => row.source.provedWith.includes(effect.doing.toolKind(use.thing.name) ?? ''));
  if (proved(layout, state, row) || action.kind === 'prove' || (action.kind === 'measure' && meter)) return;
  // The opening through which a meter gets at it is judged at the next other hands-on.
  if (row.meterOnly && action.kind === 'open' && thingsOf(effect, 'cover').length > 0) return;
  const proof = state[layout.proof + row.index];
  const rule =
    proof === PROOF.early
      ? 'proof-early'
      : proof === PROOF.used
        ? 'proof-used'
        : proof === PROOF.empty || proof === PROOF.metered
          ? 'proof-empty'
          : 'H-proved';
  tellBreach(effect, rule, source.name, waysToProve(row), [layout.proof + row.index], zone);
  takeAsSafe(effect, row);
}

function takeAsSafe(effect: Effect, row: SourceRow): void {
  const { layout, state } = effect;
  const off = row.isolate.filter((point) => state[layout.point + point] !== POINT.safe);
  for (const point of row.isolate) {
    // What no step did is owed by none: the end does not ask for it back.
    const taken = (state[layout.point + point] === POINT.safe ? 0 : TAKEN) | (effect.role & ~(state[layout.lock + point] ?? 0));
    state[layout.taken + point] = (state[layout.taken + point] ?? 0) | taken;
    state[layout.point + point] = POINT.safe;
    state[layout.lock + point] = (state[layout.lock + point] ?? 0) | effect.role;
  }
  state[layout.stored + row.index] = STORED.gone;
  state[layout.proof + row.index] = provedAsRight(effect, row);
  // The same point may have kept another live, or spoilt its proof; that is this slip again, not another.
  for (const other of layout.table.sources) {
    const kept = other !== row && other.isolate.some((point) => off.includes(point));
    if (kept && isolated(layout, state, other) && locked(layout, state, other, effect.role)) {
      state[layout.stored + other.index] = STORED.gone;
      state[layout.proof + other.index] = provedAsRight(effect, other);
      continue;
    }
    const proof = state[layout.proof + other.index];
    const shares = other !== row && other.isolate.some((point) => row.isolate.includes(point));
    if (shares && (proof === PROOF.none || proof === PROOF.early) && safeButProof(layout, state, other))
      state[layout.proof + other.index] = provedAsRight(effect, other);
  }
}

/** A proof that was only too early counts, and wears as it would have; one that is not there at all is taken as lasting. */
function provedAsRight(effect: Effect, row: SourceRow): number {
  if (!row.source.canComeBack) return PROOF.good;
  const { layout, state } = effect;
  const wears = state[layout.proof + row.index] === PROOF.early && state[layout.inView + row.index] === 0;
  return wears ? PROOF.good : PROOF.watched;
}
