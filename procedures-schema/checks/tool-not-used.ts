/** Tools that the front matter lists and no step uses. */
import type { ProcedureCheck, ProcedureFacts } from './check.ts';
import { inventoryOf, registeredName } from './inventory.ts';
import { eachAction } from './visit.ts';

export const toolNotUsed: ProcedureCheck = {
  id: 'tool-not-used',
  scope: 'procedure',
  severity: 'warning',
  question: 'Is every listed tool used by a step, a measurement or a notice?',
  why: 'A tool listed and never used is either a step that was lost or a thing carried for nothing.',
  source: 'IEC/IEEE 82079-1 (from memory), minimalism; reference list in safety-notices, 6',
  cases: [
    { name: 'listed and not used', finds: 1, front: 'tools: [drum wedge]' },
    {
      name: 'screws are undone, and what with is not said',
      finds: 0,
      files: { 'registers/tools.yaml': 'tools:\n  key set: {kind: wrench}\n' },
      front: 'tools: [key set]',
      work: '#. Loosen the two [scraper bolts].\n#. Tighten the two [scraper bolts] to 25 N·m, dry.',
    },
    { name: 'listed and used', finds: 0, front: 'tools: [13 mm wrench]', work: '#. Tighten the [guard screws] with the 13 mm wrench.' },
  ],
  *run(facts, library) {
    const { listed, used } = inventoryOf(facts, 'tool');
    const kinds = new Map(library.registers.tools.map(({ name, kind }) => [name, kind ?? '']));
    const implied = impliedIn(facts);
    // Protective equipment is worn, whether a step says so or not.
    const worn = new Set(facts.head.protection.map(({ name }) => name));
    for (const { name, span } of listed)
      if (
        !worn.has(name) &&
        !used.has(registeredName(facts, 'tool', name)) &&
        !implied.test(kinds.get(registeredName(facts, 'tool', name)) ?? '')
      )
        yield {
          file: facts.file,
          span,
          message: `The tool "${name}" is listed but no step uses it.`,
          actual: 'listed only',
          expected: 'a step that uses it, or a shorter list',
        };
  },
};

/** Kinds of tools that the work itself asks for where no step says what with: screws are undone and tightened with something. */
function impliedIn({ read }: ProcedureFacts): RegExp {
  let turned = false;
  let torque = false;
  for (const { action } of eachAction(read)) {
    const screws = action.things.some(({ thing }) => thing.kind === 'fastener');
    if (!screws || action.with.length > 0 || !['open', 'close', 'loosen', 'tighten'].includes(action.kind)) continue;
    if (action.kind === 'tighten' && action.amounts.length > 0) torque = true;
    else turned = true;
  }
  const kinds = [...(turned ? ['(?<!torque )wrench', 'spanner', 'screwdriver', 'key'] : []), ...(torque ? ['torque wrench'] : [])];
  return kinds.length === 0 ? /(?!)/ : new RegExp(`\\b(?:${kinds.join('|')})\\b`);
}
