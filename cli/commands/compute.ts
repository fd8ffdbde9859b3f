/** `handsclear compute`: works out a formula as limits do, and lists the helpers there are. */
import { attributesIn, evaluate, HELPERS, inUnit, toldAmount, unitFor, unitOf } from '../../procedures-schema/index.ts';
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
    "Works exactly and with dimensions; tells six digits that count. The helpers are rules of the trade with their source beside them: a maker's own figures come first. Exit 0: a value. Exit 1: the formula has none. Exit 2: it could not run.",
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
    let attributes: Readonly<Record<string, string>> = {};
    if (values.model !== undefined) {
      const { facts } = await openLibrary(values.library ?? '.', io);
      const name = modelNamed(facts, values.model);
      attributes = attributesIn(facts.registers)(name);
    }
    const evaluated = evaluate(formula, attributes);
    if ('problem' in evaluated) {
      const { kind, text, nearest } = evaluated.problem;
      const said = {
        form: 'cannot be read',
        'unknown name': 'is no helper and no attribute',
        dimension: 'joins different kinds of quantity',
        'no value': 'has no value',
      };
      io.err(`"${text}" ${said[kind]}.${nearest === undefined ? '' : ` Did you mean "${nearest}"?`}\n`);
      return 1;
    }
    const { result } = evaluated;
    const wanted = values.in === undefined ? unitFor(result) : unitOf(values.in);
    if (wanted === undefined)
      throw new CannotRun(values.in === undefined ? 'No unit of the table has that dimension.' : `"${values.in}" is no unit of the table.`);
    if (inUnit(result.measure, wanted) === undefined) throw new CannotRun(`The result is not measured in ${wanted.symbol}.`);
    io.out(`${toldAmount(result, wanted, 'even', 6)?.text ?? ''}${wanted.symbol === '' ? '' : ` ${wanted.symbol}`}\n`);
    return 0;
  },
};
