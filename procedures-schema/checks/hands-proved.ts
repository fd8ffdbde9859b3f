/** Isolated and never tried or measured: L4. */
import { flowCheck, missingList, onVariants } from './flow-check.ts';
import { placeName } from './visit.ts';

export const handsProved = flowCheck({
  id: 'hands-proved',
  severity: 'error',
  question: 'Is isolation tried or measured before a hand goes in?',
  why: 'The wrong isolator, a stuck valve, a second supply: only the try-out or the meter shows it. A reading counts where the words say what it must show: nothing, or less than 48 °C or 50 V; a gauge that is only read shows nothing.',
  source: '29 CFR 1910.147(d)(6); rule L4',
  cases: [
    { name: 'nobody tries the start button', finds: 1, change: [['Press the [start button]', '']], work: '#. Clean the [scraper].' },
    { name: 'nobody reads the gauge', finds: 1, change: [['Read the [air gauge]', '']], work: '#. Clean the [scraper].' },
    {
      name: 'the gauge is read, and what it must show is not said',
      finds: 1,
      change: [['Read the [air gauge]: it must show 0 bar', 'Read the [air gauge]']],
      work: '#. Clean the [scraper].',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['H-proved'],
  message: (v) => `Hands in the ${v.zone ?? 'machine'} at ${placeName(v.at)} before it was proved that ${v.thing} is dead${onVariants(v)}.`,
  expected: (v) => `${missingList(v)} after isolating and relieving, before this step`,
});
