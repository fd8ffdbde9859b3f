/** Procedures that call themselves. */
import { flowCheck } from './flow-check.ts';
import { placeName } from './visit.ts';

export const noCircles = flowCheck({
  id: 'no-circles',
  severity: 'error',
  question: 'Do procedures call each other without going round in a circle?',
  why: 'A circle of calls has no end, on paper or in the proof.',
  source: 'semantics rule 14',
  cases: [
    {
      name: 'each calls the other',
      finds: 2,
      work: '#. Do [FX-101].',
      files: {
        'procedures/FX-101.md':
          '---\nid: FX-101\ntitle: Clean the scraper\nrevision: "A"\ndate: 2026-01-15\nmodels: [DM-10, DM-20]\ntime: 5 min\npeople: 1\ntools: none\nconsumables: none\nparts: none\nprotection: none\nstarts with: opened and locked out\nends with: opened and locked out\n---\n\n## Clean\n\n#. Do [FX-100].\n',
      },
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['recursion'],
  message: (v) => `${placeName(v.at)} calls ${v.thing}, which comes back to this procedure.`,
  expected: () => 'a call that ends',
});
