/** Closing what was never opened. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const closesWhatIsOpen = flowCheck({
  id: 'closes-what-is-open',
  severity: 'warning',
  question: 'Was everything that is closed, tightened or put back also opened before?',
  why: 'Either the opening step was lost, or this one is left over from another procedure.',
  source: 'semantics rule 13',
  cases: [
    {
      name: 'tightening what nobody loosened',
      finds: 1,
      front: 'tools: [torque wrench]',
      work: '#. Tighten the [scraper bolts] to 25 N·m with the torque wrench.',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['close-unopened'],
  message: (v) => `${placeName(v.at)} closes ${v.thing}, which is not open on this walk${onVariants(v)}.`,
  expected: () => 'the step that opens it, or words such as "if it is open"',
});
