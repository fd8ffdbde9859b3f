/** Procedures that call themselves. */
import { flowCheck } from './flow-check.ts';
import { placeName } from './visit.ts';

export const noCircles = flowCheck({
  id: 'no-circles',
  severity: 'error',
  question: 'Do procedures call each other without going round in a circle?',
  why: 'A circle of calls has no end, on paper or in the proof.',
  source: 'semantics rule 14',
  cases: [{ name: 'the fixture as it is', finds: 0 }],
  rules: ['recursion'],
  message: (v) => `${placeName(v.at)} calls ${v.thing}, which comes back to this procedure.`,
  expected: () => 'a call that ends',
});
