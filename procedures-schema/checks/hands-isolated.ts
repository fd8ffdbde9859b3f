/** Hands in a zone whose energy is not isolated: L1. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const handsIsolated = flowCheck({
  id: 'hands-isolated',
  severity: 'error',
  question: 'Is every source that endangers a zone isolated before a hand goes in?',
  why: 'The machine can start or strike with a hand in it.',
  source: '29 CFR 1910.147(d)(3); rule L1',
  cases: [
    {
      name: 'the isolator is never switched off',
      finds: 1,
      change: [['Switch the [main isolator] off', '']],
      work: '#. Clean the [scraper].',
    },
    { name: 'the fixture as it is', finds: 0 },
    { name: 'hands outside every zone', finds: 0, body: '## Work\n\n#. Read the [air gauge].\n' },
  ],
  rules: ['H-isolated'],
  message: (v) => `Hands in the ${v.zone ?? 'machine'} at ${placeName(v.at)} while ${v.thing} is not isolated${onVariants(v)}.`,
  expected: (v) => `${missingList(v)} in its safe position before this step`,
});
