/** Energy returns while tools may be in: L9. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const toolsOut = flowCheck({
  id: 'tools-out',
  severity: 'error',
  question: 'Are tools taken away before energy comes back?',
  why: 'A wrench left in a drum comes out as a bullet.',
  source: '29 CFR 1910.147(e)(1), (f)(1)(i); rule L9',
  cases: [
    { name: 'tools stay in', finds: 1, change: [['Take all tools away', '']], work: '#. Clean the [scraper].' },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['R-tools'],
  message: (v) => `${placeName(v.at)} makes ${v.thing} live, and tools were not taken away since the last hands-on work${onVariants(v)}.`,
  expected: () => 'a step that takes tools away, before this one',
});
