/** Breaches of all groups to violations: one a cause, with the shortest walk, the variants it breaks and how many later places share it. */
import type { Machine } from '../registers/index.ts';
import type { Found } from './causes.ts';
import type { FlowPlace, Violation } from './model.ts';
import type { Solved } from './solve.ts';

/** One violation a cause: rule, thing, the step that made it so. All variants and the count of later places come along. */
export function merge(
  solved: readonly { group: readonly Machine[]; result: Solved }[],
  all: readonly string[],
  /** Where a proof that stopped at its bound is told. */
  bounded: FlowPlace,
): Violation[] {
  const byCause = new Map<string, { first: Found; variants: Set<string>; places: Set<string> }>();
  for (const { group, result } of solved) {
    for (const found of result.found) {
      const key = `${found.breach.rule}\n${found.breach.thing}\n${placeKey(found.cause)}${found.breach.bits.length === 0 ? placeKey(found.at) : ''}`;
      const known = byCause.get(key);
      const entry = known ?? { first: found, variants: new Set<string>(), places: new Set<string>() };
      if (
        known &&
        (found.length < known.first.length ||
          (found.length === known.first.length && (found.at.step?.order ?? 0) < (known.first.at.step?.order ?? 0)))
      )
        entry.first = found;
      for (const machine of group) entry.variants.add(machine.variant.name);
      entry.places.add(placeKey(found.at));
      byCause.set(key, entry);
    }
    if (result.bounded !== undefined) {
      byCause.set(`bound`, {
        first: {
          breach: { rule: 'bound', thing: result.bounded, missing: [], bits: [], severity: 'warning' },
          at: bounded,
          cause: undefined,
          walk: [],
          length: 0,
          doubts: [],
        },
        variants: new Set(group.map((machine) => machine.variant.name)),
        places: new Set(),
      });
    }
  }
  return [...byCause.values()].map(({ first, variants, places }): Violation => {
    const { breach, at, cause, walk } = first;
    return {
      rule: breach.rule,
      thing: breach.thing,
      at,
      walk,
      variants: variants.size === all.length ? [] : all.filter((name) => variants.has(name)),
      later: Math.max(0, places.size - 1),
      severity: breach.severity,
      missing: breach.missing,
      ...(breach.others ? { others: true } : {}),
      ...(breach.zone === undefined ? {} : { zone: breach.zone }),
      ...(cause ? { cause } : {}),
    };
  });
}

export function placeKey(place: FlowPlace | undefined): string {
  return place ? `${place.file}:${place.span.start}` : 'start';
}
