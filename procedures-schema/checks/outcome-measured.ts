/** An outcome used before it was measured. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const outcomeMeasured = flowCheck({
  id: 'outcome-measured',
  severity: 'error',
  question: 'Was every outcome measured before the text decides by it?',
  why: '"If it is over the limit" before anything was read sends everybody the same way.',
  source: 'semantics rule 15',
  cases: [
    {
      name: 'decided before it is read',
      finds: 1,
      front:
        'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}',
      work: '#. If the [scraper gap] is over the limit, stop and call the works office.\n#. Read the [scraper gap].',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['outcome-unread'],
  message: (v) => `${placeName(v.at)} decides by ${v.thing}, which is not measured on this walk${onVariants(v)}.`,
  expected: (v) => `a step that measures ${v.thing} before, and again after adjusting it`,
});
