/** A place from which no end can be reached. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const wayOut = flowCheck({
  id: 'way-out',
  severity: 'error',
  question: 'Can an end be reached from every step?',
  why: 'A loop without a way out keeps a technician at an open machine.',
  source: 'semantics rule 18',
  cases: [
    { name: 'round and round', finds: 1, body: '## Work\n\n#. {#again} Read the [air gauge].\n#. Go to [step #again].\n' },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['no-way-out'],
  message: (v) => `From ${placeName(v.at)} no end of the procedure can be reached${onVariants(v)}.`,
  expected: () => 'a condition that leaves the loop, or a step that stops and calls',
});
