/** The visits of a library as they were walked last, so that only those are walked again that an edit reaches. */
import type { LibraryFacts, ProcedureFacts } from './checks/index.ts';
import { proveVisitOf } from './pipeline.ts';
import type { Registers, Symptom } from './registers/index.ts';

type Visit = LibraryFacts['visits'][number];

export class KeptVisits {
  private last = new Map<Symptom, { readonly flows: readonly unknown[]; readonly result: Visit }>();

  /** A visit is walked again when one of its procedures was proved again, or the registers are others. `procedures`: in the order of their paths. */
  of(registers: Registers, procedures: readonly ProcedureFacts[]): LibraryFacts['visits'] {
    const byId = new Map<string, ProcedureFacts>();
    for (const facts of procedures) if (!byId.has(facts.head.id)) byId.set(facts.head.id, facts);
    const before = this.last;
    this.last = new Map();
    return registers.symptoms.map((symptom) => {
      const flows = symptom.procedures.map(({ number }) => byId.get(number)?.flow);
      const known = before.get(symptom);
      const same = known && known.flows.length === flows.length && flows.every((flow, index) => flow === known.flows[index]);
      const result = same ? known.result : proveVisitOf(symptom, registers, procedures);
      this.last.set(symptom, { flows, result });
      return result;
    });
  }
}
