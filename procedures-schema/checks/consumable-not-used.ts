/** Consumables that the front matter lists and no step uses. */
import type { ProcedureCheck } from './check.ts';
import { inventoryOf, registeredName } from './inventory.ts';

export const consumableNotUsed: ProcedureCheck = {
  id: 'consumable-not-used',
  scope: 'procedure',
  severity: 'warning',
  question: 'Is every listed consumable used by a step, a measurement or a notice?',
  why: 'A consumable listed and never used is either a step that was lost or a thing carried for nothing.',
  source: 'IEC/IEEE 82079-1 (from memory), minimalism; reference list in safety-notices, 6',
  cases: [
    { name: 'listed and not used', finds: 1, front: 'consumables: [bearing grease]' },
    { name: 'listed and used', finds: 0, front: 'consumables: [degreaser]', work: '#. Clean the [scraper] with [degreaser].' },
  ],
  *run(facts) {
    const { listed, used } = inventoryOf(facts, 'consumable');
    for (const { name, span } of listed)
      if (!used.has(registeredName(facts, 'consumable', name)))
        yield {
          file: facts.file,
          span,
          message: `The consumable "${name}" is listed but no step uses it.`,
          actual: 'listed only',
          expected: 'a step that uses it, or a shorter list',
        };
  },
};
