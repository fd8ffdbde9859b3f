/** The end reached is not the end that is said. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const endAsSaid = flowCheck({
  id: 'end-as-said',
  severity: 'error',
  question: 'Does the procedure end in the state its front matter says?',
  why: 'The next page begins where this one says it ends.',
  source: 'semantics rule 3',
  cases: [
    { name: 'said locked out and switched on', finds: 3, front: 'ends with: opened and locked out' },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['ends-with'],
  message: (v) => `The procedure ends at ${placeName(v.at)} in another state than it says: ${missingList(v)}${onVariants(v)}.`,
  expected: () => 'an end as said under "ends with"',
});
