/** The required state at each step, on one variant or as the worst of all. The proof is flow/; here it is asked once a variant. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import { type FlowResult, prove } from '../flow/index.ts';
import type { LabelledStep } from '../numbering/index.ts';
import type { BandState } from './model.ts';

export type Bands = (step: LabelledStep) => BandState;

/** What was not proved may be live for all anybody knows, and a step no walk reaches is in no state. */
export function bandFor(facts: ProcedureFacts, library: LibraryFacts, variant: string | undefined): Bands {
  const flow = variant === undefined ? facts.flow : flowOf(facts, library, variant);
  const wanted = facts.flow.verdicts.filter((one) => variant === undefined || one.variant === variant);
  const proved = wanted.length > 0 && wanted.every(({ verdict }) => verdict === 'proved');
  return (step) => (proved ? (flow.bands.get(step) ?? 'unknown') : 'unknown');
}

/** By the whole proof, which is made anew whenever the procedure or one that it calls changes. */
const KNOWN = new WeakMap<FlowResult, Map<string, FlowResult>>();

function flowOf(facts: ProcedureFacts, library: LibraryFacts, variant: string): FlowResult {
  const known = KNOWN.get(facts.flow) ?? new Map<string, FlowResult>();
  KNOWN.set(facts.flow, known);
  const before = known.get(variant);
  if (before) return before;
  const flow = prove({
    procedure: facts.read,
    machines: facts.machines.filter((machine) => machine.variant.name === variant),
    registers: library.registers,
    others: (number) => library.procedures.find((other) => other.head.id === number)?.read,
  });
  known.set(variant, flow);
  return flow;
}
