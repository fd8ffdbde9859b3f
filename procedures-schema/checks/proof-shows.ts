/** A try-out that could show nothing, or a meter that nobody tried where it must show something. */
import type { Violation } from '../flow/index.ts';
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

const METERED = {
  equipment: [
    ['supply: {kind: electrical', '      supply: {kind: electrical, size: 400 V, isolate: {main isolator: off}, proved with: multimeter}'],
  ],
  files: { 'registers/tools.yaml': 'tools:\n  multimeter: {kind: multimeter, contact: yes}\n' },
  front: 'tools: [multimeter]',
} as const;
const MEASURED = '#. Measure the [supply] with the [multimeter]: it must show 0 V.';

const metered = ({ cause }: Violation): boolean => ['measure', 'prove', 'use'].includes(cause?.action?.kind ?? '');

export const proofShows = flowCheck({
  id: 'proof-shows',
  severity: 'error',
  question: 'Would the machine have moved in the try-out, or the meter have shown it, if it had been live?',
  why: 'A try-out with the stop latched or the cover off stands still, and a broken meter shows nothing, whether the machine is dead or not.',
  source: 'semantics rule 6; 29 CFR 1910.147(d)(6); a meter proved before and after on a known source is common practice',
  cases: [
    {
      name: 'tried with the interlocked guard off',
      finds: 1,
      equipment: [
        ['side guard: {zone', '      side guard: {zone: drum bay, interlocked: yes, may be opened live: yes}'],
        ['guard screws: {count', ''],
      ],
      change: [
        ['Remove the [side guard]', ''],
        ['Send everyone clear of the mixer.', '#. Remove the [side guard].\n#. Send everyone clear of the mixer.'],
      ],
      work: '#. Clean the [scraper].',
    },
    {
      name: 'a meter that was not tried again',
      finds: 1,
      equipment: METERED.equipment,
      files: METERED.files,
      front: METERED.front,
      change: [['Remove the [side guard]', `#. Try the [multimeter] on a known live source.\n${MEASURED}\n#. Remove the [side guard].`]],
      work: '#. Clean the [scraper].',
    },
    {
      name: 'a meter that was tried before and after',
      finds: 0,
      ...METERED,
      change: [
        [
          'Remove the [side guard]',
          `#. Try the [multimeter] on a known live source.\n${MEASURED}\n#. Try the [multimeter] again on the known live source.\n#. Remove the [side guard].`,
        ],
      ],
      work: '#. Clean the [scraper].',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['proof-empty'],
  message: (v) =>
    metered(v)
      ? `The meter at ${placeName(v.cause ?? v.at)} proves nothing about ${v.thing}: it was not tried on a known live source before and after${onVariants(v)}.`
      : `The try-out at ${placeName(v.cause ?? v.at)} proves nothing about ${v.thing}${onVariants(v)}.`,
  expected: (v) =>
    metered(v)
      ? 'the meter tried on a source that is known to be live, before it is read and again after'
      : 'a try-out in a state in which the machine would move were it live, or a meter',
});
