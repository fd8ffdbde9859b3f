/** Which procedure is written for which model: one table over the whole guide, a column a model. */
import type { ProcedureFacts } from '../../procedures-schema/index.ts';
import type { Chapter, Inline } from '../book.ts';
import { guideWords } from './guide-words.ts';
import { type ComposeInput, chapterAnchor } from './scope.ts';

const text = (said: string): Inline[] => (said === '' ? [] : [{ kind: 'text', text: said }]);

export function coverageChapter(procedures: readonly ProcedureFacts[], input: ComposeInput, startRight: boolean): Chapter {
  const { registers } = input.library;
  const words = guideWords(registers.house.language);
  const served = new Set(procedures.flatMap(({ machines }) => machines.map(({ variant }) => variant.model)));
  const models = registers.models
    .map(({ name }) => name)
    .filter((name) => served.has(name) && (input.model === undefined || input.model === name));
  const optionNames = new Set(registers.options.map(({ name }) => name));
  const rows = procedures.map(({ head, machines }) => {
    const only = (head.onlyOn ?? []).filter((name) => optionNames.has(name));
    const note = only.length === 0 ? '' : `, ${words.onlyWith.replace('{option}', only.join(', '))}`;
    const own = new Set(machines.map(({ variant }) => variant.model));
    const title: Inline[] = [{ kind: 'link', text: `${head.id} ${head.title}`, anchor: chapterAnchor(head.id), page: true }, ...text(note)];
    return [title, ...models.map((name) => text(own.has(name) ? words.covered : ''))];
  });
  return {
    title: words.coverageTitle,
    anchor: 'coverage',
    startRight,
    blocks: [
      { kind: 'paragraph', style: 'lead', inline: text(words.coverageIntro) },
      { kind: 'table', head: [text(words.procedure), ...models.map(text)], rows, align: ['left', ...models.map(() => 'center' as const)] },
    ],
  };
}
