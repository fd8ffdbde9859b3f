/** Proved before everything else was done: L5. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const proofInOrder = flowCheck({
  id: 'proof-in-order',
  severity: 'error',
  question: 'Does the try-out or measurement come after isolating, locking and relieving?',
  why: 'Trying a machine that still holds pressure, or whose lock is not on, proves what was, not what will be.',
  source: '29 CFR 1910.147(d), "in sequence"; rule L5',
  cases: [
    {
      name: 'the button before the lock',
      finds: 1,
      change: [
        ['Press the [start button]', ''],
        [
          'Put your lock and tag on',
          '#. Press the [start button]: the drum must not turn.\n#. Put your lock and tag on the [main isolator] and the [air valve].',
        ],
      ],
      work: '#. Clean the [scraper].',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['proof-early'],
  message: (v) => `${v.thing} is proved dead at ${placeName(v.cause ?? v.at)}, before everything else is done${onVariants(v)}.`,
  expected: (v) => `proof after ${missingList(v)}`,
});
