/** Limits repeated in the words of a step agree with the declared ones. */
import { proseSpan } from '../format/index.ts';
import {
  type Amount,
  absolute,
  compare,
  convert,
  findQuantities,
  multiply,
  rangeName,
  rational,
  sameKind,
  subtract,
  type Unit,
} from '../quantities/index.ts';
import type { ProcedureCheck } from './check.ts';
import { markOf, measuredOf } from './measured.ts';
import { eachSentence } from './visit.ts';

const front =
  'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}';
const work = (limits: string): string =>
  `#. Read the [scraper gap]: it must be ${limits}.\n   - If it is within the limits, go on.\n   - Otherwise stop and call the works office.`;

export const limitsRestated: ProcedureCheck = {
  id: 'limits-restated',
  scope: 'procedure',
  severity: 'error',
  question: 'Do limits that are repeated in the words agree with the declared ones?',
  why: 'The words are read at the machine, the table is kept up to date: the day they part, the words win.',
  source: 'format rule F10: numbers in prose are restatements',
  cases: [
    { name: 'another upper limit', finds: 1, front, work: work('0.5 to 2.5 mm') },
    { name: 'the same', finds: 0, front, work: work('0.5 to 1.5 mm') },
  ],
  *run(facts, { registers }) {
    const measured = measuredOf(facts, registers);
    for (const { sentence, prose, step } of eachSentence(facts.read)) {
      const named = measured.filter(({ measurement }) =>
        sentence.mentions.some(({ thing }) => thing.kind === 'measurement' && thing.name === measurement.name),
      );
      const [one] = named;
      if (!one || named.length > 1 || one.limits.limits.length === 0) continue;
      for (const { quantity, at, end } of findQuantities(prose.text, markOf(registers))) {
        if (
          at < sentence.at ||
          at >= sentence.end ||
          (quantity.form !== 'range' && quantity.form !== 'at least' && quantity.form !== 'at most')
        )
          continue;
        const { limits } = one.limits;
        if (
          limits.some(
            (limit) =>
              sameKind(limit.unit, quantity.unit) &&
              agrees(quantity.lower, limit.lower, quantity.unit, limit.unit) &&
              agrees(quantity.upper, limit.upper, quantity.unit, limit.unit),
          )
        )
          continue;
        if (!limits.some((limit) => sameKind(limit.unit, quantity.unit))) continue; // a time or place named beside it
        yield {
          file: facts.file,
          span: proseSpan(prose, at, end),
          message: `"${quantity.text}" is not what is declared for ${one.measurement.name}.`,
          actual: quantity.text,
          expected: limits
            .map(
              (limit) =>
                `${limit.model ? `${rangeName(limit.model, limit.serial)}: ` : ''}${[limit.lower?.text, limit.upper?.text].filter((text) => text !== undefined).join(' to ')} ${limit.unit.symbol}`,
            )
            .join('; '),
          steps: [step.fullLabel],
        };
      }
    }
  },
};

/** A limit that the words leave out is not contradicted. */
function agrees(said: Amount | undefined, limit: Amount | undefined, from: Unit, to: Unit): boolean {
  if (!said) return true;
  if (!limit) return false;
  const half = multiply(convert(said.step, from, to, true), rational(1, 2));
  return compare(absolute(subtract(convert(said.value, from, to), limit.value)), half) <= 0;
}
