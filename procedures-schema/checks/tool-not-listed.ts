/** Tools that steps use and the front matter does not list. */
import type { ProcedureCheck } from './check.ts';
import { inventoryOf, registeredName } from './inventory.ts';
import { listIt } from './list-it.ts';

export const toolNotListed: ProcedureCheck = {
  id: 'tool-not-listed',
  scope: 'procedure',
  severity: 'error',
  question: 'Is every tool that a step uses in the list of tools?',
  why: 'The list is what the technician carries to the machine. What is missing there is fetched with the machine open, or done without.',
  source: 'IEC/IEEE 82079-1 (from memory), completeness; reference list in safety-notices, 6',
  cases: [
    { name: 'used and not listed', finds: 1, work: '#. Tighten the [guard screws] with the 13 mm wrench.' },
    { name: 'used and listed', finds: 0, front: 'tools: [13 mm wrench]', work: '#. Tighten the [guard screws] with the 13 mm wrench.' },
  ],
  *run(facts, { registers }) {
    const protective = new Set(registers.tools.filter((tool) => tool.protective).map((tool) => tool.name));
    const { listed, used } = inventoryOf(facts, 'tool');
    const names = new Set(listed.map((entry) => registeredName(facts, 'tool', entry.name)));
    for (const [name, span] of used)
      if (!names.has(name))
        yield {
          file: facts.file,
          span,
          message: `The tool "${name}" is used here but not listed in the front matter.`,
          actual: 'not listed',
          expected: `"${name}" under tools`,
          ...listIt(facts, protective.has(name) ? 'protection' : 'tools', name),
        };
  },
};
