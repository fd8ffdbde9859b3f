/** A listed torque wrench reaches every torque: M4. */
import { proseSpan } from '../format/index.ts';
import { findQuantities, reaches, usableRange } from '../quantities/index.ts';
import type { ProcedureCheck } from './check.ts';
import { registeredName } from './inventory.ts';
import { markOf } from './measured.ts';
import { eachSentence } from './visit.ts';

export const torqueReached: ProcedureCheck = {
  id: 'torque-reached',
  scope: 'procedure',
  severity: 'error',
  question: 'Does a listed torque wrench reach every torque that is asked for?',
  why: 'Below its range a wrench clicks at anything; above it there is nothing to click.',
  source: 'ISO 6789-1:2017: the range starts at the lowest marked value; 20 to 100 percent where none is stated, common practice; rule M4',
  cases: [
    {
      name: 'beyond the wrench',
      finds: 1,
      front: 'tools: [torque wrench]',
      work: '#. Read the plate: the torque wrench must be set to 80 N·m.\n                                                    ^^^^^^',
    },
    {
      name: 'within its range',
      finds: 0,
      front: 'tools: [torque wrench]',
      work: '#. Read the plate: the torque wrench must be set to 25 N·m.',
    },
  ],
  *run(facts, { registers }) {
    const mark = markOf(registers);
    const names = facts.head.tools.map(({ name }) => registeredName(facts, 'tool', name));
    const wrenches = registers.tools.filter((tool) => tool.kind === 'torque wrench' && names.includes(tool.name));
    const rangesOf = (tools: typeof wrenches) =>
      tools.flatMap((tool) => (tool.range === undefined ? [] : [usableRange(tool.range, mark) ?? []])).flat();
    // A wrench that a step names and the list lacks is told by tool-not-listed; here it counts as there.
    const named = new Set(
      [...eachSentence(facts.read)]
        .flatMap(({ sentence }) => sentence.mentions.map((use) => use.thing))
        .flatMap((thing) => (thing.kind === 'tool' && !names.includes(thing.name) ? [thing.name] : [])),
    );
    const unlisted = registers.tools.filter((tool) => tool.kind === 'torque wrench' && named.has(tool.name));
    const ranges = rangesOf([...wrenches, ...unlisted]);
    for (const { prose, step, sentence } of eachSentence(facts.read))
      for (const { quantity, at, end } of findQuantities(prose.text, mark)) {
        if (at < sentence.at || at >= sentence.end || quantity.unit.kind !== 'torque') continue;
        const values = [quantity.nominal, quantity.lower, quantity.upper].flatMap((amount) => (amount ? [amount.value] : []));
        const fits = ranges.some((range) => values.every((value) => reaches(range, value, quantity.unit)));
        if (fits || values.length === 0) continue;
        yield {
          file: facts.file,
          span: proseSpan(prose, at, end),
          message:
            wrenches.length + unlisted.length === 0
              ? `Step ${step.fullLabel} asks for ${quantity.text}, and no torque wrench is listed.`
              : `Step ${step.fullLabel} asks for ${quantity.text}, which no listed torque wrench reaches (${wrenches.map((tool) => `${tool.name}: ${tool.range ?? 'no range'}`).join('; ')}).`,
          actual: quantity.text,
          expected: 'a torque wrench under tools whose range covers it',
          steps: [step.fullLabel],
        };
      }
  },
};
