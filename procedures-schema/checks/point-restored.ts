/** A point never put back. */
import { flowCheck, onVariants } from './flow-check.ts';
import { isOrAre, placeName, wasOrWere } from './visit.ts';

export const pointRestored = flowCheck({
  id: 'point-restored',
  severity: 'error',
  question: 'Is every point that was moved back where it was at every end?',
  why: 'A relief left open or a prop left in makes the next start fail, or worse, half work.',
  source: 'semantics rule 12; 29 CFR 1910.147(e)',
  cases: [
    { name: 'the dump valve stays open', finds: 1, change: [['Shut the [dump valve]', '']] },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['E-point'],
  message: (v) =>
    `${v.thing} ${wasOrWere(v.thing)} moved at ${placeName(v.cause)} and ${isOrAre(v.thing)} not put back at the end${onVariants(v)}.`,
  expected: (v) => `a step that puts ${v.thing} back, or an end that says so`,
});
