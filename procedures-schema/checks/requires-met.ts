/** A required procedure does not end where this one starts. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';

export const requiresMet = flowCheck({
  id: 'requires-met',
  severity: 'error',
  question: 'Does a required procedure end in the state this one starts with?',
  why: 'Two pages that do not meet leave a gap between them, and hands are in it.',
  source: 'semantics rule 14',
  cases: [
    {
      name: 'the required one ends closed',
      finds: 1,
      front: 'starts with: opened and locked out\nends with: opened and locked out\nrequires: [FX-101]',
      body: '## Work\n\n#. Clean the [scraper].\n',
      files: {
        'procedures/FX-101.md':
          '---\nid: FX-101\ntitle: Clean the scraper\nrevision: "A"\ndate: 2026-01-15\nmodels: [DM-10, DM-20]\ntime: 5 min\npeople: 1\ntools: none\nconsumables: none\nparts: none\nprotection: none\nends with: closed\n---\n\n## Clean\n\n#. Read the [air gauge].\n',
      },
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['requires'],
  message: (v) => `${v.thing} is required, but it does not end in the state this procedure starts with${onVariants(v)}.`,
  expected: (v) => `an end of ${v.thing} that says "${missingList(v)}"`,
});
