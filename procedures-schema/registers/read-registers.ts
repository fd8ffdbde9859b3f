/** All register files of a library into one value, with what is wrong with each file. Never fails: what cannot be read is left out. */
import { type YamlFile, yamlGet } from '../format/index.ts';
import type { SchemaName } from '../schemas/index.ts';
import { agreementProblems } from './agreement.ts';
import { familiesIn, modelsIn } from './equipment.ts';
import type { Registers } from './model.ts';
import { nearestNames } from './nearest.ts';
import { consumablesIn, documentsIn, houseIn, noticesIn, optionsIn, replacementsIn, symptomsIn, toolsIn } from './other-registers.ts';
import { paperProblems } from './paper.ts';
import type { SchemaProblem } from './problem.ts';
import { schemaProblems, sortProblems } from './schema-problems.ts';
import { settleNames } from './settle.ts';

const REGISTERS = [
  'equipment',
  'tools',
  'consumables',
  'parts',
  'documents',
  'notices',
  'symptoms',
] as const satisfies readonly SchemaName[];

/** Problems by path of the file, in the order of its text; files without problems are not in the map. */
export function readRegisters(files: readonly YamlFile[]): {
  registers: Registers;
  problems: ReadonlyMap<string, readonly SchemaProblem[]>;
} {
  const registers = settleNames(decodeRegisters(files));
  const agreement = agreementProblems(files, registers);
  const problems = new Map<string, readonly SchemaProblem[]>();
  for (const file of files) {
    const all = [...ownProblems(file), ...(agreement.get(file.source.path) ?? [])];
    if (all.length > 0) problems.set(file.source.path, sortProblems(all));
  }
  return { registers, problems };
}

function ownProblems({ source, root }: YamlFile): readonly SchemaProblem[] {
  const start = { start: 0, end: source.lineStarts[1] ?? source.text.length };
  if (source.path === 'library.yaml') return [...schemaProblems('library', root, start), ...paperProblems(yamlGet(root, 'paper'))];
  const name = /^registers\/(.+)\.ya?ml$/.exec(source.path)?.[1];
  if (name === undefined) return [];
  const kind = REGISTERS.find((one) => one === name);
  // Broken YAML is told by reading the form; an empty register registers nothing.
  if (kind) return root === undefined ? [] : schemaProblems(kind, root, start);
  const [nearest] = nearestNames(name, REGISTERS, 1);
  return [
    {
      span: start,
      message: `No register is called "${name}", so this file is not read${nearest ? `; did you mean "${nearest}.yaml"?` : '.'}`,
      actual: source.path,
      expected: nearest ? `registers/${nearest}.yaml` : `one of ${[...REGISTERS].sort().join(', ')}`,
      path: '',
    },
  ];
}

function decodeRegisters(files: readonly YamlFile[]): Registers {
  const all = <T>(name: SchemaName, read: (file: string, root: YamlFile['root']) => readonly T[]): T[] =>
    files
      .filter(({ source }) => new RegExp(`(?:^|/)${name}\\.ya?ml$`).test(source.path))
      .flatMap(({ source, root }) => read(source.path, root));
  return {
    house: houseIn(files.find(({ source }) => source.path === 'library.yaml')?.root),
    families: all('equipment', familiesIn),
    models: all('equipment', modelsIn),
    options: all('equipment', optionsIn),
    tools: all('tools', toolsIn),
    consumables: all('consumables', consumablesIn),
    replacements: all('parts', replacementsIn),
    documents: all('documents', documentsIn),
    notices: all('notices', noticesIn),
    symptoms: all('symptoms', symptomsIn),
  };
}
