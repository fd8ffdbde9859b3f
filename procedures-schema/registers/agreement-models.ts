/** Whether models agree with families and options, and whether their serial ranges leave no gap and do not overlap. */
import { type YamlNode, yamlGet } from '../format/index.ts';
import { knownOf, unknownNames } from './agreement.ts';
import { entriesOf, numberOf } from './fields.ts';
import type { Registers } from './model.ts';
import type { SchemaProblem } from './problem.ts';

export function modelProblems(root: YamlNode | undefined, registers: Registers): SchemaProblem[] {
  const families = knownOf('family', registers.families);
  const options = knownOf('option', registers.options);
  return entriesOf(yamlGet(root, 'models')).flatMap(({ name, value }) => {
    const owner = `The model "${name}"`;
    return [
      ...unknownNames(yamlGet(value, 'family'), families, owner, `models / ${name} / family`),
      ...unknownNames(yamlGet(value, 'options'), options, owner, `models / ${name} / options`),
      ...serialProblems(name, yamlGet(value, 'serials')),
    ];
  });
}

/** Every serial number in exactly one range, in order. */
function serialProblems(model: string, node: YamlNode | undefined): SchemaProblem[] {
  if (node?.kind !== 'seq') return [];
  const out: SchemaProblem[] = [];
  const tell = (item: YamlNode, message: string, expected: string): void => {
    out.push({ span: item.span, message, expected, path: `models / ${model} / serials` });
  };
  let before: number | undefined;
  for (const [index, item] of node.items.entries()) {
    const from = numberOf(item, 'from');
    const to = numberOf(item, 'to');
    const last = index === node.items.length - 1;
    if (from !== undefined && to !== undefined && from > to)
      tell(item, `The serial range ${from} to ${to} of ${model} ends before it begins.`, `from ${to} to ${from}`);
    if (index > 0) {
      if (from === undefined)
        tell(item, `A serial range of ${model} that is not the first has no "from".`, 'the first serial number of the range');
      else if (before !== undefined && from <= before)
        tell(item, `Serial ranges of ${model} overlap: ${from} is in the range before as well.`, `from: ${before + 1}`);
      else if (before !== undefined && from > before + 1)
        tell(
          item,
          `Serial ranges of ${model} leave a gap: ${before + 1}${from - before > 2 ? ` to ${from - 1}` : ''} is in none.`,
          `from: ${before + 1}`,
        );
    }
    if (to === undefined && !last)
      tell(item, `A serial range of ${model} that is not the last has no "to".`, 'the last serial number of the range');
    before = to;
  }
  return out;
}
