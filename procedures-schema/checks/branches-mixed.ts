/** Bullets under a step are either all conditions or none. */
import { formCheck } from './form.ts';

export const branchesMixed = formCheck(
  {
    id: 'branches-mixed',
    severity: 'error',
    question: 'Do the bullets of a step all start with a condition, or none of them?',
    why: 'Bullets with conditions are ways to choose from, bullets without are all to be done; mixed, a reader cannot tell which.',
    source: 'format rule F6',
    cases: [
      {
        name: 'one condition, one order',
        finds: 1,
        work: '#. Clean the [scraper].\n   - If the edge is worn, renew it.\n   - Clean the drum.',
      },
      {
        name: 'two conditions',
        finds: 0,
        work: '#. Look at the [scraper].\n   - If the edge is worn, stop and call the works office.\n   - Otherwise continue.',
      },
    ],
  },
  ['branches'],
);
