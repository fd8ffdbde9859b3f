/** What an action reads anew: every outcome of it is possible again. */
import type { Action, ActionKind } from '../../reading/index.ts';
import type { Effect } from './doing.ts';

export function noteMeasured(effect: Effect): void {
  const { layout, state } = effect;
  for (const name of measuredBy(effect.doing.action)) {
    const at = layout.outcomes.indexOf(name);
    if (at >= 0) state[layout.outcome + at] = ALL_OUTCOMES;
  }
}

/** Measurements that an action reads anew. */
export function measuredBy({ kind, things }: Action): readonly string[] {
  if (!READS.has(kind)) return [];
  return things.flatMap(({ thing }) => (thing.kind === 'measurement' ? [thing.name] : []));
}

const READS: ReadonlySet<ActionKind> = new Set(['prove', 'observe', 'measure', 'sense']);

/** Under, within, over, pass, fail: every outcome possible. */
export const ALL_OUTCOMES = 31;
