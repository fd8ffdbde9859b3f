/** A joint, interlock or conductor disturbed and not tested. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const returnTest = flowCheck({
  id: 'return-test',
  severity: 'error',
  question: 'Is the test that the register asks for done after a part was disturbed?',
  why: 'A joint that was opened leaks under pressure, an interlock that was moved may not stop the machine.',
  source: 'semantics rule 12; common practice, no source',
  cases: [
    { name: 'the hose is refitted and not tested', finds: 1, work: '#. Remove the [air hose].\n#. Refit the [air hose].' },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['E-return-test'],
  message: (v) => `${v.thing} was disturbed at ${placeName(v.cause)} and is not tested before the end${onVariants(v)}.`,
  expected: (v) => `a step that does the ${missingList(v)}`,
});
