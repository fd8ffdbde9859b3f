/** What a writer may say outright of a step (F14), by the first word of `reads`. A lock, a try-out or clear people can never be said so. */
import type { ActionKind } from './action-kinds.ts';

export const OVERRIDE_VERBS: Readonly<Record<string, ActionKind>> = {
  isolates: 'isolate',
  relieves: 'relieve',
  restrains: 'restrain',
  opens: 'open',
  closes: 'close',
  removes: 'open',
  refits: 'close',
  measures: 'measure',
  adjusts: 'adjust',
  cleans: 'clean',
  observes: 'observe',
  senses: 'sense',
  moves: 'move',
  restores: 'restore',
  nothing: 'refer',
};
