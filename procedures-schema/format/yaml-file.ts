/** Text of library.yaml or a register to its tree. Decoding is registers/. */
import { sourceOf, textDamage } from './source.ts';
import type { FormatProblem, YamlFile } from './tree.ts';
import { readYamlText } from './yaml.ts';

export function readYaml(path: string, raw: string): { readonly tree: YamlFile; readonly problems: readonly FormatProblem[] } {
  const source = sourceOf(path, raw);
  const { root, problems } = readYamlText(source.text, 0);
  return { tree: { kind: 'yaml', source, root }, problems: [...textDamage(source), ...problems] };
}
