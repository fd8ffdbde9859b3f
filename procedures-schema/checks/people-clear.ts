/** Energy returns while people may be in: L9. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const peopleClear = flowCheck({
  id: 'people-clear',
  severity: 'error',
  question: 'Is everyone sent clear before energy comes back?',
  why: 'Whoever lies under the machine cannot see the hand at the isolator.',
  source: '29 CFR 1910.147(e)(2)(i), (f)(1)(ii); rule L9',
  cases: [
    {
      name: 'nobody is sent clear before closing',
      finds: 1,
      body: '@SAFE\n@WORK\n## Close up\n\n#. Refit the [side guard].\n#. Take all tools away from the mixer.\n#. Shut the [dump valve].\n#. Take your lock and tag off the [main isolator] and the [air valve].\n#. Take the [drum pin] out.\n#. Open the [air valve].\n#. Switch the [main isolator] on.\n#. Tell the people at the mixer that it runs again.\n',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['R-people'],
  message: (v) => `${placeName(v.at)} makes ${v.thing} live, and nobody was sent clear since the last hands-on work${onVariants(v)}.`,
  expected: () => 'a step that sends people clear, before this one',
});
