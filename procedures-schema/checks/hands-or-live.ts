/** Kinds of action that may not stand outside the proof. */
import { type ActionKind, HANDS_AT_WORK } from '../reading/index.ts';

/** A hand at work, or energy cut off or let in. */
export const HANDS_OR_LIVE: ReadonlySet<ActionKind> = new Set([
  ...HANDS_AT_WORK,
  'isolate',
  'lock',
  'relieve',
  'restrain',
  'unlock',
  'restore',
  'unrelieve',
  'release',
  'start',
  'test-run',
]);

/** Kinds of things that hands go to inside a machine. */
export const INSIDE: ReadonlySet<string> = new Set(['part', 'fastener', 'zone']);
