/** A measurement with an outcome that leads nowhere. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const outcomeAnswered = flowCheck({
  id: 'outcome-answered',
  severity: 'error',
  question: 'Has every outcome of a measurement a next step?',
  why: 'A reading outside the branches leaves the technician to guess.',
  source: 'semantics rule 16; IEC/IEEE 82079-1 (from memory), completeness',
  cases: [{ name: 'the fixture as it is', finds: 0 }],
  rules: ['outcome-open'],
  message: (v) => `${placeName(v.at)} leaves an outcome of ${v.thing} without a next step: ${missingList(v)}${onVariants(v)}.`,
  expected: (v) => `a branch for ${missingList(v)}, or a general sentence after the branches`,
});
