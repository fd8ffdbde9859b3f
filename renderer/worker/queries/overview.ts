/** The library in one list: each document with what a writer must see of it at a glance. */
import type { LibraryModel } from '../library-model.ts';

export interface DocumentLine {
  readonly file: string;
  readonly kind: 'procedure' | 'guide';
  readonly number: string;
  readonly title: string;
  readonly revision: string;
  readonly families: readonly string[];
  readonly models: readonly string[];
  readonly symptoms: readonly string[];
  readonly verdict: 'proved' | 'refuted' | 'not proved' | undefined;
}

export interface Overview {
  readonly publisher: string;
  readonly documents: readonly DocumentLine[];
  readonly models: readonly string[];
  readonly registers: readonly string[];
}

/** Of a procedure that was not read yet, for its place in the list only. */
const modelsGuessed = (text: string): readonly string[] => {
  const written = /^models:[ \t]*(?:\[(.*)\][ \t]*|((?:\r?\n[ \t]+- .*)+))$/m.exec(text);
  return (written?.[1]?.split(',') ?? written?.[2]?.split(/\r?\n[ \t]+- /) ?? []).map((name) => name.trim());
};

let told = '';

/** Undefined: as it was told last. */
export function overview(model: LibraryModel, _: Record<string, never>): Overview | undefined {
  const found = overviewOf(model);
  const text = JSON.stringify(found);
  if (text === told) return undefined;
  told = text;
  return found;
}

function overviewOf({ facts, heads, texts }: LibraryModel): Overview {
  const family = new Map(facts.registers.models.map((model) => [model.name, model.family]));
  const symptoms = new Map<string, string[]>();
  for (const { name, procedures } of facts.registers.symptoms)
    for (const { number } of procedures) symptoms.set(number, [...(symptoms.get(number) ?? []), name]);
  const documents = facts.procedures.map(({ file, head, flow }): DocumentLine => {
    const models = head.models.map(({ name }) => name);
    const verdicts = flow.verdicts.map(({ verdict }) => verdict);
    return {
      file,
      kind: 'procedure',
      number: head.id,
      title: head.title,
      revision: head.revision ?? '',
      families: [...new Set(models.flatMap((name) => family.get(name) ?? []))],
      models,
      symptoms: symptoms.get(head.id) ?? [],
      verdict: (['refuted', 'not proved', 'proved'] as const).find((one) => verdicts.includes(one)),
    };
  });
  const waiting = [...heads].map(([file, { id, title }]): DocumentLine => {
    const models = modelsGuessed(texts.get(file) ?? '').filter((name) => family.has(name));
    return {
      file,
      kind: 'procedure',
      number: id,
      title,
      revision: '',
      families: [...new Set(models.flatMap((name) => family.get(name) ?? []))],
      models,
      symptoms: symptoms.get(id) ?? [],
      verdict: undefined,
    };
  });
  const guides = facts.guides.map(
    ({ file, head }): DocumentLine => ({
      file,
      kind: 'guide',
      number: head.id,
      title: head.title,
      revision: head.revision ?? '',
      families: [],
      models: [],
      symptoms: [],
      verdict: undefined,
    }),
  );
  return {
    publisher: facts.registers.house.publisher,
    documents: [...[...documents, ...waiting].sort((a, b) => (a.file < b.file ? -1 : 1)), ...guides],
    models: facts.registers.models.map(({ name }) => name),
    registers: facts.registerFiles.map(({ file }) => file.source.path),
  };
}
