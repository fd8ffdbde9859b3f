/** Which ways a condition may go in a state: fixed by the variant, by the state, or free. A free answer is remembered where it is asked again. */
import type { Condition } from '../reading/index.ts';
import type { Variant } from '../registers/index.ts';
import { ALL_OUTCOMES } from './effects/measured.ts';
import { COVER, FASTENER, type Layout, PART, POINT, type State, withBit } from './state.ts';

export interface Way {
  readonly holds: boolean;
  readonly state: State;
}

const BITS = { under: 1, within: 2, over: 4, pass: 8, fail: 16, 'not-within': 5 } as const;

/** Outcomes that are left, as bits, once it was asked and held or did not. */
export function leftBy(outcome: keyof typeof BITS, holds: boolean): number {
  return holds ? BITS[outcome] : ALL_OUTCOMES & ~BITS[outcome];
}

/** `possible` are the outcomes a measurement can have, as bits. Undefined when it was never measured on this walk. */
export function waysOf(
  condition: Condition,
  layout: Layout,
  state: State,
  variant: Variant,
  possible: (subject: string) => number,
): readonly Way[] | 'unmeasured' {
  switch (condition.kind) {
    case 'variant':
      return [{ holds: holdsFor(condition, variant), state }];
    case 'outcome': {
      const at = condition.subject === undefined ? -1 : layout.outcomes.indexOf(condition.subject);
      if (at < 0 || condition.subject === undefined) return both(state);
      const now = (state[layout.outcome + at] ?? 0) & possible(condition.subject);
      if (now === 0) return 'unmeasured';
      const yes = now & BITS[condition.outcome];
      const no = now & ~BITS[condition.outcome];
      return [
        ...(yes !== 0 ? [{ holds: true, state: withBit(state, layout.outcome + at, yes) }] : []),
        ...(no !== 0 ? [{ holds: false, state: withBit(state, layout.outcome + at, no) }] : []),
      ];
    }
    case 'state': {
      const known = stateOf(condition, layout, state);
      return known === undefined ? both(state) : [{ holds: known !== condition.negated, state }];
    }
    case 'fact': {
      const at = layout.facts.indexOf(condition.key);
      if (at < 0) return both(state);
      const told = state[layout.fact + at];
      if (told === 1 || told === 2) return [{ holds: (told === 1) !== condition.negated, state }];
      return [
        { holds: !condition.negated, state: withBit(state, layout.fact + at, 1) },
        { holds: condition.negated, state: withBit(state, layout.fact + at, 2) },
      ];
    }
    case 'unread':
      return both(state);
  }
}

const both = (state: State): readonly Way[] => [
  { holds: true, state },
  { holds: false, state },
];

export function holdsFor(condition: Extract<Condition, { kind: 'variant' }>, variant: Variant): boolean {
  const model = condition.models.length === 0 || condition.models.includes(variant.model);
  const option = condition.options.length === 0 || condition.options.some((name) => variant.options.includes(name));
  const { serial } = condition;
  // A variant without serial range is any serial: then a serial condition may hold; taken as holding where ranges agree.
  const serials =
    serial === undefined ||
    variant.serial === undefined ||
    ((serial.from ?? 0) <= (variant.serial.from ?? 0) && (variant.serial.to ?? 999_999_999) <= (serial.to ?? 999_999_999));
  return (model && option && serials) !== condition.negated;
}

function stateOf(condition: Extract<Condition, { kind: 'state' }>, layout: Layout, state: State): boolean | undefined {
  const { table } = layout;
  const { name, kind } = condition.thing;
  if (kind === 'point') {
    const at = table.points.get(name);
    if (at === undefined) return undefined;
    const safe = table.machine.sources
      .flatMap((source) => [...source.isolate, ...source.relieve, ...source.restrain])
      .find((use) => use.point === name)?.safe;
    const same = safe !== undefined && (safe === condition.state || (safe === 'closed' && condition.state === 'shut'));
    return (state[layout.point + at] === POINT.safe) === same;
  }
  if (kind === 'cover' || kind === 'part') {
    const at = (kind === 'cover' ? table.covers : table.parts).get(name);
    if (at === undefined) return undefined;
    const value = state[(kind === 'cover' ? layout.cover : layout.part) + at];
    const open = value === COVER.open || value === PART.out || value === COVER.given;
    return ['open', 'out', 'off'].includes(condition.state) ? open : ['shut', 'in', 'on'].includes(condition.state) ? !open : undefined;
  }
  if (kind === 'fastener') {
    const at = table.fasteners.get(name);
    return at === undefined ? undefined : state[layout.fastener + at] === FASTENER.loose;
  }
  return undefined;
}
