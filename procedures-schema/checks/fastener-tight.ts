/** A fastener loosened and never tightened. */
import { flowCheck, onVariants } from './flow-check.ts';
import { isOrAre, placeName, wasOrWere } from './visit.ts';

export const fastenerTight = flowCheck({
  id: 'fastener-tight',
  severity: 'error',
  question: 'Is every fastener that was loosened tight again at every end?',
  why: 'A loose bolt works out in the first hour.',
  source: 'semantics rule 12; common practice, no source',
  cases: [
    { name: 'the bolts stay loose', finds: 1, work: '#. Loosen the [scraper bolts].' },
    {
      name: 'the bolts are tightened',
      finds: 0,
      front: 'tools: [torque wrench]',
      work: '#. Loosen the [scraper bolts].\n#. Tighten the [scraper bolts] to 25 N·m with the torque wrench.',
    },
  ],
  rules: ['E-fastener'],
  message: (v) =>
    `${v.thing} ${wasOrWere(v.thing)} loosened at ${placeName(v.cause)} and ${isOrAre(v.thing)} not tightened at the end${onVariants(v)}.`,
  expected: (v) => `a step that tightens ${v.thing}, with the torque where the register has one`,
});
