/** A belt check gives span, deflection and force, with new and used belts told apart: M2. */
import type { ProcedureCheck } from './check.ts';

const front = (at: string): string =>
  `tools: [feeler gauge]\nmeasurements:\n  belt force:\n    quantity: length\n    at: ${at}\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}`;
const work =
  '#. Measure the [belt force] with the [feeler gauge].\n   - If it is within the limits, go on with [step #on].\n   - If it is under or over the limits, stop and call the works office.\n#. {#on} Clean the [scraper].';

export const beltSaid: ProcedureCheck = {
  id: 'belt-said',
  scope: 'procedure',
  severity: 'warning',
  question: 'Does every belt check say where on the span, at what deflection, and whether for new or used belts?',
  why: 'The force means nothing without its deflection, and a new belt is set about half as tight again as one that has run in.',
  source: "rule M2: force-deflection method, a belt maker's guide, a plant-maintenance handbook page and a calculator page agree",
  cases: [
    { name: 'a force and nothing else', finds: 1, front: front('drive belt'), work },
    { name: 'all three said', finds: 0, front: front('middle of the span, 6 mm deflection, used belts'), work },
  ],
  *run({ file, head }) {
    for (const { name, at = '', span } of head.measurements) {
      if (!/\bbelts?\b/i.test(name) || !/\b(?:tension|force|deflection)\b/i.test(name)) continue;
      const said = `${name} ${at}`;
      const missing = [
        [/\bspan\b|\bmidway\b|\bbetween\b/i, 'where on the span'],
        [/\bdeflect|\bpush(?:ed)?\b|\d\s*(?:mm|in)\b/i, 'the deflection'],
        [/\b(?:new|used|run[- ]in)\b/i, 'whether for new or used belts'],
      ].flatMap(([pattern, words]) => ((pattern as RegExp).test(said) ? [] : [words as string]));
      if (missing.length === 0) continue;
      yield {
        file,
        span,
        message: `${name} does not say ${missing.join(', ')}.`,
        actual: at === '' ? 'nothing under "at:"' : at,
        expected: '"middle of the span, 6 mm deflection, used belts" or the like under "at:"',
      };
    }
  },
};
