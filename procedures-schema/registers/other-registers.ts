/** Decodes library.yaml and the smaller registers. Judges nothing. */
import { type YamlNode, yamlGet } from '../format/index.ts';
import { ENERGY_KINDS } from './equipment.ts';
import { type Entry, entriesOf, listOf, namedOf, present, textOf, wordOf, yes } from './fields.ts';
import type { CitedDocument, Consumable, House, Registers, Replacement, StandingNotice, Symptom, Tool } from './model.ts';
import { paperIn } from './paper.ts';

export function houseIn(root: YamlNode | undefined): House {
  return {
    publisher: textOf(root, 'publisher') ?? '',
    language: textOf(root, 'language') ?? 'en',
    numbering: {
      steps: wordOf(root, ['numbers', 'letters', 'decimal'] as const, 'numbering', 'steps') ?? 'numbers',
      substeps: wordOf(root, ['letters', 'numbers', 'decimal'] as const, 'numbering', 'substeps') ?? 'letters',
      sections: wordOf(root, ['restart', 'continue'] as const, 'numbering', 'sections') ?? 'restart',
    },
    units: {
      first: wordOf(root, ['metric', 'inch'] as const, 'units', 'first') ?? 'metric',
      second: wordOf(root, ['metric', 'inch', 'none'] as const, 'units', 'second') ?? 'none',
    },
    paper: paperIn(root) ?? 'a4',
    lockoutProfile: wordOf(root, ['standard', 'electrical'] as const, 'lockout profile') ?? 'standard',
    assistance: listOf(root, 'assistance'),
    signOff: yes(root, 'sign-off'),
    ...present({
      documentNumber: textOf(root, 'document numbers'),
      printLine: textOf(root, 'print line'),
      copyright: textOf(root, 'copyright'),
    }),
  } as House;
}

export function optionsIn(file: string, root: YamlNode | undefined): Registers['options'] {
  return entriesOf(yamlGet(root, 'options')).map((entry) => namedOf(file, entry));
}

export function toolsIn(file: string, root: YamlNode | undefined): Tool[] {
  return entriesOf(yamlGet(root, 'tools')).map((entry: Entry) => {
    const { value } = entry;
    const text = (key: string): string | undefined => textOf(value, key);
    return {
      ...namedOf(file, entry),
      contact: yes(value, 'contact'),
      temporary: yes(value, 'temporary'),
      protective: yes(value, 'protective'),
      ...present({
        kind: text('kind'),
        size: text('size'),
        range: text('range'),
        resolution: text('resolution'),
        calibration: text('calibration'),
        makes: wordOf(value, ENERGY_KINDS, 'makes'),
      }),
    } as Tool;
  });
}

export function consumablesIn(file: string, root: YamlNode | undefined): Consumable[] {
  return entriesOf(yamlGet(root, 'consumables')).map((entry) => {
    const text = (key: string): string | undefined => textOf(entry.value, key);
    return {
      ...namedOf(file, entry),
      needs: listOf(entry.value, 'needs'),
      ...present({ kind: text('kind'), amount: text('amount'), rating: text('rating'), safetyData: text('safety data') }),
    } as Consumable;
  });
}

export function replacementsIn(file: string, root: YamlNode | undefined): Replacement[] {
  return entriesOf(yamlGet(root, 'parts')).map((entry) => {
    const models = listOf(entry.value, 'models');
    return {
      ...namedOf(file, entry),
      oneUse: yes(entry.value, 'one use'),
      ...present({
        number: textOf(entry.value, 'number'),
        renews: textOf(entry.value, 'renews'),
        models: models.length > 0 ? models : undefined,
      }),
    } as Replacement;
  });
}

export function documentsIn(file: string, root: YamlNode | undefined): CitedDocument[] {
  return entriesOf(yamlGet(root, 'documents')).map(({ name, key, value }) => ({
    number: name,
    title: textOf(value, 'title') ?? '',
    ask: textOf(value, 'ask') ?? '',
    aliases: listOf(value, 'also'),
    origin: { file, span: key.span },
    ...(present({ revision: textOf(value, 'revision') }) as { revision?: string }),
  }));
}

export function noticesIn(file: string, root: YamlNode | undefined): StandingNotice[] {
  return entriesOf(yamlGet(root, 'notices')).map(({ name, key, value }) => ({
    name,
    word: wordOf(value, ['danger', 'warning', 'caution', 'notice'] as const, 'word') ?? 'notice',
    text: textOf(value, 'text') ?? '',
    origin: { file, span: key.span },
  }));
}

export function symptomsIn(file: string, root: YamlNode | undefined): Symptom[] {
  return entriesOf(yamlGet(root, 'symptoms')).map((entry) => {
    const list = yamlGet(entry.value, 'procedures');
    const items = list?.kind === 'seq' ? list.items : list ? [list] : [];
    const procedures = items.flatMap((item) => {
      const number = item.kind === 'scalar' ? item.text.trim() : (textOf(item, 'do') ?? '');
      const models = item.kind === 'map' ? listOf(item, 'models') : [];
      const options = item.kind === 'map' ? listOf(item, 'options') : [];
      if (number === '') return [];
      return [
        { number, origin: { file, span: item.span }, ...(models.length > 0 ? { models } : {}), ...(options.length > 0 ? { options } : {}) },
      ];
    });
    const { name, aliases, origin } = namedOf(file, entry);
    return { name, aliases, origin, procedures, ...(present({ family: textOf(entry.value, 'family') }) as { family?: string }) };
  });
}
