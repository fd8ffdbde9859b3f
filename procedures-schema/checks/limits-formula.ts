/** Limits that are formulas: known names, right dimensions, a value on every model. */
import type { LimitProblem } from '../quantities/index.ts';
import type { ProcedureCheck } from './check.ts';
import { measuredOf } from './measured.ts';

const front = (limits: string): string =>
  `tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: ${limits}`;
const work =
  '#. Measure the [scraper gap] with the [feeler gauge].\n   - If it is within the limits, go on with [step #on].\n   - If it is under or over the limits, stop and call the works office.\n#. {#on} Clean the [scraper].';
const table = (lower: string, upper: string): string =>
  `${work}\n\n| model | scraper gap, lower (mm) | scraper gap, upper (mm) |\n|---|---|---|\n| DM-10 | 0.1 | 1 |\n| DM-20 | ${lower} | ${upper} |\n\n{#gap}`;
const widths: readonly (readonly [string, string])[] = [
  ['DM-10: {family', '  DM-10: {family: drum mixer, drum width: 300 mm}'],
  ['DM-20: {family', '  DM-20: {family: drum mixer, drum width: 400 mm}'],
];

export const limitsFormula: ProcedureCheck = {
  id: 'limits-formula',
  scope: 'procedure',
  severity: 'error',
  question: 'Can every limit that is a formula be worked out on every model?',
  why: 'A limit that cannot be worked out is printed as none, and a sum of millimetres and newtons is no limit at all.',
  source: 'design: limits computed from attributes of the model; ISO 80000-1 (from memory): only quantities of one kind are added',
  cases: [
    {
      name: 'an attribute that no model has',
      finds: 1,
      front: front('{lower: 0.1 % of drum wdth, upper: 0.4 % of drum width}'),
      work,
      equipment: widths,
    },
    {
      name: 'newtons and millimetres added',
      finds: 1,
      front: front('{lower: 0.1 % of drum width + 2 N, upper: 0.4 % of drum width}'),
      work,
      equipment: widths,
    },
    {
      name: 'newtons in a table of millimetres',
      finds: 1,
      front: front('table gap'),
      work: table('0.1 % of drum width', '2 N * 3'),
      equipment: widths,
    },
    {
      name: 'newtons and millimetres added in a table',
      finds: 1,
      front: front('table gap'),
      work: table('0.1 % of drum width', '0.4 % of drum width + 2 N'),
      equipment: widths,
    },
    {
      name: 'an attribute that only the later machines have',
      finds: 1,
      front: front('table gap'),
      work: table('0.1', '0.4 % of drum width'),
      equipment: [
        widths[0] as readonly [string, string],
        ['  DM-20: {family', '  DM-20: {family: drum mixer, serials: [{to: 99}, {from: 100, drum width: 400 mm}]}'],
      ],
    },
    {
      name: 'a formula in a table, under a heading that names no end',
      finds: 1,
      front: front('table gap'),
      work: table('0.1 % of drum width', '0.4 % of drum width').replace('scraper gap, upper', 'scraper gap'),
      equipment: widths,
    },
    {
      name: 'formulas in a table of the body',
      finds: 0,
      front: front('table gap'),
      work: table('0.1 % of drum width', '0.4 % of drum width'),
      equipment: widths,
    },
    {
      name: 'a width that changed with a serial number',
      finds: 0,
      front: front('table gap'),
      work: table('0.1 % of drum width', '0.4 % of drum width'),
      equipment: [
        widths[0] as readonly [string, string],
        ['  DM-20: {family', '  DM-20: {family: drum mixer, serials: [{to: 99, drum width: 350 mm}, {from: 100, drum width: 400 mm}]}'],
      ],
    },
    {
      name: 'from the width of the drum',
      finds: 0,
      front: front('{lower: 0.1 % of drum width, upper: "0.4 % of drum width, to 0.05 mm"}'),
      work,
      equipment: widths,
    },
  ],
  *run(facts, { registers }) {
    for (const { measurement, limits } of measuredOf(facts, registers)) {
      const told = new Set<string>();
      for (const { kind, names, span } of limits.problems) {
        const [formula = '', words = '', model = '', other] = names;
        const said = SAID[kind];
        // One slip in a formula shows on every model.
        if (said === undefined || told.has(`${kind} ${formula}`)) continue;
        told.add(`${kind} ${formula}`);
        yield {
          file: facts.file,
          span,
          message: `The limit "${formula}" of ${measurement.name} ${said(words, model)}.`,
          actual: words,
          expected: expected(kind, words, other),
        };
      }
    }
  },
};

function expected(kind: LimitProblem['kind'], words: string, other: string | undefined): string {
  switch (kind) {
    case 'formula name':
      return other ?? 'an attribute of the model, such as those under models: in the equipment register';
    case 'formula unit':
      return other === undefined ? `a formula that comes to ${words}` : `a formula that comes to ${words}; this one is a ${other}`;
    case 'formula end':
      return '"at least" or "at most" before it, or a column headed "lower" or "upper"';
    default:
      return 'a formula such as "1.6 % of span" or "25 N + 4 N per belt"';
  }
}

const SAID: Partial<Record<LimitProblem['kind'], (words: string, model: string) => string>> = {
  formula: (words) => `cannot be read at "${words}"`,
  'formula name': (words, model) => `names "${words}", which ${model} does not have`,
  'formula dimension': (words) => `joins quantities of different kinds: "${words}"`,
  'formula value': (words, model) => `has no value on ${model}: "${words}"`,
  'formula unit': (words) => `does not come to what is measured in ${words}`,
  'formula end': () => 'does not say which end it is',
};
