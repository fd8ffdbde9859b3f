/** A repeat whose range does not hold what its "until" measures. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const repeatMeasures = flowCheck({
  id: 'repeat-measures',
  severity: 'error',
  question: 'Does a repeated range measure what its "until" asks, and change it in between?',
  why: 'Repeating steps that change nothing goes on for ever; repeating one step too few measures nothing.',
  source: 'semantics rule 17',
  cases: [{ name: 'the fixture as it is', finds: 0 }],
  rules: ['repeat-unmeasured'],
  message: (v) =>
    `The range repeated at ${placeName(v.at)} does not hold ${missingList(v) || 'the measurement of ' + v.thing}${onVariants(v)}.`,
  expected: (v) => `a range from the step that adjusts to the step that measures ${v.thing}`,
});
