/** A repeat whose range does not hold what its "until" measures. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const repeatMeasures = flowCheck({
  id: 'repeat-measures',
  severity: 'error',
  question: 'Does a repeated range measure what its "until" asks, and change it in between?',
  why: 'Repeating steps that change nothing goes on for ever; repeating one step too few measures nothing.',
  source: 'semantics rule 17',
  cases: [
    {
      name: 'one step too few',
      finds: 1,
      front:
        'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}',
      work: '#. {#clean} Clean the [scraper].\n#. Read the [scraper gap].\n#. Repeat [step #clean] until the [scraper gap] is within the limits.',
    },
    {
      name: 'from cleaning to reading',
      finds: 0,
      front:
        'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}',
      work: '#. {#clean} Clean the [scraper].\n#. {#read} Read the [scraper gap].\n#. Repeat [steps #clean to #read] until the [scraper gap] is within the limits.',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['repeat-unmeasured'],
  message: (v) =>
    `The range repeated at ${placeName(v.at)} does not hold ${missingList(v) || `the measurement of ${v.thing}`}${onVariants(v)}.`,
  expected: (v) => `a range from the step that adjusts to the step that measures ${v.thing}`,
});
