/** Tools that the front matter lists and no step uses. */
import type { ProcedureCheck } from './check.ts';
import { inventoryOf, registeredName } from './inventory.ts';

export const toolNotUsed: ProcedureCheck = {
  id: 'tool-not-used',
  scope: 'procedure',
  severity: 'warning',
  question: 'Is every listed tool used by a step, a measurement or a notice?',
  why: 'A tool listed and never used is either a step that was lost or a thing carried for nothing.',
  source: 'IEC/IEEE 82079-1 (from memory), minimalism; reference list in safety-notices, 6',
  cases: [
    { name: 'listed and not used', finds: 1, front: 'tools: [drum wedge]' },
    { name: 'listed and used', finds: 0, front: 'tools: [13 mm wrench]', work: '#. Tighten the [guard screws] with the 13 mm wrench.' },
  ],
  *run(facts) {
    const { listed, used } = inventoryOf(facts, 'tool');
    // Protective equipment is worn, whether a step says so or not.
    const worn = new Set(facts.head.protection.map(({ name }) => name));
    for (const { name, span } of listed)
      if (!worn.has(name) && !used.has(registeredName(facts, 'tool', name)))
        yield {
          file: facts.file,
          span,
          message: `The tool "${name}" is listed but no step uses it.`,
          actual: 'listed only',
          expected: 'a step that uses it, or a shorter list',
        };
  },
};
