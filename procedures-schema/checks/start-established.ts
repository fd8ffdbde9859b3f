/** A called procedure starts in a state the caller has not made. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const startEstablished = flowCheck({
  id: 'start-established',
  severity: 'error',
  question: 'Does every caller and visit establish the state in which the called procedure starts?',
  why: 'The called page takes for granted that the machine is open and locked out.',
  source: 'semantics rules 3 and 14',
  cases: [{ name: 'the fixture as it is', finds: 0 }],
  rules: ['starts-with'],
  message: (v) => `${placeName(v.at)} calls ${v.thing} in another state than it starts with: ${missingList(v)}${onVariants(v)}.`,
  expected: (v) => `the state that ${v.thing} starts with`,
});
