/** The band beside a printed step: the worst from its beginning to its end, its substeps included. */
import type { LabelledStep, ProcedureFacts } from '../../procedures-schema/index.ts';
import type { BandState } from '../book.ts';

const RANK: readonly BandState[] = ['safe', 'open', 'cut', 'live', 'unknown'];

/** What was not proved may be live for all anybody knows, and a step no walk reaches is in no state. */
export function bandBeside(at: LabelledStep, { flow, read }: ProcedureFacts): BandState {
  if (!flow.verdicts.every(({ verdict }) => verdict === 'proved')) return 'unknown';
  let worst = 0;
  const { steps } = read.labels;
  for (let order = at.order; order < steps.length; order += 1) {
    const one = steps[order] as LabelledStep;
    if (order > at.order && (one.section !== at.section || one.path.length <= at.path.length)) break;
    // A substep that no walk reaches leaves its step what it is.
    const state = flow.during.get(one) ?? (order === at.order ? 'unknown' : 'safe');
    worst = Math.max(worst, RANK.indexOf(state));
  }
  return RANK[worst] as BandState;
}
