/**
 * What a writer may say outright of a step (F14), by the first word of `reads`, and of which kinds of thing. A lock, a try-out or clear people can
 * never be said so. A verb of a thing that it cannot be done to would be taken for an instruction that does nothing.
 */
import type { ThingKind } from '../registers/model.ts';
import type { ActionKind } from './action-kinds.ts';

export interface OverrideVerb {
  readonly kind: ActionKind;
  readonly of: readonly ThingKind[];
}

/** For each kind of thing what is likeliest comes first. */
export const OVERRIDE_VERBS: Readonly<Record<string, OverrideVerb>> = {
  isolates: { kind: 'isolate', of: ['point'] },
  relieves: { kind: 'relieve', of: ['point', 'source'] },
  restrains: { kind: 'restrain', of: ['point'] },
  restores: { kind: 'restore', of: ['point'] },
  opens: { kind: 'open', of: ['cover'] },
  removes: { kind: 'open', of: ['cover', 'part', 'fastener'] },
  refits: { kind: 'close', of: ['cover', 'part', 'fastener', 'replacement'] },
  closes: { kind: 'close', of: ['cover'] },
  measures: { kind: 'measure', of: ['measurement', 'gauge'] },
  senses: { kind: 'sense', of: ['measurement'] },
  cleans: { kind: 'clean', of: ['part', 'cover', 'fastener', 'gauge', 'control', 'zone', 'machine', 'replacement', 'tool'] },
  adjusts: { kind: 'adjust', of: ['part', 'cover', 'control', 'measurement'] },
  moves: { kind: 'move', of: ['part', 'control', 'cover', 'machine'] },
  observes: {
    kind: 'observe',
    of: ['gauge', 'part', 'cover', 'fastener', 'control', 'point', 'zone', 'machine', 'replacement', 'tool'],
  },
  nothing: { kind: 'refer', of: [] },
};

export const mayBeSaidOf = (verb: string, kind: ThingKind): boolean =>
  Object.hasOwn(OVERRIDE_VERBS, verb) && OVERRIDE_VERBS[verb]?.of.includes(kind) === true;
