/** Steps that clamp an earth on. EN 50110-1 (order from memory): earthed at once when it is tested dead. */
import type { ReadStep } from '../../procedures-schema/index.ts';
import type { Scope } from './scope.ts';

/** By their place in the procedure. */
export function earthsIn({ facts, input }: Scope): ReadonlySet<number> {
  const leads = new Set(input.library.registers.tools.filter(({ kind }) => kind === 'earth lead').map(({ name }) => name));
  const out = new Set<number>();
  const visit = ({ at, lead, children }: ReadStep): void => {
    const clamps = lead.sentences.some(({ actions }) =>
      actions.some(({ kind, things }) => kind === 'put-in' && things.some(({ thing }) => thing.kind === 'tool' && leads.has(thing.name))),
    );
    if (clamps) out.add(at.order);
    for (const child of children) if (child.kind === 'substeps') child.steps.forEach(visit);
  };
  if (leads.size > 0) facts.read.steps.forEach(visit);
  return out;
}
