/** The procedures of a symptom, walked in turn, hold together: what one leaves open another closes, and each finds the start it needs. */

import type { LibraryCheck } from './check.ts';
import { WORDED } from './flow-check.ts';
import { listed, wordedWalk } from './visit.ts';

const procedure = (id: string, front: string, body: string): string =>
  `---\nid: ${id}\ntitle: ${id} of the mixer\nrevision: "A"\ndate: 2026-01-15\nmodels: [DM-10, DM-20]\ntime: 5 min\npeople: 1\ntools: none\nconsumables: none\nparts: none\nprotection: none\n${front}\n---\n\n${body}\n`;
const LOCKED = 'starts with: opened and locked out\nends with: opened and locked out';

export const visitHolds: LibraryCheck = {
  id: 'visit-holds',
  scope: 'library',
  severity: 'error',
  question: 'Do the procedures of each symptom hold together when they are walked in turn?',
  why: 'Each page can be right by itself and the visit still leave a guard on the floor: nobody looks at the pages together but the technician.',
  source: 'semantics rule 4; 29 CFR 1910.147(e)(1): the machine is whole before energy comes back',
  cases: [
    {
      name: 'a procedure that starts locked out, and nothing before it',
      finds: 1,
      files: {
        'procedures/FX-101.md': procedure('FX-101', LOCKED, '## Clean\n\n#. Clean the [scraper].'),
        'registers/symptoms.yaml': 'symptoms:\n  drum scrapes: {family: drum mixer, procedures: [FX-101]}\n  ^^^^^^^^^^^^\n',
      },
    },
    { name: 'one procedure that opens and closes by itself', finds: 0 },
  ],
  *run({ visits }) {
    for (const { symptom, violations, orders } of visits)
      for (const violation of violations) {
        const words = WORDED.get(violation.rule);
        if (words === undefined) continue;
        const order = orders.find(({ variants }) => violation.variants.some((name) => variants.includes(name)));
        yield {
          file: symptom.origin.file,
          span: symptom.origin.span,
          severity: violation.severity,
          message: `On a visit for "${symptom.name}" (${listed(order?.numbers ?? [], 'then')}): ${words.message({ ...violation, variants: [] })}`,
          expected: words.expected(violation),
          steps: violation.at.step ? [violation.at.step.fullLabel] : [],
          variants: violation.variants,
          walk: wordedWalk(violation.walk),
          related: [{ file: violation.at.file, span: violation.at.span, message: 'where it shows' }],
        };
      }
  },
};
