/**
 * What each kind of action does to the state: the table of effects, a line a kind. After a violation the bits are taken as right, so that
 * one cause is one violation.
 */
import { KNOWN_SOURCE, WHEREVER } from '../../reading/index.ts';
import { isolated } from '../safety.ts';
import { FASTENER, type Layout, PART, POINT, STORED, type State } from '../state.ts';
import { asksState, beginEffect, type Doing, type Done, type Effect, pointsOf, tellBreach, thingsOf } from './doing.ts';
import { setTemporary, waitTime } from './for-a-time.ts';
import { noteMeasured } from './measured.ts';
import { closeThings, disturb, noteReturnTest, openThings, setThing, tightenFasteners } from './opened-and-closed.ts';
import { askTested, makeEnergy, movesLocked, placePoint, releasePoints, restorePoints, settleRelief } from './points-moved.ts';
import { dropProof, meterTried, readGauges, readProof, tryOut } from './proofs.ts';
import { askHands, handsIn } from './rule-hands.ts';
import { askBeforeLive, startsDead } from './rule-live.ts';

export function act(layout: Layout, before: State, doing: Doing): Done {
  const effect = beginEffect(layout, before, doing);
  if (handsIn(doing)) askHands(effect);
  takeEffect(effect);
  return { state: effect.state, breaches: effect.breaches };
}

/** A control that stays where it is put. */
function selectControls(effect: Effect, value: number): void {
  const { layout, state } = effect;
  for (const { thing } of thingsOf(effect, 'control')) {
    const at = layout.table.controls.get(thing.name);
    if (at !== undefined && layout.table.machine.controls[at]?.maintained) state[layout.control + at] = value;
  }
}

function takeEffect(effect: Effect): void {
  const { layout, state } = effect;
  const { action } = effect.doing;
  switch (action.kind) {
    case 'isolate':
    case 'restrain':
      movesLocked(effect, POINT.safe);
      for (const point of pointsOf(effect)) placePoint(effect, point, POINT.safe);
      settleRelief(effect);
      if (action.until !== undefined) readGauges(effect, action.until.text);
      return;
    case 'relieve':
      if (layout.earthLast) askTested(effect);
      for (const point of pointsOf(effect)) placePoint(effect, point, POINT.safe);
      for (const { thing } of thingsOf(effect, 'source')) {
        const row = layout.table.sourceOf.get(thing.name);
        if (row && isolated(layout, state, row)) state[layout.stored + row.index] = STORED.gone;
      }
      settleRelief(effect);
      if (action.until !== undefined) readGauges(effect, action.until.text);
      return;
    case 'restore':
      return restorePoints(effect);
    case 'unrelieve':
      for (const point of pointsOf(effect)) {
        placePoint(effect, point, POINT.off);
        for (const row of layout.table.sources) {
          if (!row.relieve.includes(point)) continue;
          // Nothing else keeps a spring that only its lever lets go: put back, the lever winds it.
          const alone = row.isolate.length === 0;
          if (alone || !isolated(layout, state, row)) state[layout.stored + row.index] = STORED.charged;
          if (alone || row.source.canComeBack) dropProof(effect, row);
        }
      }
      return;
    case 'release':
      return releasePoints(effect);
    case 'lock':
      for (const point of pointsOf(effect)) {
        state[layout.lock + point] = (state[layout.lock + point] ?? 0) | effect.role;
        state[layout.taken + point] = (state[layout.taken + point] ?? 0) & ~effect.role;
      }
      // Keeping a plug in view tells nobody's machine off: 1910.147(a)(2)(iii)(A).
      if (pointsOf(effect).some((point) => !layout.table.machine.points[point]?.plug)) state[layout.told] = 0;
      return;
    case 'unlock':
      for (const point of pointsOf(effect)) {
        if (action.manner === WHEREVER && ((state[layout.lock + point] ?? 0) & effect.role) === 0) continue;
        // Taking off a lock that nobody put on: either it was forgotten, or the wrong one comes off.
        if (((state[layout.lock + point] ?? 0) & effect.role) === 0 && !asksState(effect))
          tellBreach(
            effect,
            'close-unopened',
            layout.table.pointNames[point] as string,
            ['lock'],
            [layout.lock + point],
            undefined,
            'warning',
            effect.role,
          );
        state[layout.lock + point] = (state[layout.lock + point] ?? 0) & ~effect.role;
        state[layout.taken + point] = (state[layout.taken + point] ?? 0) & ~effect.role;
        for (const row of layout.table.sources) if (row.isolate.includes(point)) dropProof(effect, row);
      }
      // People are told once the locks are off, 1910.147(e)(2)(ii): what was said before does not count.
      state[layout.told] = 0;
      return;
    case 'try-out':
      return tryOut(effect);
    case 'prove':
    case 'observe':
    case 'measure':
    case 'sense':
      readProof(effect);
      noteReturnTest(effect);
      noteMeasured(effect);
      return;
    case 'control':
      for (const { thing } of thingsOf(effect, 'control')) {
        const control = layout.table.machine.controls[layout.table.controls.get(thing.name) ?? -1];
        const at = layout.table.controls.get(thing.name);
        if (!control?.maintained || at === undefined) continue;
        const off =
          action.position !== undefined &&
          (action.position === control.off || ['off', '0', 'neutral', 'stop'].includes(action.position.toLowerCase()));
        state[layout.control + at] = off ? 0 : 1;
      }
      return;
    case 'shut-down':
      selectControls(effect, 0);
      return;
    case 'start':
    case 'test-run':
      selectControls(effect, 1);
      if (!startsDead(effect)) askBeforeLive(effect, undefined, action.kind === 'test-run');
      if (action.kind === 'test-run') noteReturnTest(effect);
      return;
    case 'make-energy':
      return makeEnergy(effect);
    case 'open':
      return openThings(effect);
    case 'close':
      return closeThings(effect);
    case 'renew':
      for (const { thing } of [...thingsOf(effect, 'part'), ...thingsOf(effect, 'fastener')]) {
        setThing(effect, thing.kind === 'part' ? 'part' : 'fastener', thing.name, thing.kind === 'part' ? PART.done : FASTENER.done);
        disturb(effect, thing.name);
      }
      return;
    case 'loosen':
      for (const { thing } of thingsOf(effect, 'fastener')) {
        setThing(effect, 'fastener', thing.name, FASTENER.loose);
        disturb(effect, thing.name);
      }
      for (const { thing } of thingsOf(effect, 'part')) disturb(effect, thing.name);
      return;
    case 'tighten':
      return tightenFasteners(effect);
    case 'put-in':
      for (const { thing } of thingsOf(effect, 'tool')) setTemporary(effect, thing.name, 1);
      return;
    case 'take-out':
      for (const { thing } of thingsOf(effect, 'tool')) setTemporary(effect, thing.name, 0);
      return;
    case 'tell':
      state[layout.told] = 1;
      return;
    case 'out-of-service':
      state[layout.declared] = 1;
      return;
    case 'clear-people':
      state[layout.people] = 1;
      return;
    case 'take-tools':
      state[layout.tools] = 1;
      return;
    case 'use':
      if (action.manner === KNOWN_SOURCE) meterTried(effect);
      return;
    case 'wait':
      return waitTime(effect);
    default:
      return;
  }
}
