/** Parts that steps use and the front matter does not list. */
import type { ProcedureCheck } from './check.ts';
import { inventoryOf, registeredName } from './inventory.ts';
import { listIt } from './list-it.ts';

export const partNotListed: ProcedureCheck = {
  id: 'part-not-listed',
  scope: 'procedure',
  severity: 'error',
  question: 'Is every part that a step uses in the list of parts?',
  why: 'The list is what the technician carries to the machine. What is missing there is fetched with the machine open, or done without.',
  source: 'IEC/IEEE 82079-1 (from memory), completeness; reference list in safety-notices, 6',
  cases: [
    { name: 'used and not listed', finds: 1, work: '#. Renew the [scraper] with the [scraper blade kit].' },
    {
      name: 'used and listed',
      finds: 0,
      front: 'parts: [scraper blade kit]',
      work: '#. Renew the [scraper] with the [scraper blade kit].',
    },
  ],
  *run(facts) {
    const { listed, used } = inventoryOf(facts, 'replacement');
    const names = new Set(listed.map((entry) => registeredName(facts, 'replacement', entry.name)));
    for (const [name, span] of used)
      if (!names.has(name))
        yield {
          file: facts.file,
          span,
          message: `The part "${name}" is used here but not listed in the front matter.`,
          actual: 'not listed',
          expected: `"${name}" under parts`,
          ...listIt(facts, 'parts', name),
        };
  },
};
