/** Isolated and not locked: L2. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const handsLocked = flowCheck({
  id: 'hands-locked',
  severity: 'error',
  question: 'Is every isolating point locked by the one whose hands go in?',
  why: 'An isolator without a lock is switched on by the next person who needs the machine.',
  source: '29 CFR 1910.147(d)(4); rule L2',
  cases: [
    {
      name: 'no lock on the valve',
      finds: 1,
      change: [['Put your lock and tag on', '#. Put your lock and tag on the [main isolator].']],
      work: '#. Clean the [scraper].',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['H-locked'],
  // Who sees a lock there has to be told whose is missing.
  message: (v) =>
    `Hands in the ${v.zone ?? 'machine'} at ${placeName(v.at)} while ${v.thing} is isolated but not locked${v.others ? ' by whoever reaches in' : ''}${onVariants(v)}.`,
  expected: (v) =>
    v.others
      ? `lock and tag of whoever reaches in on ${missingList(v)}, besides those of somebody else`
      : `lock and tag on ${missingList(v)}`,
});
