/** From symptom to procedure: a table a machine family, one column for all models that are served alike, procedures in the order to try them. */
import type { Family, ProcedureFacts, Symptom } from '../../procedures-schema/index.ts';
import type { BookBlock, Chapter, Inline } from '../book.ts';
import type { GuideWords } from '../printed-words/index.ts';
import { type ComposeInput, chapterAnchor } from './scope.ts';
import { wordsOf } from './spoken.ts';

const text = (said: string): Inline[] => [{ kind: 'text', text: said }];

/** undefined where no symptom leads to a procedure of the guide. */
export function symptomChapter(procedures: readonly ProcedureFacts[], input: ComposeInput, startRight: boolean): Chapter | undefined {
  const words = wordsOf(input).guide;
  const { symptoms } = input.library.registers;
  const inBook = new Set(procedures.map(({ head }) => head.id));
  const blocks = familiesInBook(procedures, input).flatMap((family): BookBlock[] => {
    const own = symptoms.filter((one) => one.family === family.name && one.procedures.some(({ number }) => inBook.has(number)));
    const models = modelsOf(family, procedures, input);
    if (own.length === 0 || models.length === 0) return [];
    const groups = groupsOf(own, models);
    return [
      { kind: 'heading', level: 2, text: capital(family.name), bookmark: false },
      {
        kind: 'table',
        head: [text(words.symptom), ...groups.map((group) => text(group.join(', ')))],
        rows: own.map((symptom) => [
          [{ kind: 'strong', text: symptom.name }, ...(symptom.aliases.length === 0 ? [] : text(` (${symptom.aliases.join(', ')})`))],
          ...groups.map((group) => cell(symptom, group[0] as string, inBook, words)),
        ]),
        align: ['left', ...groups.map(() => 'left' as const)],
        full: true,
      },
    ];
  });
  if (blocks.length === 0) return undefined;
  const intro: BookBlock = { kind: 'paragraph', style: 'lead', inline: text(words.symptomsIntro) };
  return { title: words.symptomsTitle, anchor: 'symptoms', startRight, blocks: [intro, ...blocks] };
}

/** In the order of the guide, not of the register: a reader looks for a machine where it stands in the book. */
export function familiesInBook(procedures: readonly ProcedureFacts[], input: ComposeInput): readonly Family[] {
  const { families, models } = input.library.registers;
  const familyOf = new Map(models.map(({ name, family }) => [name, family]));
  const seen = procedures.flatMap(({ machines }) => machines.map(({ variant }) => familyOf.get(variant.model)));
  const place = ({ name }: Family): number => (seen.includes(name) ? seen.indexOf(name) : seen.length);
  return [...families].sort((a, b) => place(a) - place(b));
}

/** Models of a family that a procedure of the guide is for, in register order. */
function modelsOf(family: Family, procedures: readonly ProcedureFacts[], input: ComposeInput): readonly string[] {
  const served = new Set(procedures.flatMap(({ machines }) => machines.map(({ variant }) => variant.model)));
  return input.library.registers.models
    .filter((model) => model.family === family.name && served.has(model.name) && (input.model === undefined || input.model === model.name))
    .map(({ name }) => name);
}

const appliesTo = (symptom: Symptom, model: string): Symptom['procedures'] =>
  symptom.procedures.filter(({ models }) => models === undefined || models.includes(model));

/** Models whose cells are the same for every symptom share a column. */
function groupsOf(symptoms: readonly Symptom[], models: readonly string[]): readonly (readonly string[])[] {
  const byCells = new Map<string, string[]>();
  for (const model of models) {
    const key = symptoms
      .map((symptom) =>
        appliesTo(symptom, model)
          .map(({ number, options }) => [number, ...(options ?? [])].join('+'))
          .join(' '),
      )
      .join('\n');
    byCells.set(key, [...(byCells.get(key) ?? []), model]);
  }
  return [...byCells.values()];
}

function cell(symptom: Symptom, model: string, inBook: ReadonlySet<string>, words: GuideWords): Inline[] {
  const list = appliesTo(symptom, model);
  return list.flatMap(({ number, options }, index): Inline[] => [
    ...(index === 0 ? [] : text(`, ${words.andThen} `)),
    inBook.has(number) ? { kind: 'link', text: number, anchor: chapterAnchor(number), page: true } : { kind: 'text', text: number },
    ...(options === undefined ? [] : text(` ${words.onlyWith.replace('{option}', options.join(', '))}`)),
  ]);
}

export const capital = (said: string): string => said.charAt(0).toUpperCase() + said.slice(1);
