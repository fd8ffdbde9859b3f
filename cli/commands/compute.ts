/** `handsclear compute`: works out a formula as limits do, and lists the helpers there are. */
import {
  type Evaluated,
  evaluate,
  HELPERS,
  inUnit,
  limitModel,
  type ModelRange,
  rangeName,
  toldAmount,
  unitFor,
  unitOf,
} from '../../procedures-schema/index.ts';
import { CannotRun, type Command } from '../command.ts';
import { modelNamed, openLibrary } from '../library.ts';

export const compute: Command = {
  name: 'compute',
  summary: 'work out a formula over values, helpers and model attributes; without one, list the helpers',
  operands: ['[formula]'],
  options: [
    { name: 'library', value: 'FOLDER', help: 'the library whose models are meant (here, if not given; only needed with --model)' },
    { name: 'model', value: 'M', help: 'the model whose attributes the formula names' },
    { name: 'in', value: 'UNIT', help: 'the unit to tell the result in' },
  ],
  about:
    "Works exactly and with dimensions; tells six digits that count; where the attributes of a model differ by serial number, once for each range. The helpers are rules of the trade with their source beside them: a maker's own figures come first. Exit 0: a value. Exit 1: the formula has none. Exit 2: it could not run.",
  examples: [
    { line: 'handsclear compute "belt deflection(belt span(600 mm; 300 mm; 100 mm))"', does: 'how far to push a V-belt' },
    {
      line: 'handsclear compute "bolt torque(0.20; 16 mm; preload(580 MPa; stress area(16 mm; 2 mm)))" --in "lbf·ft"',
      does: 'a torque from the thread',
    },
    { line: 'handsclear compute "0.6 % of impeller diameter" --library sample-procedures --model EF-450', does: 'a limit on one model' },
  ],
  async run({ operands, values }, io) {
    const formula = operands[0];
    if (formula === undefined) {
      for (const [name, { takes, gives, formula: how, source }] of Object.entries(HELPERS))
        io.out(`${name}(${takes.map((one) => `${one.name}: ${one.kind}`).join('; ')}) gives ${gives}\n    ${how}\n    ${source}\n`);
      return 0;
    }
    if (values.model === undefined && values.library !== undefined)
      throw new CannotRun('--library goes with --model: attributes are those of a model.');
    let ranges: readonly ModelRange[] = [{ attributes: {} }];
    let model = '';
    if (values.model !== undefined) {
      const { facts } = await openLibrary(values.library ?? '.', io);
      model = modelNamed(facts, values.model);
      ({ ranges } = limitModel(model, facts.registers));
    }
    const told = ranges.map(({ serial, attributes }) => {
      const evaluated = evaluate(formula, attributes);
      const wrong = 'problem' in evaluated;
      return {
        name: rangeName(model, serial),
        wrong,
        text: wrong ? problemText(evaluated.problem, values.model === undefined) : valueText(evaluated.result, values.in),
      };
    });
    const [first] = told;
    const alike = told.every(({ text }) => text === first?.text);
    for (const { name, wrong, text } of alike ? told.slice(0, 1) : told) (wrong ? io.err : io.out)(`${alike ? '' : `${name}: `}${text}\n`);
    return told.some(({ wrong }) => wrong) ? 1 : 0;
  },
};

type Problem = Extract<Evaluated, { readonly problem: unknown }>['problem'];
type Result = Extract<Evaluated, { readonly result: unknown }>['result'];

const SAID: Readonly<Record<Problem['kind'], string>> = {
  form: 'cannot be read',
  'unknown name': 'is no helper and no attribute',
  dimension: 'joins different kinds of quantity',
  'no value': 'has no value',
};

const problemText = ({ kind, text, nearest }: Problem, alone: boolean): string => {
  const near = nearest === undefined ? '' : ` Did you mean "${nearest}"?`;
  const whose = kind === 'unknown name' && alone ? ' Is it an attribute of a model? Then say of which: --model M --library FOLDER.' : '';
  return `"${text}" ${SAID[kind]}.${near}${whose}`;
};

function valueText(result: Result, unit: string | undefined): string {
  const wanted = unit === undefined ? unitFor(result) : unitOf(unit);
  if (wanted === undefined)
    throw new CannotRun(unit === undefined ? 'No unit of the table has that dimension.' : `"${unit}" is no unit of the table.`);
  if (inUnit(result.measure, wanted) === undefined) throw new CannotRun(`The result is not measured in ${wanted.symbol}.`);
  return `${toldAmount(result, wanted, 'even', 6)?.text ?? ''}${wanted.symbol === '' ? '' : ` ${wanted.symbol}`}`;
}
