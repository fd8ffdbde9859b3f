/** Which steps and branches of a procedure are told in the script of one model. Labels stay those of the whole. */
import type { ProcedureFacts } from '../checks/index.ts';
import { holdsFor } from '../flow/index.ts';
import type { Condition } from '../reading/index.ts';

/** Whether conditions hold on some variant of the model; without a model, always. */
export function appliesTo(facts: ProcedureFacts, model: string | undefined): (when: readonly Condition[] | undefined) => boolean {
  if (model === undefined) return () => true;
  const machines = facts.machines.filter(({ variant }) => variant.model === model);
  return (when) => machines.some(({ variant }) => (when ?? []).every((one) => one.kind !== 'variant' || holdsFor(one, variant)));
}

/** Models and options that conditions name. */
export const modelsNamed = (when: readonly Condition[] | undefined): readonly string[] =>
  (when ?? []).flatMap((one) => (one.kind === 'variant' && !one.negated ? [...one.models, ...one.options] : []));
