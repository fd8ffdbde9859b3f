/** The required state at each step, on one variant or as the worst of all. The proof is flow/; here it is asked once a variant. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import { bandBeside, type FlowResult, prove, type ReadProcedure, type ShownBand } from '../flow/index.ts';
import type { LabelledStep } from '../numbering/index.ts';

export interface Bands {
  /** When the step begins. */
  readonly begun: (step: LabelledStep) => ShownBand;
  /** As it is shown: the worst from its beginning to its end, its substeps included. */
  readonly beside: (step: LabelledStep) => ShownBand;
}

/** What was not proved may be live for all anybody knows, and a step no walk reaches is in no state. */
export function bandFor(facts: ProcedureFacts, library: LibraryFacts, variant: string | undefined): Bands {
  // Taken once: of a long library the facts may be made anew between two questions.
  const flow = variant === undefined ? facts.flow : flowOf(facts, library, variant);
  const wanted = facts.flow.verdicts.filter((one) => variant === undefined || one.variant === variant);
  const proved = wanted.length > 0 && wanted.every(({ verdict }) => verdict === 'proved');
  const { steps } = facts.read.labels;
  const { bands, during } = flow;
  return {
    begun: (step) => (proved || bands.get(step) === 'live' ? (bands.get(step) ?? 'unknown') : 'unknown'),
    beside: (step) => bandBeside(step, steps, { during }, proved),
  };
}

/** By what was read, whose steps the bands speak of; made anew when the whole proof is, since then a procedure that it calls changed. */
const KNOWN = new WeakMap<ReadProcedure, { readonly whole: FlowResult; readonly by: Map<string, FlowResult> }>();

function flowOf(facts: ProcedureFacts, library: LibraryFacts, variant: string): FlowResult {
  const { read, flow: whole } = facts;
  const kept = KNOWN.get(read);
  const known = kept?.whole === whole ? kept.by : new Map<string, FlowResult>();
  if (kept?.whole !== whole) KNOWN.set(read, { whole, by: known });
  const before = known.get(variant);
  if (before) return before;
  const flow = prove({
    procedure: read,
    machines: facts.machines.filter((machine) => machine.variant.name === variant),
    registers: library.registers,
    others: (number) => library.procedures.find((other) => other.head.id === number)?.read,
  });
  known.set(variant, flow);
  return flow;
}
