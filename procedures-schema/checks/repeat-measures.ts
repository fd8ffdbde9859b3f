/** A repeat whose range does not hold what its "until" measures. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

const GAP =
  'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}';
const ADJUST =
  '#. {#read} Measure the [scraper gap] with the [feeler gauge].\n   - If it is within the limits, go on with [step #on].\n   - If it is under or over the limits, clean the [scraper].';

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
    {
      name: 'until what is not said',
      finds: 1,
      front: GAP,
      work: `${ADJUST}\n#. Repeat [step #read].\n#. {#on} Look at the [scraper].`,
    },
    {
      name: 'once more, for the other side',
      finds: 0,
      front: GAP,
      work: `${ADJUST}\n#. Repeat [step #read] for the other side.\n#. {#on} Look at the [scraper].`,
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['repeat-unmeasured'],
  message: (v) =>
    v.thing === ''
      ? `${placeName(v.at)} repeats what goes by a reading, and does not say until when.`
      : `The range repeated at ${placeName(v.at)} does not hold ${missingList(v) || `the measurement of ${v.thing}`}${onVariants(v)}.`,
  expected: (v) =>
    v.thing === ''
      ? '"until" with the reading that is enough, or what the steps are repeated for: "for the other side"'
      : `a range from the step that adjusts to the step that measures ${v.thing}`,
});
