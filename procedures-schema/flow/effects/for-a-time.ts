/** What is put in for a time, and time that is waited out. */
import { longEnough, secondsWaited } from '../machine.ts';
import { electrical, held, isolated } from '../safety.ts';
import { PROOF, STORED } from '../state.ts';
import type { Effect } from './doing.ts';
import { isEarthed, readGauges, seenGone, wearProof } from './proofs.ts';

export function setTemporary(effect: Effect, tool: string, value: number): void {
  const at = effect.layout.temporaries.indexOf(tool);
  if (at < 0 || !effect.doing.temporary(tool)) return;
  effect.state[effect.layout.temporary + at] = value;
  if (value === 0 && effect.doing.toolKind(tool) === 'earth lead') bareOfEarth(effect);
}

/** No earth is on any more: what it kept from coming back may be there again. A good proof stays one for the rules; semantics.md 7. */
function bareOfEarth(effect: Effect): void {
  const { layout, state } = effect;
  for (const row of layout.table.sources) {
    const at = layout.proof + row.index;
    if (row.source.canComeBack && electrical(row) && state[at] === PROOF.good && !isEarthed(effect, row) && !held(layout, state, row))
      state[at] = PROOF.bared;
  }
}

export function waitTime(effect: Effect): void {
  const { layout, state } = effect;
  const { action } = effect.doing;
  const waited = action.amounts.map((amount) => secondsWaited(amount.text, layout.table.mark)).find((seconds) => seconds !== undefined);
  for (const row of layout.table.sources) {
    const settled = waited ? row.settles && longEnough(waited, row.settles) : seenGone(effect, row);
    if (row.settles && settled && isolated(layout, state, row)) state[layout.stored + row.index] = STORED.gone;
    wearProof(effect, row);
  }
  // Whoever waits until the gauge shows nothing has read it; where something else is still missing it was a wait and no proof.
  if (action.until !== undefined) readGauges(effect, action.until.text, false);
}
