/** The instrument of a measurement reaches the value and resolves the tolerance: M5. */
import { compare, fineness, type Limit, rangeName, rational, reaches, toDecimal, usableRange } from '../quantities/index.ts';
import type { ProcedureCheck } from './check.ts';
import { registeredName } from './inventory.ts';
import { markOf, measuredOf } from './measured.ts';

const front = (limits: string): string =>
  `tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: ${limits}`;
const work = '#. Read the [scraper gap].\n   - If it is within the limits, go on.\n   - Otherwise stop and call the works office.';

export const instrumentFits: ProcedureCheck = {
  id: 'instrument-fits',
  scope: 'procedure',
  severity: 'error',
  question: 'Can the listed instrument measure between these limits?',
  why: 'An instrument that does not reach, or whose steps are as coarse as the tolerance, passes what should fail.',
  source:
    'reference "mechanical" 5: 4 to 1 test uncertainty ratio (ANSI/NCSL Z540.3, fetched), 10 to 1 shop rule (common practice); rule M5',
  cases: [
    { name: 'out of its range', finds: 1, front: front('{lower: 2.5 mm, upper: 3.5 mm}'), work },
    { name: 'steps too coarse', finds: 1, front: front('{lower: 0.25 mm, upper: 0.38 mm}'), work },
    { name: 'no instrument', finds: 1, front: front('{lower: 0.5 mm, upper: 1.5 mm}').replace('    with: feeler gauge\n', ''), work },
    { name: 'fits', finds: 0, front: front('{lower: 0.5 mm, upper: 1.5 mm}'), work },
  ],
  *run(facts, { registers }) {
    const mark = markOf(registers);
    for (const { measurement, limits } of measuredOf(facts, registers)) {
      if (measurement.sensed) continue;
      const place = { file: facts.file, span: measurement.span };
      if (measurement.with === undefined) {
        yield {
          ...place,
          message: `${measurement.name} does not say what it is measured with.`,
          actual: 'no instrument',
          expected: '"with:" and a registered instrument',
        };
        continue;
      }
      const name = registeredName(facts, 'tool', measurement.with);
      const tool = registers.tools.find((other) => other.name === name);
      if (!tool) continue; // a fixed gauge, or unknown: told elsewhere
      const range = tool.range === undefined ? undefined : usableRange(tool.range, mark);
      for (const limit of limits.limits) {
        // Limits the wrong way round are one slip, and told as such (limits-ordered).
        if (limit.lower && limit.upper && compare(limit.lower.value, limit.upper.value) > 0) continue;
        const on = limit.model === undefined ? '' : ` on ${rangeName(limit.model, limit.serial)}`;
        // Nought is where nothing is under: nobody has to read it.
        const values = [limit.lower, limit.upper].flatMap((amount) => (amount && amount.value.n !== 0n ? [amount.value] : []));
        const reached = range ? values.map((value) => reaches(range, value, limit.unit)) : [];
        if (reached.includes(undefined)) {
          yield {
            ...place,
            message: `The ${name} measures ${range?.unit.kind}, and ${measurement.name} is in ${limit.unit.symbol}.`,
            actual: name,
            expected: `an instrument for ${limit.unit.kind}`,
          };
          break;
        }
        if (reached.includes(false)) {
          yield {
            ...place,
            message: `The ${name} (${tool.range}) does not reach the limits of ${measurement.name}${on}.`,
            actual: tool.range as string,
            expected: words(limit),
          };
          break;
        }
        const ratio =
          tool.resolution === undefined || !limit.lower || !limit.upper
            ? undefined
            : fineness(tool.resolution, limit.lower.value, limit.upper.value, limit.unit, mark);
        if (ratio && compare(ratio, rational(10)) < 0) {
          const least = compare(ratio, rational(4)) < 0;
          yield {
            ...place,
            severity: least ? 'error' : 'advice',
            message: `Between the limits of ${measurement.name}${on} lie ${toDecimal(ratio, 1)} steps of ${tool.resolution}, the finest the instrument shows (${name}).`,
            actual: `${toDecimal(ratio, 1)} to 1`,
            expected: least ? 'at least 4 to 1, better 10 to 1' : '10 to 1 is better',
          };
          break;
        }
      }
    }
  },
};

function words({ lower, upper, unit }: Limit): string {
  return `${[lower?.text, upper?.text].filter((text) => text !== undefined).join(' to ')} ${unit.symbol}`;
}
