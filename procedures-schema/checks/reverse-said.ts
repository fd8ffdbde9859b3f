/** "In reverse order" with something that has no reverse. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const reverseSaid = flowCheck({
  id: 'reverse-said',
  severity: 'error',
  question: 'Can every step of a range be undone by its reverse?',
  why: 'Cleaning has no reverse, a torque must be said: the reader is left to make it up.',
  source: 'semantics rule 17',
  cases: [
    {
      name: 'an adjustment has no reverse',
      finds: 1,
      work: '#. {#set} Adjust the [scraper].\n#. Put the [scraper] back in reverse order of [step #set].',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['reverse-unsaid'],
  message: (v) => `${placeName(v.at)} asks for the reverse of ${v.thing}, which has none${onVariants(v)}.`,
  expected: () => 'say what is done instead',
});
