/** Which procedure is written for which model: a table a machine family, a column a model. */
import type { ProcedureFacts } from '../../procedures-schema/index.ts';
import type { BookBlock, Chapter, Inline } from '../book.ts';
import { type ComposeInput, chapterAnchor } from './scope.ts';
import { wordsOf } from './spoken.ts';
import { capital, familiesInBook } from './symptom-matrix.ts';

const text = (said: string): Inline[] => (said === '' ? [] : [{ kind: 'text', text: said }]);

export function coverageChapter(procedures: readonly ProcedureFacts[], input: ComposeInput, startRight: boolean): Chapter {
  const { registers } = input.library;
  const words = wordsOf(input).guide;
  const optionNames = new Set(registers.options.map(({ name }) => name));
  const blocks = familiesInBook(procedures, input).flatMap((family): BookBlock[] => {
    const models = registers.models
      .filter((model) => model.family === family.name && (input.model === undefined || input.model === model.name))
      .map(({ name }) => name)
      .filter((name) => procedures.some((facts) => isFor(facts, name)));
    const own = procedures.filter((facts) => models.some((name) => isFor(facts, name)));
    if (own.length === 0) return [];
    const rows = own.map((facts) => {
      const only = (facts.head.onlyOn ?? []).filter((name) => optionNames.has(name));
      const note = only.length === 0 ? '' : `, ${words.onlyWith.replace('{option}', only.join(', '))}`;
      const { id, title } = facts.head;
      const named: Inline[] = [{ kind: 'link', text: `${id} ${title}`, anchor: chapterAnchor(id), page: true }, ...text(note)];
      return [named, ...models.map((name) => text(isFor(facts, name) ? words.covered : ''))];
    });
    return [
      { kind: 'heading', level: 2, text: capital(family.name), anchor: `coverage ${family.name}`, bookmark: false },
      {
        kind: 'table',
        head: [text(words.procedure), ...models.map(text)],
        rows,
        align: ['left', ...models.map(() => 'center' as const)],
        full: true,
      },
    ];
  });
  const intro: BookBlock = { kind: 'paragraph', style: 'lead', inline: text(words.coverageIntro) };
  return { title: words.coverageTitle, anchor: 'coverage', startRight, blocks: [intro, ...blocks] };
}

const isFor = ({ machines }: ProcedureFacts, model: string): boolean => machines.some(({ variant }) => variant.model === model);
