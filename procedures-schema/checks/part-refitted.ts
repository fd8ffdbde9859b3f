/** A part taken out and never put back. */
import { flowCheck, onVariants } from './flow-check.ts';
import { isOrAre, placeName, wasOrWere } from './visit.ts';

export const partRefitted = flowCheck({
  id: 'part-refitted',
  severity: 'error',
  question: 'Is every part that was taken out back in, or renewed, at every end?',
  why: 'What lies on the bench when the machine runs was holding something.',
  source: '29 CFR 1910.147(e)(1); semantics rule 12',
  cases: [
    { name: 'the scraper stays out', finds: 1, work: '#. Remove the [scraper].' },
    { name: 'the scraper goes back', finds: 0, work: '#. Remove the [scraper].\n#. Refit the [scraper].' },
  ],
  rules: ['E-part'],
  message: (v) =>
    `${v.thing} ${wasOrWere(v.thing)} taken out at ${placeName(v.cause)} and ${isOrAre(v.thing)} not back in at the end${onVariants(v)}.`,
  expected: (v) => `a step that refits or renews ${v.thing}`,
});
