/** Where a step puts hands: the zones of what it touches on the machines it is for. The danger of a thing is told by flow/. */
import { tableOf } from '../flow/index.ts';
import type { Action } from '../reading/index.ts';
import type { Machine } from '../registers/index.ts';
import type { HandsIn } from './model.ts';

/** One entry a zone, in the order in which the step comes to it. */
export function handsOf(actions: readonly Action[], machines: readonly Machine[]): readonly HandsIn[] {
  const zones = new Map<string, { things: Set<string>; sources: Set<string> }>();
  for (const action of actions) {
    if (!action.contact || action.outside) continue;
    for (const { thing } of action.things)
      for (const machine of machines) {
        const danger = tableOf(machine).dangerTo(thing.kind, thing.name);
        if (!danger) continue;
        const zone = zones.get(danger.zone) ?? { things: new Set(), sources: new Set() };
        zones.set(danger.zone, zone);
        zone.things.add(thing.name);
        for (const row of danger.sources) zone.sources.add(row.source.name);
      }
  }
  return [...zones].map(([zone, { things, sources }]) => ({ zone, things: [...things], sources: [...sources] }));
}
