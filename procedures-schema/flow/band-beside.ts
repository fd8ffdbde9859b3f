/**
 * The state that is shown beside a step, on paper and on the screen alike: the worst from its beginning to its end, its substeps included. Where not all is
 * proved only what is known to be live is told; anything better would be a claim.
 */
import type { LabelledStep } from '../numbering/index.ts';
import type { Band, FlowResult } from './model.ts';

/** live: a hand could be hurt. cut: cut off, not proved dead. safe, open: made safe, covers on or off. unknown: not proved, to be taken as live. */
export type ShownBand = Band | 'unknown';

/** From the best to the worst: what is live is worse than what nobody knows. */
const RANK: readonly ShownBand[] = ['safe', 'open', 'cut', 'unknown', 'live'];

type Told = Pick<FlowResult, 'during'>;

/** On every variant. */
export const provedOnAll = ({ verdicts }: Pick<FlowResult, 'verdicts'>): boolean => verdicts.every(({ verdict }) => verdict === 'proved');

/** Of one step by itself. A step that no walk reaches is in no state. */
export function bandAt(at: LabelledStep, flow: Told, proved: boolean): ShownBand {
  const band = flow.during.get(at) ?? 'unknown';
  return proved || band === 'live' ? band : 'unknown';
}

/** `steps`: all of the procedure, in order. */
export function bandBeside(at: LabelledStep, steps: readonly LabelledStep[], flow: Told, proved: boolean): ShownBand {
  let worst = RANK.indexOf(bandAt(at, flow, proved));
  for (let order = at.order + 1; order < steps.length; order += 1) {
    const one = steps[order] as LabelledStep;
    if (one.section !== at.section || one.path.length <= at.path.length) break;
    // A substep that no walk reaches leaves its step what it is.
    if (flow.during.has(one)) worst = Math.max(worst, RANK.indexOf(bandAt(one, flow, proved)));
  }
  return RANK[worst] as ShownBand;
}
