/** A measurement with an outcome that leads nowhere. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { listed, placeName } from './visit.ts';

const byModel =
  'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: table gap';
const work = (first: string, second: string): string =>
  `#. Read the [scraper gap].\n   - If it is within the limits, go on.\n   - If it is over the limit, stop and call the works office.\n\n| model | lower | upper |\n|---|---|---|\n| DM-10 | ${first} | 1.5 mm |\n| DM-20 | ${second} | 1.5 mm |\n\n{#gap}`;
const seats = (to: string, from: string): readonly (readonly [string, string])[] => [
  ['  DM-20: {family', `  DM-20: {family: drum mixer, serials: [{to: 99, seat offset: ${to}}, {from: 100, seat offset: ${from}}]}`],
];

export const outcomeAnswered = flowCheck({
  id: 'outcome-answered',
  severity: 'error',
  question: 'Has every outcome of a measurement, and every model where branches go by model, a next step?',
  why: 'A reading outside the branches leaves the technician to guess.',
  source: 'semantics rule 16; IEC/IEEE 82079-1 (from memory), completeness',
  cases: [
    {
      name: 'over and under are left open',
      finds: 1,
      front:
        'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}',
      work: '#. Read the [scraper gap].\n   - If it is within the limits, go on.',
    },
    {
      name: 'several things that may fail, and no word for when they pass',
      finds: 1,
      front:
        'tools: [feeler gauge]\nmeasurements:\n  edges:\n    quantity: finish\n    at: both edges of the blade\n    pass: bright all along\n    fail: a dark nick',
      work: '#. Check the [edges]: look along the [scraper].\n   - If they fail, stop and call the works office.',
    },
    {
      name: 'every outcome has its way',
      finds: 0,
      front:
        'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}',
      work: '#. Read the [scraper gap].\n   - If it is within the limits, go on.\n   - Otherwise stop and call the works office.',
    },
    {
      name: 'nothing lies under the limits of the first model, but under those of the second',
      finds: 1,
      front: byModel,
      work: work('0 mm', '0.5 mm'),
    },
    { name: 'nothing lies under the limits of any model', finds: 0, front: byModel, work: work('0 mm', '0 mm') },
    {
      name: 'under the limits of the later serial numbers',
      finds: 1,
      front: byModel,
      work: work('0 mm', 'seat offset'),
      equipment: seats('0 mm', '0.5 mm'),
    },
    {
      name: 'nothing lies under the limits of any serial number',
      finds: 0,
      front: byModel,
      work: work('0 mm', 'seat offset'),
      equipment: seats('0 mm', '0 mm'),
    },
    {
      name: 'branches by model, and one model has none',
      finds: 1,
      work: '#. Go by the model.\n   - For the DM-10: clean the [scraper].',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['outcome-open'],
  message: (v) =>
    v.thing === ''
      ? `${placeName(v.at)} has no branch for ${v.variants.length === 0 ? 'any model' : listed(v.variants)}.`
      : `${placeName(v.at)} leaves an outcome of ${v.thing} without a next step: ${missingList(v)}${onVariants(v)}.`,
  expected: (v) =>
    v.thing === '' ? 'a branch for each model, or "Otherwise"' : `a branch for ${missingList(v)}, or a general sentence after the branches`,
});
