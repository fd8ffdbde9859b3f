/** `handsclear check`: the whole library, reported. */
import type { Command } from '../command.ts';
import { forModel, openLibrary } from '../library.ts';
import { jsonReport } from '../report/json.ts';
import { textReport } from '../report/text.ts';

export const check: Command = {
  name: 'check',
  summary: 'check a library and report what is wrong, where, why, and what would be right',
  operands: ['[library]'],
  options: [
    { name: 'model', value: 'M', help: 'only what concerns this model' },
    { name: 'report', value: 'text|json', choices: ['text', 'json'], help: 'for people (text, as without it) or for programs' },
  ],
  about:
    'Checks every register, procedure and guide of a library folder (here, if none is given). Exit 0: nothing blocks publishing, though there may be warnings. Exit 1: there are errors. Exit 2: the library could not be read.',
  examples: [
    { line: 'handsclear check sample-procedures', does: 'every finding, in words' },
    { line: 'handsclear check --model LT-1000', does: 'the library in this folder, as far as one model is concerned' },
    {
      line: 'handsclear check sample-procedures --report json > findings.json',
      does: 'the same for a program; progress stays on standard error',
    },
  ],
  async run({ operands, values }, io) {
    const checked = forModel(await openLibrary(operands[0] ?? '.', io), values.model);
    io.out(values.report === 'json' ? jsonReport(checked) : textReport(checked, io));
    return checked.counts.error > 0 ? 1 : 0;
  },
};
