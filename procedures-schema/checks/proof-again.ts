/** A source that can come back, proved once only: L6. */
import { flowCheck, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const proofAgain = flowCheck({
  id: 'proof-again',
  severity: 'error',
  question: 'Is a source that can come back proved again, held, or watched?',
  why: 'A leaking valve or a recovering capacitor fills up while you work.',
  source: '29 CFR 1910.147(d)(5)(ii); rule L6',
  cases: [
    {
      name: 'air that comes back, read once',
      finds: 1,
      equipment: [
        [
          'air: {kind: pneumatic',
          '      air: {kind: pneumatic, size: 7 bar, isolate: {air valve: shut}, relieve: {dump valve: open}, shown by: air gauge, can come back: yes}',
        ],
      ],
      work: '#. Clean the [scraper].',
    },
    {
      name: 'read again before',
      finds: 0,
      equipment: [
        [
          'air: {kind: pneumatic',
          '      air: {kind: pneumatic, size: 7 bar, isolate: {air valve: shut}, relieve: {dump valve: open}, shown by: air gauge, can come back: yes}',
        ],
        ['scraper: {zone', '      scraper: {zone: drum bay}'],
      ],
      work: '#. Read the [air gauge]: it must show 0 bar.\n#. Clean the [scraper].\n#. Read the [air gauge]: it must show 0 bar.',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['proof-used'],
  message: (v) => `${v.thing} can come back, and its proof is used up at ${placeName(v.at)}${onVariants(v)}.`,
  expected: () => 'read again, hold it, or keep the gauge in view, before this step',
});
