/** Lower limits below upper ones. */
import type { ProcedureCheck } from './check.ts';
import { measuredOf, modelWords } from './measured.ts';

const front = (limits: string): string =>
  `tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: ${limits}`;
const work = '#. Read the [scraper gap].\n   - If it is within the limits, go on.\n   - Otherwise stop and call the works office.';

export const limitsOrdered: ProcedureCheck = {
  id: 'limits-ordered',
  scope: 'procedure',
  severity: 'error',
  question: 'Is every lower limit below its upper limit?',
  why: 'Between limits that are swapped no reading is ever right, and the technician adjusts for ever.',
  source: 'IEC/IEEE 82079-1 (from memory), correctness: ranges low to high',
  cases: [
    { name: 'swapped', finds: 1, front: front('{lower: 1.5 mm, upper: 0.5 mm}'), work },
    { name: 'in order', finds: 0, front: front('{lower: 0.5 mm, upper: 1.5 mm}'), work },
  ],
  *run(facts, { registers }) {
    for (const { measurement, limits } of measuredOf(facts, registers))
      for (const { kind, span, names } of limits.problems)
        if (kind === 'inverted')
          yield {
            file: facts.file,
            span,
            message: `The lower limit of ${measurement.name} (${names[0]}) is above its upper limit (${names[1]})${names[2] ? ` for ${modelWords([names[2]])}` : ''}.`,
            actual: `${names[0]} to ${names[1]}`,
            expected: `${names[1]} to ${names[0]}, if they were swapped`,
          };
  },
};
