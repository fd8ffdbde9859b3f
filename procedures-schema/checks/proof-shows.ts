/** A try-out that could show nothing. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const proofShows = flowCheck({
  id: 'proof-shows',
  severity: 'error',
  question: 'Would the machine have moved in the try-out if it had been live?',
  why: 'A try-out with the stop latched or the cover off stands still whether the machine is dead or not.',
  source: 'semantics rule 6; 29 CFR 1910.147(d)(6)',
  cases: [
    {
      name: 'tried with the interlocked guard off',
      finds: 1,
      equipment: [
        ['side guard: {zone', '      side guard: {zone: drum bay, interlocked: yes, may be opened live: yes}'],
        ['guard screws: {count', ''],
      ],
      change: [
        ['Remove the [side guard]', ''],
        ['Send everyone clear of the mixer.', '#. Remove the [side guard].\n#. Send everyone clear of the mixer.'],
      ],
      work: '#. Clean the [scraper].',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['proof-empty'],
  message: (v) => `The try-out at ${placeName(v.at)} proves nothing about ${v.thing}${onVariants(v)}.`,
  expected: () => 'a try-out in a state in which the machine would move were it live, or a meter',
});
