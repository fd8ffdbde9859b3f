/** An outcome used before it was measured. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const outcomeMeasured = flowCheck({
  id: 'outcome-measured',
  severity: 'error',
  question: 'Was every outcome measured before the text decides by it?',
  why: '"If it is over the limit" before anything was read sends everybody the same way.',
  source: 'semantics rule 15',
  cases: [{ name: 'the fixture as it is', finds: 0 }],
  rules: ['outcome-unread'],
  message: (v) => `${placeName(v.at)} decides by ${v.thing}, which is not measured on this walk${onVariants(v)}.`,
  expected: (v) => `a step that measures ${v.thing} before, and again after adjusting it`,
});
