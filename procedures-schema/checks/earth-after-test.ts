/** In the electrical profile, a part earthed before it was tested dead. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

const PROFILE = {
  'library.yaml':
    'publisher: Test Works\nlanguage: en\nnumbering: {steps: numbers, substeps: letters, sections: restart}\nunits: {first: metric, second: inch}\npaper: a4\ndocument numbers: "FX-\\\\d{3}"\nlockout profile: electrical\n',
};
const EARTH: readonly (readonly [string, string])[] = [
  [
    'supply: {kind: electrical',
    '      supply: {kind: electrical, size: 400 V, isolate: {main isolator: off}, relieve: {earth switch: on}, try out: start button}',
  ],
];
const OFF: readonly [string, string] = ['Shut the [dump valve]', '#. Shut the [dump valve].\n#. Switch the [earth switch] off.'];
const BEFORE: readonly [string, string] = [
  'Press the [start button]',
  '#. Switch the [earth switch] on.\n#. Press the [start button]: the drum must not turn.',
];
const AFTER: readonly [string, string] = [
  'Press the [start button]',
  '#. Press the [start button]: the drum must not turn.\n#. Switch the [earth switch] on.',
];

export const earthAfterTest = flowCheck({
  id: 'earth-after-test',
  severity: 'error',
  question: 'In the electrical profile, is a part tested dead before it is earthed?',
  why: 'An earth put on a live part strikes an arc at the hand that puts it on. The test comes first, and the earth keeps what was tested dead.',
  source: 'EN 50110-1, the five rules in their order (from memory); asked where library.yaml says "lockout profile: electrical"',
  cases: [
    { name: 'earthed, then tested', finds: 1, files: PROFILE, equipment: EARTH, change: [BEFORE, OFF] },
    { name: 'tested, then earthed', finds: 0, files: PROFILE, equipment: EARTH, change: [AFTER, OFF] },
    { name: 'the standard profile lets energy out before it is tested', finds: 0, equipment: EARTH, change: [BEFORE, OFF] },
  ],
  rules: ['earth-untested'],
  message: (v) => `${v.thing} is earthed at ${placeName(v.at)} before it was tested dead${onVariants(v)}.`,
  expected: (v) => `a test before it: ${missingList(v)}`,
});
