/** What "in reverse order" makes of an action: its inverse, nothing to do, or no inverse at all (then it must be said). */
import type { Action, ActionKind } from '../reading/index.ts';

const INVERSE: Partial<Record<ActionKind, ActionKind>> = {
  open: 'close',
  close: 'open',
  loosen: 'tighten',
  tighten: 'loosen',
  'put-in': 'take-out',
  'take-out': 'put-in',
  isolate: 'restore',
  restore: 'isolate',
  lock: 'unlock',
  unlock: 'lock',
  tag: 'untag',
  untag: 'tag',
  relieve: 'unrelieve',
  unrelieve: 'relieve',
  restrain: 'release',
  release: 'restrain',
};
/** Looking, reading and telling undo nothing. */
const NOTHING: readonly ActionKind[] = [
  'observe',
  'sense',
  'measure',
  'prove',
  'try-out',
  'tell',
  'clear-people',
  'take-tools',
  'stand-clear',
  'protect',
  'wait',
  'refer',
  'use',
  'record',
  'shut-down',
  'clean',
  'go-to',
  'repeat',
  'call',
];

export function inverseOf(action: Action): Action | 'nothing' | 'none' {
  const screws = action.things.length > 0 && action.things.every((use) => use.thing.kind === 'fastener');
  // Screws that were taken out go back in and are tightened: torques are part of the reverse.
  const kind = action.kind === 'open' && screws ? 'tighten' : INVERSE[action.kind];
  if (kind !== undefined) {
    const { stage: _stage, until: _until, target: _target, result: _result, ...rest } = action;
    return { ...rest, kind };
  }
  return NOTHING.includes(action.kind) ? 'nothing' : 'none';
}
