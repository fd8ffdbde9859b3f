/** Energy returns and nobody was told. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const toldBeforeLive = flowCheck({
  id: 'told-before-live',
  severity: 'warning',
  question: 'Are people told when the locks are off, before the machine starts?',
  why: 'People who saw a dead machine lean on it.',
  source: '29 CFR 1910.147(e)(2)(ii), (c)(9); rule L11',
  cases: [
    { name: 'nobody is told at the end', finds: 1, change: [['Tell the people at the mixer that it runs again', '']] },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['R-told', 'E-told'],
  message: (v) =>
    v.rule === 'E-told'
      ? `The procedure ends at ${placeName(v.at)} and nobody was told that the machine runs again${onVariants(v)}.`
      : `${placeName(v.at)} starts ${v.thing}, and people were not told${onVariants(v)}.`,
  expected: () => 'a step that tells people that the locks are off',
});
