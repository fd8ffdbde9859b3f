/** A required procedure does not end where this one starts. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';

export const requiresMet = flowCheck({
  id: 'requires-met',
  severity: 'error',
  question: 'Does a required procedure end in the state this one starts with?',
  why: 'Two pages that do not meet leave a gap between them, and hands are in it.',
  source: 'semantics rule 14',
  cases: [{ name: 'the fixture as it is', finds: 0 }],
  rules: ['requires'],
  message: (v) => `${v.thing} is required, but it does not end in the state this procedure starts with${onVariants(v)}.`,
  expected: (v) => `an end of ${v.thing} that says "${missingList(v)}"`,
});
