/** Which declared measurements a step takes: what is written in beside it, on paper and in data. */
import { eachReading, type Measurement, type Step } from '../../procedures-schema/index.ts';
import type { Scope } from './scope.ts';

/** Each measurement once a step, in the order named. */
export function measurementsAt(scope: Scope): ReadonlyMap<Step, readonly Measurement[]> {
  const out = new Map<Step, Measurement[]>();
  const declared = scope.facts.head.measurements;
  for (const { reading, step } of eachReading(scope.facts.read)) {
    for (const { actions } of reading.sentences)
      for (const action of actions) {
        if (action.kind !== 'measure' && action.kind !== 'sense') continue;
        for (const { thing } of action.things) {
          const measurement = declared.find((one) => thing.kind === 'measurement' && one.name === thing.name);
          if (measurement === undefined) continue;
          const list = out.get(step.step) ?? [];
          if (!list.includes(measurement)) list.push(measurement);
          out.set(step.step, list);
        }
      }
  }
  return out;
}
