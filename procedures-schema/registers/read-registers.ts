/** All register files of a library into one value. */
import type { YamlFile } from '../format/index.ts';
import { familiesIn, modelsIn } from './equipment.ts';
import type { Registers } from './model.ts';
import { consumablesIn, documentsIn, houseIn, noticesIn, optionsIn, replacementsIn, symptomsIn, toolsIn } from './other-registers.ts';

export function decodeRegisters(files: readonly YamlFile[]): Registers {
  const all = <T>(name: string, read: (file: string, root: YamlFile['root']) => readonly T[]): T[] =>
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
