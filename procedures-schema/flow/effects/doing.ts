/** One action being done to one state: what is known of it, and the breaches found while it is done. */
import type { Action, ThingUse } from '../../reading/index.ts';
import type { EnergyKind } from '../../registers/index.ts';
import type { ActFacts } from '../code.ts';
import type { Rule } from '../model.ts';
import type { Layout, State } from '../state.ts';

/** The state as it becomes while an action is done. */
export interface Effect {
  readonly layout: Layout;
  readonly state: State;
  readonly doing: Doing;
  readonly breaches: Breach[];
  /** The bit of who does it in a lock. */
  readonly role: number;
}

export function beginEffect(layout: Layout, before: State, doing: Doing): Effect {
  const at = doing.action.role === undefined ? 0 : layout.roles.indexOf(doing.action.role) + 1;
  return { layout, state: before.slice(), doing, breaches: [], role: 1 << Math.max(0, Math.min(at, 6)) };
}

/** A rule broken here: `bits` are the places of the state that should have been otherwise. */
export interface Breach {
  readonly rule: Rule;
  readonly thing: string;
  readonly zone?: string;
  readonly missing: readonly string[];
  readonly bits: readonly number[];
  /** Which of the bits' values count: the locks of one role. Left out, all. */
  readonly mask?: number;
  /** Every point that is missing carries a lock, but of somebody else: 29 CFR 1910.147(f)(3)(ii)(D), each puts on their own. */
  readonly others?: true;
  readonly severity: 'error' | 'warning';
}

export interface Done {
  readonly state: State;
  readonly breaches: readonly Breach[];
}

/** Kinds of procedure facts an effect may need. */
export interface Doing {
  readonly action: Action;
  readonly facts: ActFacts;
  readonly liveTask: boolean;
  readonly temporary: (tool: string) => boolean;
  readonly toolKind: (tool: string) => string | undefined;
  /** What kind of energy a tool makes: a jack, a hoist, a hand pump. */
  readonly makes: (tool: string) => EnergyKind | undefined;
  /** The part a replacement renews. */
  readonly renews: (replacement: string) => string | undefined;
  readonly quantityOf: (measurement: string) => string;
  /** The upper limit of a measurement as typed, the same on all models. */
  readonly upperOf: (measurement: string) => string | undefined;
}

export function tellBreach(
  effect: Effect,
  rule: Rule,
  thing: string,
  missing: readonly string[],
  bits: readonly number[],
  zone?: string,
  severity: Breach['severity'] = 'error',
  mask?: number,
  others = false,
): void {
  effect.breaches.push({
    rule,
    thing,
    missing,
    bits,
    severity,
    ...(zone === undefined || zone === '' ? {} : { zone }),
    ...(mask === undefined ? {} : { mask }),
    ...(others ? { others } : {}),
  });
}

export function thingsOf(effect: Effect, kind: string): readonly ThingUse[] {
  return effect.doing.action.things.filter((use) => use.thing.kind === kind);
}

export function pointsOf(effect: Effect): number[] {
  return thingsOf(effect, 'point').flatMap((use) => effect.layout.table.points.get(use.thing.name) ?? []);
}

/** The words depend on the state of the thing, or on what the reader finds, which may be its state. semantics.md 13. */
export function asksState(effect: Effect): boolean {
  return effect.doing.action.when.some(({ kind }) => kind === 'state' || kind === 'fact' || kind === 'unread');
}
