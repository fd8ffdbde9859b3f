/** A temporary thing never taken out. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const temporaryLeft = flowCheck({
  id: 'temporary-left',
  severity: 'error',
  question: 'Is every temporary thing out again at every end?',
  why: 'A jumper left in is a guard that looks whole and is not.',
  source: 'semantics rule 12',
  cases: [
    { name: 'a wedge at the end', finds: 1, front: 'tools: [drum wedge]', body: '## Work\n\n#. Put the [drum wedge] under the drum.\n' },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['E-temporary'],
  message: (v) => `${v.thing} was put in at ${placeName(v.cause)} and is still in at the end${onVariants(v)}.`,
  expected: (v) => `a step that takes ${v.thing} out`,
});
