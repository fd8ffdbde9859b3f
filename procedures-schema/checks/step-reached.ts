/** A step that no walk on any variant reaches. */
import { flowCheck } from './flow-check.ts';
import { placeName } from './visit.ts';

export const stepReached = flowCheck({
  id: 'step-reached',
  severity: 'warning',
  question: 'Can every step be reached on some variant?',
  why: 'A step nobody comes to is either left over or its way in was lost.',
  source: 'semantics; common practice, no source',
  cases: [
    { name: 'jumped over', finds: 1, work: '#. Go to [section Close up].\n#. Clean the [scraper].\n   ^^^^^' },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['never-reached'],
  message: (v) => `${placeName(v.at)} is reached on no variant.`,
  expected: () => 'a way to it, or take it out',
});
