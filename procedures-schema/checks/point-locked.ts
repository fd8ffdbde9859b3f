/** A point is moved while a lock is on it. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const pointLocked = flowCheck({
  id: 'point-locked',
  severity: 'error',
  question: 'Is every point moved only while no lock is on it?',
  why: 'A lock that goes on before the point is in its safe position holds it live; a point that is moved before its lock is off was never locked.',
  source: '29 CFR 1910.147(d)(3), (d)(4): isolate, then lock; (e)(3): the device comes off before energy is restored',
  cases: [
    {
      name: 'locked before it is switched off',
      finds: 1,
      body: '## Make safe\n\n#. Stop the mixer with the [stop button].\n#. Put your lock and tag on the [main isolator].\n#. Switch the [main isolator] off.\n#. Take your lock and tag off the [main isolator].\n#. Switch the [main isolator] on.\n',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['point-locked'],
  message: (v) => `${placeName(v.at)} moves the ${v.thing} while a lock is on it${onVariants(v)}.`,
  expected: () => 'the lock put on after the point is safe, and taken off before it is moved back',
});
