/** A live task without its fixed shape. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const liveTaskShape = flowCheck({
  id: 'live-task-shape',
  severity: 'error',
  question: 'Does a task under power follow its fixed shape: connect dead, clear, energise, read, dead, disconnect?',
  why: 'Work on a live machine is the exception, and only its shape keeps hands out.',
  source: '29 CFR 1910.147(f)(1); semantics rule 11',
  cases: [{ name: 'the fixture as it is', finds: 0 }],
  rules: ['live-task'],
  message: (v) => `The live task at ${placeName(v.at)} does not keep its shape: ${missingList(v)}${onVariants(v)}.`,
  expected: () => 'connect dead, send people clear, energise, read, make dead, disconnect',
});
