/** The unit of a limit measures what the measurement says it measures. */

import type { Draft } from '../finding.ts';
import { proseSpan } from '../format/index.ts';
import { findQuantities, type QuantityKind } from '../quantities/index.ts';
import type { ProcedureCheck } from './check.ts';
import { markOf, measuredOf } from './measured.ts';
import { eachAction } from './visit.ts';

const front = (unit: string): string =>
  `tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: {lower: 0.5 ${unit}, upper: 1.5 ${unit}}`;
const work = '#. Read the [scraper gap].\n   - If it is within the limits, go on.\n   - Otherwise stop and call the works office.';

/** What "quantity:" may say, in the trade's words, for each kind. */
const SAYS: Readonly<Record<string, readonly QuantityKind[]>> = {
  length: ['length'],
  gap: ['length'],
  distance: ['length'],
  depth: ['length'],
  runout: ['length'],
  width: ['length'],
  height: ['length'],
  drift: ['length'],
  force: ['force'],
  torque: ['torque'],
  pressure: ['pressure'],
  temperature: ['temperature'],
  time: ['time'],
  angle: ['angle'],
  voltage: ['voltage'],
  current: ['current'],
  resistance: ['resistance'],
  frequency: ['frequency'],
  speed: ['speed', 'rotational speed'],
  'rotational speed': ['rotational speed'],
  'sound level': ['sound level'],
  level: ['sound level', 'length'],
  volume: ['volume'],
  flow: ['flow'],
  mass: ['mass'],
  weight: ['mass', 'force'],
  power: ['power'],
  ratio: ['ratio'],
  percent: ['ratio'],
};

export const limitsQuantity: ProcedureCheck = {
  id: 'limits-quantity',
  scope: 'procedure',
  severity: 'error',
  question: 'Does the unit of every limit measure the quantity that is declared, and do torques carry torque units?',
  why: 'A gap in newtons cannot be measured; a torque in the wrong unit is wrong by a factor of twelve.',
  source: 'NIST SP 811 (2008): quantities and their units',
  cases: [
    { name: 'a length in newtons', finds: 1, front: front('N'), work },
    { name: 'a length in millimetres', finds: 0, front: front('mm'), work },
    {
      name: 'a torque in newtons',
      finds: 1,
      front: 'tools: [torque wrench]',
      work: '#. Loosen the [scraper bolts].\n#. Tighten the [scraper bolts] to 25 N with the torque wrench.\n                                  ^^^^',
    },
  ],
  *run(facts, { registers }) {
    for (const { measurement, limits } of measuredOf(facts, registers)) {
      const kinds = SAYS[measurement.quantity.toLowerCase()];
      if (!kinds) continue;
      const wrong = limits.limits.find((limit) => limit.unit.symbol !== '' && !kinds.includes(limit.unit.kind));
      if (wrong)
        yield {
          file: facts.file,
          span: wrong.span,
          message: `${measurement.name} is a ${measurement.quantity}, and its limits are in ${wrong.unit.symbol}, which measures ${wrong.unit.kind}.`,
          actual: wrong.unit.symbol,
          expected: `a unit of ${measurement.quantity}`,
        };
      const bare = limits.limits.find(({ unit, lower, upper }) => unit.symbol === '' && (lower ?? upper) !== undefined);
      if (bare && !wrong)
        yield {
          file: facts.file,
          span: bare.span,
          message: `The limits of ${measurement.name} have no unit.`,
          actual: 'no unit',
          expected: 'the unit beside the number or in the heading',
        };
    }
    yield* torqueUnits(facts, registers);
  },
};

/** Values at a tightening that are no torque, no turn and no length. */
function* torqueUnits(facts: Parameters<ProcedureCheck['run']>[0], registers: Parameters<typeof markOf>[0]): Iterable<Draft> {
  for (const { action, sentence, prose, step } of eachAction(facts.read)) {
    if (action.kind !== 'tighten') continue;
    for (const { quantity, at, end } of findQuantities(prose.text, markOf(registers))) {
      if (at < sentence.at || at >= sentence.end) continue;
      if (!['force', 'pressure', 'energy', 'mass'].includes(quantity.unit.kind)) continue;
      yield {
        file: facts.file,
        span: proseSpan(prose, at, end),
        message: `Step ${step.fullLabel} tightens to ${quantity.text}, which is a ${quantity.unit.kind}.`,
        actual: quantity.unit.symbol,
        expected: 'N·m or lbf·ft',
        steps: [step.fullLabel],
      };
    }
  }
}
