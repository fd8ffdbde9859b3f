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

/** Measured until it passes, or at more than one step. */
export function readTwice(scope: Scope): ReadonlySet<string> {
  const twice = new Set<string>();
  const at = new Map<string, Set<Step>>();
  let latest: string | undefined;
  const known = (name: string): Measurement | undefined => scope.facts.head.measurements.find((one) => one.name === name);
  for (const { reading, step } of eachReading(scope.facts.read))
    for (const action of reading.sentences.flatMap((sentence) => sentence.actions)) {
      if (action.kind === 'measure' || action.kind === 'sense')
        for (const { thing } of action.things) {
          if (known(thing.name) === undefined) continue;
          latest = thing.name;
          at.set(thing.name, (at.get(thing.name) ?? new Set()).add(step.step));
        }
      if (action.kind !== 'repeat' || action.until?.kind !== 'outcome') continue;
      const subject = action.until.subject ?? latest;
      if (subject !== undefined) twice.add(subject);
    }
  for (const [name, steps] of at) if (steps.size > 1) twice.add(name);
  return twice;
}
