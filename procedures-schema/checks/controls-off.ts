/** Energy returns while a control is not off. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const controlsOff = flowCheck({
  id: 'controls-off',
  severity: 'warning',
  question: 'Are the controls off before energy comes back?',
  why: 'A control left on starts the machine by itself when the isolator closes.',
  source: '29 CFR 1910.147 Appendix A (controls in neutral, non-mandatory); rule L14',
  cases: [
    {
      name: 'the knob stays at run',
      finds: 1,
      change: [['Read the [air gauge]', '#. Read the [air gauge]: it must show 0 bar.\n#. Set the [speed knob] to run.']],
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['R-controls'],
  message: (v) => `${placeName(v.at)} makes ${v.thing} live while ${missingList(v)} was not put back to off${onVariants(v)}.`,
  expected: (v) => `a step that puts ${missingList(v)} to off, before this one`,
});
