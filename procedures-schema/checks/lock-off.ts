/** A lock never taken off: L11. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const lockOff = flowCheck({
  id: 'lock-off',
  severity: 'warning',
  question: 'Are all locks off at the end, by those who put them on?',
  why: 'A machine handed back with a lock on is cut open by the next shift.',
  source: '29 CFR 1910.147(e)(3); rule L11',
  cases: [
    {
      name: 'the lock on the valve stays, and the valve with it',
      finds: 1,
      change: [
        ['Take your lock and tag off', '#. Take your lock and tag off the [main isolator].'],
        ['Open the [air valve]', ''],
      ],
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['E-lock'],
  message: (v) => `The lock put on ${v.thing} at ${placeName(v.cause)} is still on at the end${onVariants(v)}.`,
  expected: () => 'a step in which whoever put it on takes it off, or an end that says locked out',
});
