/** The proof stopped at its bound. */
import { flowCheck } from './flow-check.ts';

export const proofBounded = flowCheck({
  id: 'proof-bounded',
  severity: 'warning',
  question: 'Was every walk looked at?',
  why: 'Past the bound nothing is known. Not proved is not safe.',
  source: 'semantics rule 22',
  cases: [{ name: 'the fixture as it is', finds: 0 }],
  rules: ['bound'],
  message: (v) => `The proof of this procedure stopped ${v.thing}: not proved.`,
  expected: () => 'fewer facts and branches that stay open at once',
});
