/** Consumables that steps use and the front matter does not list. */
import type { ProcedureCheck } from './check.ts';
import { inventoryOf, registeredName } from './inventory.ts';
import { listIt } from './list-it.ts';

export const consumableNotListed: ProcedureCheck = {
  id: 'consumable-not-listed',
  scope: 'procedure',
  severity: 'error',
  question: 'Is every consumable that a step uses in the list of consumables?',
  why: 'The list is what the technician carries to the machine. What is missing there is fetched with the machine open, or done without.',
  source: 'IEC/IEEE 82079-1 (from memory), completeness; reference list in safety-notices, 6',
  cases: [
    { name: 'used and not listed', finds: 1, work: '#. Clean the [scraper] with [degreaser].' },
    { name: 'used and listed', finds: 0, front: 'consumables: [degreaser]', work: '#. Clean the [scraper] with [degreaser].' },
  ],
  *run(facts) {
    const { listed, used } = inventoryOf(facts, 'consumable');
    const names = new Set(listed.map((entry) => registeredName(facts, 'consumable', entry.name)));
    for (const [name, span] of used)
      if (!names.has(name))
        yield {
          file: facts.file,
          span,
          message: `The consumable "${name}" is used here but not listed in the front matter.`,
          actual: 'not listed',
          expected: `"${name}" under consumables`,
          ...listIt(facts, 'consumables', name),
        };
  },
};
