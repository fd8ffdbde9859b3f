/** Limits for every model, once, readable, from one place. */
import type { LimitProblem } from '../quantities/index.ts';
import type { ProcedureCheck } from './check.ts';
import { measuredOf, modelWords } from './measured.ts';

const front =
  'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: table gap';
const work = (rows: string): string =>
  `#. Read the [scraper gap].\n   - If it is within the limits, go on.\n   - Otherwise stop and call the works office.\n\n| model | scraper gap, lower (mm) | scraper gap, upper (mm) |\n|---|---|---|\n${rows}\n\n{#gap}`;

const serials = (from: number): string => `| DM-10 | 0.5 | 1.5 |\n| DM-20 up to 99 | 0.5 | 1.5 |\n| DM-20 from ${from} | 0.6 | 1.6 |`;
const broken: readonly (readonly [string, string])[] = [
  ['  DM-20: {family', '  DM-20: {family: drum mixer, serials: [{to: 99}, {from: 100, to: 199}, {from: 200}]}'],
];

export const limitsCover: ProcedureCheck = {
  id: 'limits-cover',
  scope: 'procedure',
  severity: 'error',
  question: 'Has every model the procedure is for its limits, once, in one place?',
  why: 'The technician stands before the one model that is missing in the table, and takes the row above.',
  source: 'format rule F10; IEC/IEEE 82079-1 (from memory), completeness',
  cases: [
    {
      name: 'a table that is not there',
      finds: 1,
      front,
      work: '#. Read the [scraper gap]. If it is over the limit, stop and call the works office.',
    },
    {
      name: 'a model without limits',
      finds: 1,
      front: front.replace('table gap', '{DM-10: {lower: 0.5 mm, upper: 1.5 mm}}'),
      work: work('').split('\n\n')[0] as string,
    },
    { name: 'a serial number without limits', finds: 1, front, work: work(serials(200)), equipment: broken },
    { name: 'serial numbers with two limits', finds: 1, front, work: work(`${serials(100)}\n| DM-20 | 0.5 | 1.5 |`), equipment: broken },
    {
      name: 'a break that the register does not have',
      finds: 1,
      front,
      work: work(`${serials(100)}\n| DM-10 from 5 | 0.5 | 1.5 |`),
      equipment: broken,
    },
    {
      name: 'each serial number once, in the front matter',
      finds: 0,
      front: front.replace('table gap', '{DM-10: {upper: 1.5 mm}, DM-20 up to 99: {upper: 1.5 mm}, DM-20 from 100: {upper: 1.6 mm}}'),
      work: work('').split('\n\n')[0] as string,
      equipment: broken,
    },
    { name: 'each serial number once', finds: 0, front, work: work(serials(100)), equipment: broken },
    {
      name: 'one row for all serial numbers',
      finds: 0,
      front,
      work: work('| DM-10 | 0.5 | 1.5 |\n| DM-20 | 0.5 | 1.5 |'),
      equipment: broken,
    },
    {
      name: 'limits for all',
      finds: 0,
      front: front.replace('table gap', '{lower: 0.5 mm, upper: 1.5 mm}'),
      work: work('').split('\n\n')[0] as string,
    },
  ],
  *run(facts, { registers }) {
    for (const { measurement, limits } of measuredOf(facts, registers)) {
      for (const problem of limits.problems) {
        const words = wording(problem, measurement.name);
        if (words) yield { file: facts.file, span: problem.span, ...words };
      }
      if (limits.limits.length === 0 && limits.problems.length === 0 && !measurement.sensed)
        yield {
          file: facts.file,
          span: measurement.span,
          message: `The measurement ${measurement.name} has no limits.`,
          actual: 'no limits',
          expected: '"limits: {lower: ..., upper: ...}", "limits: table ..." or what passes and what fails',
        };
    }
  },
};

function wording({ kind, names }: LimitProblem, name: string): { message: string; actual: string; expected: string } | undefined {
  const what = names.join(', ');
  switch (kind) {
    case 'no table':
      return {
        message: `The limits of ${name} are said to stand in table ${what}, and there is no such table.`,
        actual: what,
        expected: `a table with {#${what}}`,
      };
    case 'no model column':
      return {
        message: `The first column of the limits of ${name} is not "model".`,
        actual: 'another first column',
        expected: '"model", then lower and upper',
      };
    case 'no limits column':
      return {
        message: `The table has no column with limits of ${name}.`,
        actual: 'no such column',
        expected: `"${name}, lower" and "${name}, upper"`,
      };
    case 'unreadable':
      return { message: `"${what}" is no value.`, actual: what, expected: 'a number with its unit, or "-" where it does not apply' };
    case 'stray row':
      return {
        message: `The limits of ${name} have a row for ${what || 'no model'}, and the procedure is not for it.`,
        actual: what,
        expected: 'a model of the front matter',
      };
    case 'serial break':
      return {
        message: `The limits of ${name} have a row for ${names[0]}, and the register breaks the serial numbers elsewhere.`,
        actual: names[0] ?? '',
        expected: names[1] ?? '',
      };
    case 'double row':
      return { message: `The limits of ${name} have two rows for ${modelWords(names)}.`, actual: 'twice', expected: 'once' };
    case 'missing row':
      return { message: `The limits of ${name} are missing for ${modelWords(names)}.`, actual: 'no limits', expected: `a row for ${what}` };
    case 'empty cell':
      return { message: `A cell of the limits of ${name} is empty.`, actual: 'empty', expected: 'a value, or "-" where it does not apply' };
    case 'unit differs':
      return { message: `The limits of ${name} are given in ${names.join(' and ')}.`, actual: what, expected: 'one unit' };
    case 'both':
      return {
        message: `The limits of ${name} are given in the front matter and in table ${what}.`,
        actual: 'two places',
        expected: 'one of them',
      };
    default:
      return undefined; // limits-ordered, limits-formula
  }
}
