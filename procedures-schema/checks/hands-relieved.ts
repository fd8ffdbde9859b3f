/** Stored energy neither relieved nor held: L3. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const handsRelieved = flowCheck({
  id: 'hands-relieved',
  severity: 'error',
  question: 'Is every stored energy relieved, held or gone before a hand goes in?',
  why: 'Isolated is not empty: pressure, a raised load, a spring or a charged capacitor strikes after the switch is off. Cool enough is what is said to be 48 °C or less: no register says another figure.',
  source: '29 CFR 1910.147(d)(5)(i); rule L3',
  cases: [
    { name: 'the air is never let out', finds: 1, change: [['Open the [dump valve]', '']], work: '#. Clean the [scraper].' },
    { name: 'the drum is never held', finds: 1, change: [['Put the [drum pin] in', '']], work: '#. Clean the [scraper].' },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['H-relieved'],
  message: (v) => `Hands in the ${v.zone ?? 'machine'} at ${placeName(v.at)} while ${v.thing} is still stored${onVariants(v)}.`,
  expected: (v) => `${missingList(v)} before this step`,
});
