/** Energy returns with a cover off and no test said: L10. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { isOrAre, placeName } from './visit.ts';

export const coversBeforeLive = flowCheck({
  id: 'covers-before-live',
  severity: 'error',
  question: 'Are covers on before energy comes back, unless a test run with the cover off is said and guarded?',
  why: 'An open guard with the machine running is how hands are lost.',
  source: '29 CFR 1910.147(e)(1), (f)(1); rule L10',
  cases: [
    {
      name: 'the guard goes on last',
      finds: 1,
      body: '@SAFE\n@WORK\n## Close up\n\n#. Take all tools away from the mixer.\n#. Send everyone clear of the mixer.\n#. Shut the [dump valve].\n#. Take your lock and tag off the [main isolator] and the [air valve].\n#. Take the [drum pin] out.\n#. Open the [air valve].\n#. Switch the [main isolator] on.\n#. Refit the [side guard].\n#. Tell the people at the mixer that it runs again.\n',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['R-covers'],
  message: (v) => `${placeName(v.at)} makes ${missingList(v)} live while ${v.thing} ${isOrAre(v.thing)} off${onVariants(v)}.`,
  expected: () => 'refit it first, or say that it is a test run with the cover off and set a notice to stand clear before it',
});
