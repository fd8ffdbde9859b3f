/** A cover opened and never closed: L10. */
import { flowCheck, onVariants } from './flow-check.ts';
import { isOrAre, placeName, wasOrWere } from './visit.ts';

export const coverRefitted = flowCheck({
  id: 'cover-refitted',
  severity: 'error',
  question: 'Is every cover that was opened on again at every end?',
  why: 'A guard left on the floor protects nobody.',
  source: '29 CFR 1910.147(e)(1); rule L10',
  cases: [
    { name: 'the guard stays off', finds: 1, change: [['Refit the [side guard]', '']] },
    { name: 'put down is not put back', finds: 1, change: [['Refit the [side guard]', '#. Put the [side guard] on the bench.']] },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['E-cover'],
  message: (v) =>
    `${v.thing} ${wasOrWere(v.thing)} taken off at ${placeName(v.cause)} and ${isOrAre(v.thing)} not on again at the end${onVariants(v)}.`,
  expected: (v) => `a step that refits ${v.thing} on every way to the end`,
});
