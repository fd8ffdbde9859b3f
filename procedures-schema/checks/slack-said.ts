/** A slack limit says what is measured and of what length: M1. */
import type { ProcedureCheck } from './check.ts';

const front = (at: string): string =>
  `tools: [feeler gauge]\nmeasurements:\n  chain slack:\n    quantity: length\n    at: ${at}\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}`;
const work =
  '#. Measure the [chain slack] with the [feeler gauge].\n   - If it is within the limits, go on with [step #on].\n   - If it is under or over the limits, stop and call the works office.\n#. {#on} Clean the [scraper].';

export const slackSaid: ProcedureCheck = {
  id: 'slack-said',
  scope: 'procedure',
  severity: 'warning',
  question: 'Does every slack or sag say whether it is total movement or sag, and over what length?',
  why: 'Total movement by hand is about twice the sag. Two people who measure differently set the same chain differently.',
  source:
    'rule M1: a chain handbook (7.1.2), a chain maker and another maker give figures that do not agree because they measure different things',
  cases: [
    { name: 'in the middle of what, and which way', finds: 1, front: front('lower strand'), work },
    { name: 'said both', finds: 0, front: front('total movement by hand, midway between the sprockets'), work },
  ],
  *run({ file, head }) {
    for (const { name, at = '', span } of head.measurements) {
      if (!/\b(?:slack|sag)\b/i.test(name)) continue;
      const way = /\b(?:total|movement|travel|up and down|sag|below the straight line)\b/i.test(at);
      const length = /\b(?:span|cent(?:er|re)s?|between|midway|mid-span|strand of)\b/i.test(at);
      if (way && length) continue;
      yield {
        file,
        span,
        message: `${name} does not say ${way ? '' : 'whether total movement or sag is measured'}${way || length ? '' : ', nor '}${length ? '' : 'over what length'}.`,
        actual: at === '' ? 'nothing under "at:"' : at,
        expected: '"total movement by hand, midway between the sprockets" or the like under "at:"',
      };
    }
  },
};
