/** A called procedure starts in a state the caller has not made. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const startEstablished = flowCheck({
  id: 'start-established',
  severity: 'error',
  question: 'Does every caller and visit establish the state in which the called procedure starts?',
  why: 'The called page takes for granted that the machine is open and locked out.',
  source: 'semantics rules 3 and 14',
  cases: [
    {
      name: 'called on a live machine',
      finds: 1,
      body: '## Work\n\n#. Do [FX-101].\n',
      files: {
        'procedures/FX-101.md':
          '---\nid: FX-101\ntitle: Clean the scraper\nrevision: "A"\ndate: 2026-01-15\nmodels: [DM-10, DM-20]\ntime: 5 min\npeople: 1\ntools: none\nconsumables: none\nparts: none\nprotection: none\nstarts with: opened and locked out\nends with: opened and locked out\n---\n\n## Clean\n\n#. Clean the [scraper].\n',
      },
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['starts-with'],
  message: (v) => `${v.thing} is entered from ${placeName(v.at)} in another state than it starts with: ${missingList(v)}${onVariants(v)}.`,
  expected: (v) => `the state that ${v.thing} starts with`,
});
