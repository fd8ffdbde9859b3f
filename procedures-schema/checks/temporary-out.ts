/** Energy returns with a temporary thing in the machine. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const temporaryOut = flowCheck({
  id: 'temporary-out',
  severity: 'error',
  question: 'Is everything put in for the work taken out before energy comes back?',
  why: 'A wedge, jumper or cap left in either breaks the machine or defeats its guard.',
  source: '29 CFR 1910.147(e)(1); semantics rule 10',
  cases: [
    { name: 'a wedge stays in', finds: 1, front: 'tools: [drum wedge]', work: '#. Put the [drum wedge] under the drum.' },
    {
      name: 'the wedge comes out',
      finds: 0,
      front: 'tools: [drum wedge]',
      work: '#. Put the [drum wedge] under the drum.\n#. Take the [drum wedge] out.',
    },
  ],
  rules: ['R-temporary'],
  message: (v) => `${placeName(v.at)} makes the machine live while ${v.thing} is still in${onVariants(v)}.`,
  expected: (v) => `a step that takes ${v.thing} out, before this one`,
});
