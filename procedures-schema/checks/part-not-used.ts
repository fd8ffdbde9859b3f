/** Parts that the front matter lists and no step uses. */
import type { ProcedureCheck } from './check.ts';
import { inventoryOf, registeredName } from './inventory.ts';

export const partNotUsed: ProcedureCheck = {
  id: 'part-not-used',
  scope: 'procedure',
  severity: 'warning',
  question: 'Is every listed part used by a step, a measurement or a notice?',
  why: 'A part listed and never used is either a step that was lost or a thing carried for nothing.',
  source: 'IEC/IEEE 82079-1 (from memory), minimalism; reference list in safety-notices, 6',
  cases: [
    { name: 'listed and not used', finds: 1, front: 'parts: [scraper blade kit]' },
    {
      name: 'listed and used',
      finds: 0,
      front: 'parts: [scraper blade kit]',
      work: '#. Renew the [scraper] with the [scraper blade kit].',
    },
  ],
  *run(facts) {
    const { listed, used } = inventoryOf(facts, 'replacement');
    for (const { name, span } of listed)
      if (!used.has(registeredName(facts, 'replacement', name)))
        yield {
          file: facts.file,
          span,
          message: `The part "${name}" is listed but no step uses it.`,
          actual: 'listed only',
          expected: 'a step that uses it, or a shorter list',
        };
  },
};
